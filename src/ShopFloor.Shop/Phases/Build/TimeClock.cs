using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>
/// Keeps time by single presses. A person works on one stage at a time: starting elsewhere ends what ran. Presses sent later are put
/// where they belong by the time they were made, so that the order in which tablets find the Wi-Fi again does not matter.
/// </summary>
public sealed class TimeClock(ShopStore store)
{
    /// <summary>A clock that has run this long was most likely forgotten.</summary>
    public static readonly TimeSpan ForgottenAfter = TimeSpan.FromHours(10);

    public Task<Outcome<Done>> StartAsync(Actor actor, Guid commandId, Guid stageId, DateTimeOffset? pressedAt, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        return store.WriteOnceAsync(
            actor,
            commandId,
            async db =>
            {
                if (actor.Id is not { } staffId)
                {
                    return NoPerson;
                }

                if (await db.JobStages.FirstOrDefaultAsync(found => found.Id == stageId, cancellationToken) is not { } stage)
                {
                    return new Problem("StageId", "That stage is no longer part of the job; start the clock on another.");
                }

                if (await db.OpenJobProblemAsync(stage.JobId, cancellationToken) is { } problem)
                {
                    return problem;
                }

                if (await CommissioningGate.StartProblemAsync(db, stage, cancellationToken) is { } held)
                {
                    return held;
                }

                var press = PressTime.Of(pressedAt, store.Time.GetUtcNow());
                var entry = await BeginAsync(db, actor, staffId, stage, press, cancellationToken);
                if (entry is null)
                {
                    return Done.Value;
                }

                if (press.SentLater)
                {
                    await NoteLateAsync(db, entry, "Start", press, cancellationToken);
                }

                await db.RefreshProgressAsync(stage.JobId, cancellationToken);
                return Done.Value;
            },
            cancellationToken);
    }

    /// <summary>Ends what the person works on; when nothing runs there is nothing to do.</summary>
    public Task<Outcome<Done>> StopAsync(Actor actor, Guid commandId, DateTimeOffset? pressedAt, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        return store.WriteOnceAsync(
            actor,
            commandId,
            async db =>
            {
                if (actor.Id is not { } staffId)
                {
                    return NoPerson;
                }

                var press = PressTime.Of(pressedAt, store.Time.GetUtcNow());
                if (await EntryAtAsync(db, staffId, press.At, cancellationToken) is { CorrectedBy: "" } entry)
                {
                    entry.Stop(press.At);
                    if (press.SentLater)
                    {
                        await NoteLateAsync(db, entry, "Stop", press, cancellationToken);
                    }

                    await db.RefreshProgressAsync(entry.JobId, cancellationToken);
                }

                return Done.Value;
            },
            cancellationToken);
    }

    /// <summary>Puts an entry right, in times of the shop's wall clock.</summary>
    public Task<Outcome<Done>> CorrectAsync(Actor actor, Guid entryId, CorrectTime form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.WriteAsync<Done>(
            actor,
            async db =>
            {
                if (await db.TimeEntries.FirstOrDefaultAsync(found => found.Id == entryId, cancellationToken) is not { } entry)
                {
                    return new Problem("", "That entry is not on file.");
                }

                var zone = await db.ZoneAsync(cancellationToken);
                var now = store.Time.GetUtcNow();
                var (started, stopped, problems) = form.Read(zone, entry.StartedAt, entry.StoppedAt ?? now, now);
                if (problems.Count > 0)
                {
                    return problems;
                }

                if (await OverlapAsync(db, zone, entry.StaffId, entry.Id, started, stopped, cancellationToken) is { } overlap)
                {
                    return overlap;
                }

                entry.Correct(started, stopped, actor.Name);
                await db.RefreshProgressAsync(entry.JobId, cancellationToken);
                return Done.Value;
            },
            cancellationToken,
            form.Reason.Trim());
    }

    /// <summary>Writes down time nobody pressed a button for, in times of the shop's wall clock.</summary>
    public Task<Outcome<Guid>> AddForgottenAsync(Actor actor, Guid jobId, ForgottenTime form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                var zone = await db.ZoneAsync(cancellationToken);
                var now = store.Time.GetUtcNow();
                var (started, stopped, problems) = form.Times.Read(zone, now, now, now);
                var member = await db.Users.FirstOrDefaultAsync(found => found.Id == form.StaffId, cancellationToken);
                var stage = await db.JobStages.FirstOrDefaultAsync(found => found.Id == form.StageId && found.JobId == jobId, cancellationToken);
                problems.AddRange(new Check()
                    .That(member is not null, nameof(ForgottenTime.StaffId), "Choose whose time it was.")
                    .That(stage is not null, nameof(ForgottenTime.StageId), "Choose the stage it was spent on.")
                    .Problems);
                if (problems.Count > 0 || member is null || stage is null)
                {
                    return problems;
                }

                if (await OverlapAsync(db, zone, member.Id, null, started, stopped, cancellationToken) is { } overlap)
                {
                    return overlap;
                }

                var entry = db.TimeEntries.Add(new TimeEntry(jobId, stage.Id, stage.Name, member.Id, member.DisplayName, member.CostPerHour, started)).Entity;
                entry.Correct(started, stopped, actor.Name);
                entry.Remark($"Added later: {form.Times.Reason.Trim()}");
                await db.SaveChangesAsync(cancellationToken);
                await db.RefreshProgressAsync(jobId, cancellationToken);
                return entry.Id;
            },
            cancellationToken,
            form.Times.Reason.Trim());
    }

    /// <summary>Takes an entry out of every sum, such as a clock started on the wrong job. The trail keeps it, and it can be brought back.</summary>
    public Task<Outcome<Done>> RemoveAsync(Actor actor, Guid entryId, string reason, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.WriteAsync<Done>(
            actor,
            async db =>
            {
                var check = new Check().Required(reason, nameof(reason), "A reason", Limits.Line);
                if (check.Failed)
                {
                    return check.Problems;
                }

                if (await db.TimeEntries.FirstOrDefaultAsync(found => found.Id == entryId, cancellationToken) is not { } entry)
                {
                    return new Problem("", "That entry is not on file any more.");
                }

                entry.Remove(store.Time.GetUtcNow());
                await db.RefreshProgressAsync(entry.JobId, cancellationToken);
                return Done.Value;
            },
            cancellationToken,
            reason.Trim());
    }

    /// <summary>Brings a removed entry back, unless its time was meanwhile given to another.</summary>
    public Task<Outcome<Done>> BringBackAsync(Actor actor, Guid entryId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.WriteAsync<Done>(
            actor,
            async db =>
            {
                if (await db.TimeEntries.IgnoreQueryFilters().FirstOrDefaultAsync(found => found.Id == entryId, cancellationToken) is not { } entry)
                {
                    return new Problem("", "That entry is not on file.");
                }

                var zone = await db.ZoneAsync(cancellationToken);
                if (await OverlapAsync(db, zone, entry.StaffId, entry.Id, entry.StartedAt, entry.StoppedAt ?? store.Time.GetUtcNow(), cancellationToken) is { } overlap)
                {
                    return overlap;
                }

                entry.BringBack();
                await db.RefreshProgressAsync(entry.JobId, cancellationToken);
                return Done.Value;
            },
            cancellationToken);
    }

    /// <summary>Everybody's running clocks, longest first.</summary>
    public Task<List<RunningClock>> RunningAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => RunningIn(db, db.TimeEntries).ToListAsync(cancellationToken), cancellationToken);
    }

    /// <summary>The person's own running clock, or null.</summary>
    public Task<RunningClock?> MineAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => RunningIn(db, db.TimeEntries.Where(entry => entry.StaffId == actor.Id)).FirstOrDefaultAsync(cancellationToken), cancellationToken);
    }

    /// <summary>Entries of a job in order, without money.</summary>
    public Task<List<TimeRow>> EntriesAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            db => db.TimeEntries.Where(entry => entry.JobId == jobId)
                .OrderBy(entry => entry.StartedAt)
                .Select(entry => new TimeRow(
                    entry.Id, entry.StageId, entry.StageName, entry.StaffId, entry.StaffName, entry.StartedAt, entry.StoppedAt, entry.Note, entry.CorrectedBy))
                .ToListAsync(cancellationToken),
            cancellationToken);
    }

    private static async Task<Problem?> OverlapAsync(
        ShopDbContext db, TimeZoneInfo zone, Guid staffId, Guid? exceptId, DateTimeOffset started, DateTimeOffset stopped, CancellationToken cancellationToken)
    {
        var other = await db.TimeEntries.AsNoTracking()
            .Where(found => found.StaffId == staffId && found.Id != exceptId
                && found.StartedAt < stopped && (found.StoppedAt == null || found.StoppedAt > started))
            .OrderBy(found => found.StartedAt)
            .FirstOrDefaultAsync(cancellationToken);
        return other is null ? null : new Problem(
            nameof(CorrectTime.Started),
            $"{other.StaffName} was on '{other.StageName}' from {ShopDay.ClockText(zone, other.StartedAt)}"
            + (other.StoppedAt is { } end ? $" to {ShopDay.ClockText(zone, end)}; the times must not overlap." : " and still is; the times must not overlap."));
    }

    private static Problem NoPerson => new("", "Time is kept for people; this sign-in is none.");

    private static IQueryable<RunningClock> RunningIn(ShopDbContext db, IQueryable<TimeEntry> entries) =>
        from entry in entries
        where entry.StoppedAt == null
        join job in db.Jobs on entry.JobId equals job.Id
        orderby entry.StartedAt
        select new RunningClock(entry.Id, entry.JobId, job.Number, job.Title, entry.StageId, entry.StageName, entry.StaffId, entry.StaffName, entry.StartedAt);

    /// <summary>What the person was on at an instant: the running entry, or one that ended later.</summary>
    private static Task<TimeEntry?> EntryAtAsync(ShopDbContext db, Guid staffId, DateTimeOffset at, CancellationToken cancellationToken) =>
        db.TimeEntries
            .Where(entry => entry.StaffId == staffId && entry.StartedAt <= at && (entry.StoppedAt == null || entry.StoppedAt > at))
            .OrderByDescending(entry => entry.StartedAt)
            .FirstOrDefaultAsync(cancellationToken);

    /// <returns>The new entry, or null when the person is already on that stage.</returns>
    private static async Task<TimeEntry?> BeginAsync(
        ShopDbContext db, Actor actor, Guid staffId, JobStage stage, PressTime press, CancellationToken cancellationToken)
    {
        var at = press.At;
        var covering = await EntryAtAsync(db, staffId, at, cancellationToken);
        if (covering?.StageId == stage.Id)
        {
            return null;
        }

        DateTimeOffset? end = null;
        if (covering is { CorrectedBy.Length: > 0, StoppedAt: { } corrected })
        {
            // The owner has settled that stretch; the press counts from its end.
            at = corrected;
        }
        else if (covering is not null)
        {
            // What it cuts off belongs to the new stage, up to where that ended.
            end = covering.StoppedAt;
            covering.Stop(at);
            await db.SaveChangesAsync(cancellationToken);
            if (covering.JobId != stage.JobId)
            {
                await db.RefreshProgressAsync(covering.JobId, cancellationToken);
            }
        }

        var next = await db.TimeEntries.Where(entry => entry.StaffId == staffId && entry.StartedAt >= at && entry.Id != (covering == null ? Guid.Empty : covering.Id))
            .OrderBy(entry => entry.StartedAt).Select(entry => (DateTimeOffset?)entry.StartedAt).FirstOrDefaultAsync(cancellationToken);
        end = end is null || next < end ? next ?? end : end;
        var rate = await db.Users.Where(member => member.Id == staffId).Select(member => member.CostPerHour).FirstOrDefaultAsync(cancellationToken);
        var entry = db.TimeEntries.Add(new TimeEntry(stage.JobId, stage.Id, stage.Name, staffId, actor.Name, rate, at)).Entity;
        if (end is { } known)
        {
            entry.Stop(known);
        }

        return entry;
    }

    private async Task NoteLateAsync(ShopDbContext db, TimeEntry entry, string what, PressTime press, CancellationToken cancellationToken)
    {
        var zone = await db.ZoneAsync(cancellationToken);
        entry.Remark($"{what} pressed at {ShopDay.ClockText(zone, press.At)} without a connection, received at {ShopDay.ClockText(zone, store.Time.GetUtcNow())}.");
    }
}
