using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Parts;

/// <summary>
/// How far each part has come: needed, ordered, received, fitted, and back when something was tapped by mistake.
/// Ordering is the desk's; whoever works on the car may mark what arrived and what is in.
/// </summary>
public sealed class Purchasing(ShopStore store)
{
    /// <param name="commandId">Made by the screen; a command sent again changes nothing.</param>
    /// <param name="from">The state the screen showed. If somebody moved the part meanwhile, the move is refused with what they did.</param>
    public Task<Outcome<Done>> MoveAsync(
        Actor actor, Guid commandId, Guid partId, PartState from, PartState to, CancellationToken cancellationToken)
    {
        actor.Demand(IsOrdering(from, to) ? Permission.DesignJobs : Permission.WorkOnJobs);
        return store.WriteOnceAsync(
            actor,
            commandId,
            async db =>
            {
                var part = await db.JobParts.SingleOrDefaultAsync(found => found.Id == partId, cancellationToken);
                if (part is null)
                {
                    return new Problem("", "That part was taken off the list.");
                }

                if (await JobLock.ProblemAsync(db, part.JobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                if (part.Direction == PartDirection.Removed)
                {
                    return new Problem("", $"{part.Name} comes out of the car; it is not bought.");
                }

                if (part.State == to)
                {
                    return Done.Value;
                }

                if (part.State != from)
                {
                    return new Problem("", $"{part.Name} is {part.State.Text().ToLowerInvariant()} by now; the list was refreshed.");
                }

                part.MoveTo(to);
                return Done.Value;
            },
            cancellationToken);
    }

    /// <summary>Marks needed parts as ordered in one go, with the supplier's reference and the day they are expected.</summary>
    public Task<Outcome<Done>> OrderAsync(
        Actor actor, IReadOnlyCollection<Guid> partIds, string reference, DateOnly? expectedOn, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.WriteAsync<Done>(
            actor,
            async db =>
            {
                var check = new Check()
                    .That(partIds.Count > 0, "", "No part is chosen.")
                    .Longest(reference, nameof(JobPart.OrderReference), "The order reference", Limits.Name);
                if (check.Failed)
                {
                    return check.Problems;
                }

                var parts = await db.JobParts.Where(part => partIds.Contains(part.Id)).ToListAsync(cancellationToken);
                foreach (var jobId in parts.Select(part => part.JobId).Distinct())
                {
                    if (await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked)
                    {
                        return locked;
                    }
                }

                var moved = parts.Where(part => part.State != PartState.Needed).Select(part => $"{part.Name} ({part.State.Text().ToLowerInvariant()})").ToList();
                if (moved.Count > 0 || parts.Count < partIds.Count)
                {
                    return new Problem(
                        "",
                        moved.Count > 0
                            ? $"No longer to be ordered: {string.Join(", ", moved)}. Choose again."
                            : "Some of the parts were taken off their lists. Choose again.");
                }

                parts.ForEach(part => part.PutOnOrder(reference, expectedOn));
                return Done.Value;
            },
            cancellationToken);
    }

    /// <summary>What has to be bought for all open jobs, by supplier.</summary>
    public Task<List<SupplierNeeds>> ToOrderAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return BySupplierAsync(PartState.Needed, cancellationToken);
    }

    /// <summary>What is on its way to all open jobs, by supplier.</summary>
    public Task<List<SupplierNeeds>> OnOrderAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return BySupplierAsync(PartState.Ordered, cancellationToken);
    }

    /// <summary>Ordered parts whose day has passed in the shop's time zone, longest overdue first.</summary>
    public async Task<List<LatePart>> LateAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        var today = await TodayAsync(actor, cancellationToken);
        var parts = await ReadAsync(PartState.Ordered, cancellationToken);
        return
        [
            .. from need in parts
               where need.ExpectedOn < today
               orderby need.ExpectedOn, need.JobReference
               select new LatePart(need, today.DayNumber - need.ExpectedOn!.Value.DayNumber), // the filter left only those with a day
        ];
    }

    /// <summary>Today on the shop's wall calendar.</summary>
    public async Task<DateOnly> TodayAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        var settings = await store.ReadAsync(
            db => db.ShopSettings.SingleOrDefaultAsync(found => found.Id == ShopSettings.OnlyId, cancellationToken),
            cancellationToken);
        var zone = settings is not null && TimeZoneInfo.TryFindSystemTimeZoneById(settings.Form.TimeZoneId, out var found) ? found : TimeZoneInfo.Utc;
        return DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(store.Time.GetUtcNow(), zone).DateTime);
    }

    /// <summary>Whether a move buys something or takes an order back.</summary>
    public static bool IsOrdering(PartState from, PartState to) =>
        (from, to) is (PartState.Needed, PartState.Ordered) or (PartState.Ordered, PartState.Needed);

    private async Task<List<SupplierNeeds>> BySupplierAsync(PartState state, CancellationToken cancellationToken) =>
    [
        .. (await ReadAsync(state, cancellationToken))
            .GroupBy(need => need.Supplier.Trim(), StringComparer.OrdinalIgnoreCase)
            .OrderBy(group => group.Key.Length == 0)
            .ThenBy(group => group.Key, StringComparer.CurrentCultureIgnoreCase)
            .Select(group => new SupplierNeeds(group.Key, [.. group.OrderBy(need => need.JobReference, StringComparer.Ordinal).ThenBy(need => need.Name, StringComparer.CurrentCulture)])),
    ];

    private Task<List<PartNeed>> ReadAsync(PartState state, CancellationToken cancellationToken) => store.ReadAsync(
        db => (from part in db.JobParts
               join job in db.Jobs on part.JobId equals job.Id
               where part.State == state && part.Direction == PartDirection.Installed && job.State == JobState.Open
               select new PartNeed(
                   part.Id,
                   job.Id,
                   Job.ReferenceOf(job.Number),
                   part.Name,
                   part.Supplier,
                   part.PartNumber,
                   part.Quantity,
                   part.Unit,
                   part.OrderReference,
                   part.ExpectedOn,
                   job.PromisedOn)).ToListAsync(cancellationToken),
        cancellationToken);
}
