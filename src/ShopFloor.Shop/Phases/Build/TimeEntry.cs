using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>Time a person spent on a stage. Start and stop are instants kept by the server; nothing ticks.</summary>
public sealed class TimeEntry : IAudited, IRemovable
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

    /// <summary>What is to be known about how the times came about, such as a press that was sent later.</summary>
    public string Note { get; private set; } = "";

    /// <summary>Who put the times right by hand; presses no longer change them then.</summary>
    public string CorrectedBy { get; private set; } = "";

    public DateTimeOffset? RemovedAt { get; private set; }

    public bool IsRunning => StoppedAt is null;

    public decimal HoursUntil(DateTimeOffset now) =>
        Math.Max(0, (decimal)((StoppedAt ?? now) - StartedAt).TotalHours);

    /// <summary>Ends it, or ends it earlier when an earlier press arrives late.</summary>
    public void Stop(DateTimeOffset at)
    {
        var end = at < StartedAt ? StartedAt : at;
        StoppedAt = StoppedAt is { } known && known < end ? known : end;
    }

    public void Remark(string note) => Note = Note.Length == 0 ? note : $"{Note} {note}";

    /// <summary>Puts right a clock that was left running or started late.</summary>
    public void Correct(DateTimeOffset startedAt, DateTimeOffset stoppedAt, string by)
    {
        if (stoppedAt < startedAt)
        {
            throw new ArgumentOutOfRangeException(nameof(stoppedAt), stoppedAt, "Ends before it starts.");
        }

        StartedAt = startedAt;
        StoppedAt = stoppedAt;
        CorrectedBy = by;
    }

    public void Remove(DateTimeOffset at) => RemovedAt ??= at;

    public void BringBack() => RemovedAt = null;

    string IAudited.AuditName => $"Time of {StaffName} on {StageName}";

    Guid? IAudited.AuditJobId => JobId;
}
