using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Intake;

/// <summary>What came of trying a factory feature.</summary>
public enum FunctionResult
{
    NotTried,
    Works,
    Faulty,
    NotFitted,
}

/// <summary>
/// A factory feature, tried when the car comes in and tried again before it goes. Nothing the factory gave may be lost,
/// so every difference has to be explained.
/// </summary>
public sealed class FactoryFunction : IAudited, IVersioned, IRemovable
{
    public FactoryFunction(Guid jobId, string group, string name, int order)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        Group = group;
        Name = name;
        Order = order;
    }

    private FactoryFunction()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public Guid JobId { get; private set; }

    public int Order { get; private set; }

    public string Group { get; private set; } = "";

    public string Name { get; private set; } = "";

    public FunctionResult Before { get; private set; }

    public string BeforeNote { get; private set; } = "";

    public string BeforeBy { get; private set; } = "";

    public DateTimeOffset? BeforeAt { get; private set; }

    public FunctionResult After { get; private set; }

    public string AfterBy { get; private set; } = "";

    public DateTimeOffset? AfterAt { get; private set; }

    /// <summary>Why it is not as it was, in words the client reads.</summary>
    public string Explanation { get; private set; } = "";

    public DateTimeOffset? RemovedAt { get; private set; }

    public bool Differs => After != FunctionResult.NotTried && Before != FunctionResult.NotTried && After != Before;

    public bool IsUnexplained => Differs && Explanation.Length == 0;

    public void TryBefore(FunctionResult result, string note, string by, DateTimeOffset at)
    {
        Before = result;
        BeforeNote = note;
        BeforeBy = by;
        BeforeAt = at;
    }

    public void TryAfter(FunctionResult result, string explanation, string by, DateTimeOffset at)
    {
        After = result;
        Explanation = explanation;
        AfterBy = by;
        AfterAt = at;
    }

    public void Remove(DateTimeOffset at) => RemovedAt ??= at;

    public void BringBack() => RemovedAt = null;

    string IAudited.AuditName => Name;

    Guid? IAudited.AuditJobId => JobId;
}
