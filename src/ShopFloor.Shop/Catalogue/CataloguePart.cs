using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Catalogue;

/// <summary>A part the shop uses again and again.</summary>
public sealed class CataloguePart : PartFacts, IAudited, IVersioned, IRemovable
{
    public CataloguePart(PartFacts facts)
    {
        Id = Guid.CreateVersion7();
        Apply(facts);
    }

    private CataloguePart()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    [NotAudited]
    public string SearchText { get; private set; } = "";

    public DateTimeOffset? RemovedAt { get; private set; }

    public void Apply(PartFacts facts)
    {
        CopyFrom(facts);
        SearchText = Common.SearchText.Of(Name, Supplier, PartNumber, PartKinds.Of(Kind).Name);
    }

    public void Remove(DateTimeOffset at) => RemovedAt ??= at;

    public void BringBack() => RemovedAt = null;

    string IAudited.AuditName => Name;

    Guid? IAudited.AuditJobId => null;
}
