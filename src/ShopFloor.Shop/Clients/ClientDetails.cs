using System.ComponentModel.DataAnnotations;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Clients;

/// <summary>What the front desk types about a client.</summary>
public sealed class ClientDetails
{
    [Display(Name = "Name")]
    public string Name { get; set; } = "";

    [Display(Name = "Phone")]
    public string Phone { get; set; } = "";

    [Display(Name = "E-mail")]
    public string Email { get; set; } = "";

    [Display(Name = "Address")]
    public string Address { get; set; } = "";

    [Display(Name = "Notes for the shop")]
    public string Notes { get; set; } = "";

    public static ClientDetails Of(Client client) => new()
    {
        Name = client.Name,
        Phone = client.Phone,
        Email = client.Email,
        Address = client.Address,
        Notes = client.Notes,
    };

    public static ClientDetails Copy(ClientDetails other) => (ClientDetails)other.MemberwiseClone();

    public List<Problem> Problems() => new Check()
        .Required(Name, nameof(Name), "The client's name")
        .Longest(Phone, nameof(Phone), "The phone number", 50)
        .Longest(Email, nameof(Email), "The e-mail address", Limits.Name)
        .Longest(Address, nameof(Address), "The address", Limits.Line)
        .Longest(Notes, nameof(Notes), "The note", Limits.Note)
        .That(
            string.IsNullOrWhiteSpace(Email) || new EmailAddressAttribute().IsValid(Email.Trim()),
            nameof(Email),
            $"'{Email}' is not an e-mail address; accepted is name@domain, or nothing.")
        .Problems;
}
