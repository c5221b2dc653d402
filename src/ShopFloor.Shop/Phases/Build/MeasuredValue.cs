using ShopFloor.Engineering.Electrical.Commissioning;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>
/// A value measured on the car. It keeps what was predicted and accepted when it was measured; whether it is good is judged by the plan as
/// it is now. Each repeat is one more; one taken back stays on file.
/// </summary>
public sealed class MeasuredValue : IAudited, IVersioned
{
    public MeasuredValue(Guid jobId, CommissioningPoint point, double value, Guid? byId, string by, DateTimeOffset at)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        PointId = point.Id;
        PointName = point.Name;
        Unit = point.Unit;
        Value = value;
        Predicted = point.Predicted;
        Lowest = point.Lowest;
        Highest = point.Highest;
        ById = byId;
        By = by;
        At = at;
    }

    private MeasuredValue()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public Guid JobId { get; private set; }

    public string PointId { get; private set; } = "";

    public string PointName { get; private set; } = "";

    public string Unit { get; private set; } = "";

    public double Value { get; private set; }

    public double? Predicted { get; private set; }

    public double? Lowest { get; private set; }

    public double? Highest { get; private set; }

    public Guid? ById { get; private set; }

    public string By { get; private set; } = "";

    public DateTimeOffset At { get; private set; }

    public DateTimeOffset? WithdrawnAt { get; private set; }

    public string WithdrawnBy { get; private set; } = "";

    public void Withdraw(string by, DateTimeOffset at)
    {
        if (WithdrawnAt is null)
        {
            WithdrawnAt = at;
            WithdrawnBy = by;
        }
    }

    string IAudited.AuditName => PointName;

    Guid? IAudited.AuditJobId => JobId;
}
