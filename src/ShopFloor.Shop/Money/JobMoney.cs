using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Money;

/// <summary>Cost and margin, for those who may see them: of one job and of the shop.</summary>
public sealed class JobMoney(ShopStore store)
{
    private const int MostJobs = 500;

    public async Task<JobMoneySheet> SheetAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeCosts);
        return await store.ReadAsync(
            async db => (await SheetsAsync(db, [jobId], cancellationToken))[jobId],
            cancellationToken);
    }

    /// <summary>Jobs with their money: those open now, or those delivered in a month.</summary>
    /// <param name="deliveredIn">Any day of the month; null for the open jobs.</param>
    public async Task<ShopMoneySheet> ShopAsync(Actor actor, DateOnly? deliveredIn, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeCosts);
        return await store.ReadAsync(
            async db =>
            {
                var settings = await db.SettingsAsync(cancellationToken);
                var wanted = db.Jobs.Where(job => job.State == JobState.Open);
                if (deliveredIn is { } day)
                {
                    var (from, to) = MonthOf(day, SettingsReading.ZoneOf(settings));
                    wanted = db.Jobs.Where(job => job.State == JobState.Delivered && job.DeliveredAt >= from && job.DeliveredAt < to);
                }

                var jobs = await wanted
                    .OrderByDescending(job => job.Number)
                    .Take(MostJobs)
                    .Select(job => new { job.Id, job.Number, job.Title, Client = job.Client!.Name, job.Vehicle!.Make, job.Vehicle.Model, job.State, job.DeliveredAt }) // foreign keys are required
                    .ToListAsync(cancellationToken);
                var sheets = await SheetsAsync(db, [.. jobs.Select(job => job.Id)], cancellationToken);
                var lines = jobs.ConvertAll(job => new ShopMoneyLine(
                    job.Id, Job.ReferenceOf(job.Number), job.Title, job.Client, $"{job.Make} {job.Model}".Trim(), job.State, job.DeliveredAt, sheets[job.Id]));
                var delivered = await db.Jobs.Where(job => job.State == JobState.Delivered && job.DeliveredAt != null).Select(job => job.DeliveredAt!.Value).ToListAsync(cancellationToken); // not null by the filter
                var months = delivered.Select(at => FirstOfMonth(SettingsReading.DayIn(settings, at))).Distinct().OrderDescending().ToList();
                return new ShopMoneySheet(SettingsReading.CurrencyOf(settings).Code, lines, months);
            },
            cancellationToken);
    }

    private static DateOnly FirstOfMonth(DateOnly day) => new(day.Year, day.Month, 1);

    private static (DateTimeOffset From, DateTimeOffset To) MonthOf(DateOnly day, TimeZoneInfo zone)
    {
        DateTimeOffset Midnight(DateOnly first)
        {
            var wall = first.ToDateTime(TimeOnly.MinValue);
            // A zone that changes its clocks at midnight has no such instant on that day; its first one comes an hour later.
            wall = zone.IsInvalidTime(wall) ? wall.AddHours(1) : wall;
            return new DateTimeOffset(wall, zone.GetUtcOffset(wall)).ToUniversalTime();
        }

        var first = FirstOfMonth(day);
        return (Midnight(first), Midnight(first.AddMonths(1)));
    }

    private async Task<Dictionary<Guid, JobMoneySheet>> SheetsAsync(ShopDbContext db, List<Guid> jobIds, CancellationToken cancellationToken)
    {
        var now = store.Time.GetUtcNow();
        var settings = await db.SettingsAsync(cancellationToken);
        var currency = SettingsReading.CurrencyOf(settings);
        var parts = (await db.JobParts
            .Where(part => jobIds.Contains(part.JobId) && part.Direction == PartDirection.Installed)
            .Select(part => new { part.JobId, part.Name, part.State, part.Kind, part.Quantity, part.UnitCost })
            .ToListAsync(cancellationToken)).ToLookup(part => part.JobId);
        var entries = (await db.TimeEntries.Where(entry => jobIds.Contains(entry.JobId)).ToListAsync(cancellationToken)).ToLookup(entry => entry.JobId);
        var stages = (await db.JobStages.Include(stage => stage.Steps).Where(stage => jobIds.Contains(stage.JobId)).ToListAsync(cancellationToken)).ToLookup(stage => stage.JobId);
        var handWork = (await db.HandWorkAsync(jobIds, cancellationToken)).ToLookup(work => work.JobId);
        var approved = (await db.Estimates
            .Where(version => jobIds.Contains(version.JobId) && version.State == EstimateState.Approved)
            .Select(version => new { version.JobId, version.Number, version.Currency, version.NetTotal })
            .ToListAsync(cancellationToken)).ToLookup(version => version.JobId);
        var rates = await db.Users.Where(member => member.IsActive && member.CostPerHour > 0 && member.Role == ShopRole.Technician).Select(member => member.CostPerHour).ToListAsync(cancellationToken);
        decimal? usual = rates.Count > 0 ? rates.Average() : null;

        return jobIds.ToDictionary(jobId => jobId, jobId =>
        {
            var estimate = approved[jobId].MaxBy(version => version.Number);
            var inThisCurrency = estimate is not null && estimate.Currency == currency.Code;
            List<CostedStage> planned = [.. stages[jobId].OrderBy(stage => stage.Order).Select(stage => new CostedStage(
                stage.Name, stage.PlannedHours, entries[jobId].Where(entry => entry.StageId == stage.Id).Sum(entry => entry.HoursUntil(now)), stage.IsDone))];
            var sheet = JobCosting.Compute(
                currency,
                inThisCurrency ? new Amount(estimate!.NetTotal, currency) : null, // not null when inThisCurrency
                [.. parts[jobId].Select(part => new CostedPart(
                    part.Name, StageOf(part.State), part.Kind is PartKind.Material or PartKind.Treatment, part.Quantity, part.UnitCost))],
                [.. entries[jobId].Select(entry => new CostedHours(entry.StaffName, entry.HoursUntil(now), entry.CostPerHour))],
                [.. planned, .. HandWorkOf(planned, handWork[jobId].Sum(work => work.Hours))],
                usual);
            return estimate is null || inThisCurrency
                ? sheet
                : sheet with
                {
                    Gaps =
                    [
                        .. sheet.Gaps,
                        string.Create(CultureInfo.CurrentCulture, $"Estimate {estimate.Number} was approved in {estimate.Currency}, the shop now counts in {currency.Code}; its price is not compared."),
                    ],
                };
        });
    }

    // Nobody clocks in on a thing made by hand: what stages took beyond their plan is counted as work on it.
    private static IEnumerable<CostedStage> HandWorkOf(List<CostedStage> stages, decimal hours) => hours == 0
        ? []
        : [new CostedStage("Made by hand", hours, Math.Min(hours, stages.Sum(stage => Math.Max(0, stage.WorkedHours - stage.PlannedHours))), stages.Count > 0 && stages.TrueForAll(stage => stage.IsDone))];

    private static CostStage StageOf(PartState state) => state switch
    {
        PartState.Needed => CostStage.Needed,
        PartState.Ordered => CostStage.Ordered,
        PartState.Received => CostStage.Received,
        PartState.Fitted => CostStage.Fitted,
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, null),
    };
}

/// <summary>The owner's view over jobs.</summary>
/// <param name="Currency">ISO 4217 code.</param>
/// <param name="Jobs">Newest first.</param>
/// <param name="MonthsWithDeliveries">First days of the months in which jobs were delivered, newest first.</param>
public sealed record ShopMoneySheet(string Currency, IReadOnlyList<ShopMoneyLine> Jobs, IReadOnlyList<DateOnly> MonthsWithDeliveries)
{
    public decimal Quoted => Jobs.Sum(job => job.Money.Quoted ?? 0);

    public decimal CostSoFar => Jobs.Sum(job => job.Money.CostSoFar);

    public decimal ForecastCost => Jobs.Sum(job => job.Money.ForecastCost);

    /// <summary>Forecast margin of the jobs that have an approved price; the others have none.</summary>
    public decimal MarginForecast => Jobs.Sum(job => job.Money.MarginForecast ?? 0);

    public int WithoutPrice => Jobs.Count(job => job.Money.Quoted is null);
}

public sealed record ShopMoneyLine(
    Guid JobId, string Reference, string Title, string ClientName, string Vehicle, JobState State, DateTimeOffset? DeliveredAt, JobMoneySheet Money);
