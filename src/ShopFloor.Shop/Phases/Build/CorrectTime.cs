using System.ComponentModel.DataAnnotations;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>The right times of an entry, as the shop's wall clock showed them, and why.</summary>
public sealed class CorrectTime
{
    [Display(Name = "Started")]
    public DateTime? Started { get; set; }

    [Display(Name = "Stopped")]
    public DateTime? Stopped { get; set; }

    [Display(Name = "Reason")]
    public string Reason { get; set; } = "";

    internal (DateTimeOffset Started, DateTimeOffset Stopped, List<Problem> Problems) Read(
        TimeZoneInfo zone, DateTimeOffset aboutStart, DateTimeOffset aboutEnd, DateTimeOffset now)
    {
        var started = Started is { } from ? ShopDay.InstantOf(zone, from, aboutStart) : null;
        var stopped = Stopped is { } to ? ShopDay.InstantOf(zone, to, aboutEnd) : null;
        var check = new Check()
            .That(Started is not null, nameof(Started), "The start is needed.")
            .That(Stopped is not null, nameof(Stopped), "The end is needed.")
            .That(Started is null || started is not null, nameof(Started), $"The start is {Started:g}; the clocks went forward then and never showed that time.")
            .That(Stopped is null || stopped is not null, nameof(Stopped), $"The end is {Stopped:g}; the clocks went forward then and never showed that time.")
            .Required(Reason, nameof(Reason), "A reason", Limits.Line);
        if (started is { } start && stopped is { } end)
        {
            check
                .That(end > start, nameof(Stopped), $"The end ({Stopped:g}) is not after the start ({Started:g}).")
                .That(end <= now, nameof(Stopped), $"The end ({Stopped:g}) lies in the future.")
                .That(end - start <= TimeSpan.FromHours(24), nameof(Stopped), $"From {Started:g} to {Stopped:g} is more than 24 hours; split it by days.");
        }

        return (started ?? default, stopped ?? default, check.Problems);
    }
}

/// <summary>Time nobody pressed a button for.</summary>
public sealed class ForgottenTime
{
    [Display(Name = "Who")]
    public Guid? StaffId { get; set; }

    [Display(Name = "Stage")]
    public Guid? StageId { get; set; }

    /// <summary>When, and why it is written down only now.</summary>
    public CorrectTime Times { get; set; } = new();
}

/// <summary>A clock that runs.</summary>
public sealed record RunningClock(
    Guid EntryId, Guid JobId, int JobNumber, string JobTitle, Guid StageId, string StageName, Guid StaffId, string StaffName, DateTimeOffset StartedAt)
{
    public string JobReference => Job.ReferenceOf(JobNumber);

    public bool LooksForgotten(DateTimeOffset now) => now - StartedAt >= TimeClock.ForgottenAfter;
}

/// <summary>A stretch of time, without money.</summary>
public sealed record TimeRow(
    Guid EntryId, Guid StageId, string StageName, Guid StaffId, string StaffName, DateTimeOffset StartedAt, DateTimeOffset? StoppedAt, string Note, string CorrectedBy)
{
    public decimal HoursUntil(DateTimeOffset now) => Math.Max(0, (decimal)((StoppedAt ?? now) - StartedAt).TotalHours);
}
