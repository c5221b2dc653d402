using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Jobs;

/// <summary>The board: all open jobs by promised date, read a page at a time from the key of the row before.</summary>
public sealed class JobBoard(ShopStore store)
{
    public Task<BoardPage> PageAsync(Actor actor, BoardQuery query, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                var today = ShopDay.Today(await db.ZoneAsync(cancellationToken), store.Time.GetUtcNow());
                var size = Math.Clamp(query.Size, 1, Limits.Page);
                var matching = OfStage(Matching(db, actor, query, today), query);
                var found = await AfterAsync(matching, query.After, size + 1, cancellationToken);
                var ids = found.Take(size).Select(row => row.JobId).ToList();
                var working = (await db.TimeEntries
                        .Where(entry => entry.StoppedAt == null && ids.Contains(entry.JobId))
                        .OrderBy(entry => entry.StartedAt)
                        .Select(entry => new { entry.JobId, entry.StaffName })
                        .ToListAsync(cancellationToken))
                    .ToLookup(entry => entry.JobId, entry => entry.StaffName);
                return new BoardPage(
                    [.. found.Take(size).Select(row => row with { Today = today, Working = [.. working[row.JobId].Distinct()] })],
                    found.Count > size ? found[size - 1].Key : null,
                    today);
            },
            cancellationToken);
    }

    /// <summary>How many jobs match, in all and in each stage; the stage chosen does not narrow the strip it was chosen from.</summary>
    public Task<BoardCounts> CountsAsync(Actor actor, BoardQuery query, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                var today = ShopDay.Today(await db.ZoneAsync(cancellationToken), store.Time.GetUtcNow());
                var matching = Matching(db, actor, query, today);
                var stages = await matching
                    .GroupBy(job => new { job.Progress.StageName, Planned = job.Progress.StagesTotal > 0 })
                    .Select(group => new
                    {
                        group.Key.StageName,
                        group.Key.Planned,
                        Order = group.Min(job => job.Progress.StageOrder),
                        Jobs = group.Count(),
                        Late = group.Count(job => job.PromisedOn < today),
                        Blocked = group.Count(job => job.Progress.OpenBlockers > 0),
                    })
                    .ToListAsync(cancellationToken);
                return new BoardCounts(
                    stages.Sum(stage => stage.Jobs),
                    stages.Sum(stage => stage.Late),
                    stages.Sum(stage => stage.Blocked),
                    [.. stages.Where(stage => stage.StageName.Length > 0).OrderBy(stage => stage.Order).ThenBy(stage => stage.StageName, StringComparer.Ordinal)
                        .Select(stage => new StageCount(stage.StageName, stage.Jobs))],
                    stages.Where(stage => stage is { StageName: "", Planned: false }).Sum(stage => stage.Jobs),
                    stages.Where(stage => stage is { StageName: "", Planned: true }).Sum(stage => stage.Jobs));
            },
            cancellationToken);
    }

    private static IQueryable<Job> Matching(ShopDbContext db, Actor actor, BoardQuery query, DateOnly today)
    {
        var jobs = db.Jobs.Where(job => job.State == JobState.Open);
        if (query.Late)
        {
            jobs = jobs.Where(job => job.PromisedOn < today);
        }

        if (query.Blocked)
        {
            jobs = jobs.Where(job => job.Progress.OpenBlockers > 0);
        }

        if (query.Mine)
        {
            jobs = jobs.Where(job => db.TimeEntries.Any(entry => entry.JobId == job.Id && entry.StaffId == actor.Id)
                || db.JobSteps.Any(step => step.JobId == job.Id && step.TickedById == actor.Id));
        }

        foreach (var word in SearchText.Words(query.Search))
        {
            jobs = jobs.Where(job => job.SearchText.Contains(word));
        }

        return jobs;
    }

    private static IQueryable<Job> OfStage(IQueryable<Job> jobs, BoardQuery query) => query.Place switch
    {
        BoardPlace.Anywhere => jobs,
        BoardPlace.Stage => jobs.Where(job => job.Progress.StageName == query.StageName),
        BoardPlace.NotPlanned => jobs.Where(job => job.Progress.StagesTotal == 0),
        BoardPlace.AllStagesDone => jobs.Where(job => job.Progress.StagesTotal > 0 && job.Progress.StageName == ""),
        _ => throw new ArgumentOutOfRangeException(nameof(query), query.Place, "Unknown place on the board."),
    };

    // Two reads instead of one over a nullable column: dated jobs come in the index's order, those without a date after them.
    private static async Task<List<BoardRow>> AfterAsync(IQueryable<Job> jobs, BoardKey? after, int count, CancellationToken cancellationToken)
    {
        var found = new List<BoardRow>();
        if (after is null or { PromisedOn: not null })
        {
            var dated = jobs.Where(job => job.PromisedOn != null);
            if (after is { PromisedOn: { } day, Number: var number })
            {
                dated = dated.Where(job => job.PromisedOn > day || (job.PromisedOn == day && job.Number > number));
            }

            found = await Rows(dated.OrderBy(job => job.PromisedOn).ThenBy(job => job.Number).Take(count)).ToListAsync(cancellationToken);
        }

        if (found.Count < count)
        {
            var undated = jobs.Where(job => job.PromisedOn == null);
            if (after is { PromisedOn: null, Number: var number })
            {
                undated = undated.Where(job => job.Number > number);
            }

            found.AddRange(await Rows(undated.OrderBy(job => job.Number).Take(count - found.Count)).ToListAsync(cancellationToken));
        }

        return found;
    }

    private static IQueryable<BoardRow> Rows(IQueryable<Job> jobs) => jobs.Select(job => new BoardRow(
        job.Id,
        job.Number,
        job.Title,
        job.Client!.Name, // the foreign key is required
        job.Vehicle!.ModelYear, // the foreign key is required
        job.Vehicle.Make,
        job.Vehicle.Model,
        job.Vehicle.Plate,
        job.PromisedOn,
        job.Progress.StageName,
        job.Progress.StageOrder,
        job.Progress.StagesDone,
        job.Progress.StagesTotal,
        job.Progress.OpenBlockers,
        job.Progress.Track));
}
