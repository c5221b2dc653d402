using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Intake;

/// <summary>What was wrong with a spot on the car before the shop touched it.</summary>
public enum ConditionKind
{
    Scratch,
    Dent,
    Chip,
    Crack,
    Worn,
    Missing,
}

/// <summary>A condition mark on the outline drawing.</summary>
public sealed class ConditionMark : IAudited, IRemovable
{
    public ConditionMark(Guid jobId, int number, ConditionKind kind, double x, double y, string area, string note)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        Number = number;
        Kind = kind;
        X = x;
        Y = y;
        Area = area;
        Note = note;
    }

    private ConditionMark()
    {
    }

    public Guid Id { get; private set; }

    public Guid JobId { get; private set; }

    public int Number { get; private set; }

    public ConditionKind Kind { get; private set; }

    /// <summary>Place across the drawing, 0 left to 1 right.</summary>
    public double X { get; private set; }

    /// <summary>Place down the drawing, 0 top to 1 bottom.</summary>
    public double Y { get; private set; }

    /// <summary>The place in words, for those who cannot see the drawing.</summary>
    public string Area { get; private set; } = "";

    public string Note { get; private set; } = "";

    public DateTimeOffset? RemovedAt { get; private set; }

    public void Remove(DateTimeOffset at) => RemovedAt ??= at;

    public void BringBack() => RemovedAt = null;

    string IAudited.AuditName => $"Condition mark {Number}";

    Guid? IAudited.AuditJobId => JobId;
}
