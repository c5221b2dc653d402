using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>Time a person spent on a stage. Start and stop are instants kept by the server; nothing ticks.</summary>
public sealed class TimeEntry : IAudited
{
    public TimeEntry(Guid jobId, Guid stageId, string stageName, Guid staffId, string staffName, decimal costPerHour, DateTimeOffset startedAt)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        StageId = stageId;
        StageName = stageName;
        StaffId = staffId;
        StaffName = staffName;
        CostPerHour = costPerHour;
        StartedAt = startedAt;
    }

    private TimeEntry()
    {
    }

    public Guid Id { get; private set; }

    public Guid JobId { get; private set; }

    public Guid StageId { get; private set; }

    public string StageName { get; private set; } = "";

    public Guid StaffId { get; private set; }

    public string StaffName { get; private set; } = "";

    /// <summary>Cost rate of the person when the work was done, so later raises do not rewrite old jobs.</summary>
    public decimal CostPerHour { get; private set; }

    public DateTimeOffset StartedAt { get; private set; }

    public DateTimeOffset? StoppedAt { get; private set; }

    public bool IsRunning => StoppedAt is null;

    public decimal HoursUntil(DateTimeOffset now) =>
        Math.Max(0, (decimal)((StoppedAt ?? now) - StartedAt).TotalHours);

    public void Stop(DateTimeOffset at) => StoppedAt ??= at < StartedAt ? StartedAt : at;

    /// <summary>Puts right a clock that was left running or started late.</summary>
    public void Correct(DateTimeOffset startedAt, DateTimeOffset stoppedAt)
    {
        if (stoppedAt < startedAt)
        {
            throw new ArgumentOutOfRangeException(nameof(stoppedAt), stoppedAt, "Ends before it starts.");
        }

        StartedAt = startedAt;
        StoppedAt = stoppedAt;
    }

    string IAudited.AuditName => $"Time of {StaffName} on {StageName}";

    Guid? IAudited.AuditJobId => JobId;
}
