using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Clients;

/// <summary>Somebody whose car comes in.</summary>
public sealed class Client : IAudited, IVersioned
{
    public Client(ClientDetails details, DateTimeOffset at)
    {
        Id = Guid.CreateVersion7();
        CreatedAt = at;
        Apply(details);
    }

    private Client()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public string Name { get; private set; } = "";

    public string Phone { get; private set; } = "";

    public string Email { get; private set; } = "";

    public string Address { get; private set; } = "";

    public string Notes { get; private set; } = "";

    [NotAudited]
    public string SearchText { get; private set; } = "";

    public DateTimeOffset CreatedAt { get; private set; }

    public void Apply(ClientDetails details)
    {
        Name = details.Name.Trim();
        Phone = details.Phone.Trim();
        Email = details.Email.Trim();
        Address = details.Address.Trim();
        Notes = details.Notes.Trim();
        SearchText = Common.SearchText.Of(Name, Phone, DigitsOf(Phone), Email, Address);
    }

    /// <summary>Digits alone, so a number is found however it was spaced.</summary>
    public static string DigitsOf(string phone) => string.Concat(phone.Where(char.IsAsciiDigit));

    string IAudited.AuditName => Name;

    Guid? IAudited.AuditJobId => null;
}
