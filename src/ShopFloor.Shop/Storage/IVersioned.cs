namespace ShopFloor.Shop.Storage;

/// <summary>A thing two people can edit at once; its version is renewed at every save and compared before one.</summary>
public interface IVersioned
{
    Guid Version { get; }
}

/// <summary>A thing that can be taken away and brought back; queries leave it out while it is away.</summary>
public interface IRemovable
{
    DateTimeOffset? RemovedAt { get; }
}
