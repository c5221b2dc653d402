using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>Gathers the sheet that follows the car through the shop. No money on it: it lies on the seat.</summary>
public sealed class Travellers(ShopStore store)
{
    public async Task<TravellerFacts> ReadAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return await store.ReadAsync(
            async db =>
            {
                var settings = await db.SettingsAsync(cancellationToken);
                var job = await db.WholeJobAsync(jobId, cancellationToken);
                var vehicle = job.Vehicle!; // included above; the foreign key is required
                var stages = await db.JobStages.Include(stage => stage.Steps).Where(stage => stage.JobId == jobId).OrderBy(stage => stage.Order).ToListAsync(cancellationToken);
                var belongings = await db.CheckIns.Where(checkIn => checkIn.JobId == jobId).Select(checkIn => checkIn.Belongings).SingleOrDefaultAsync(cancellationToken);
                return new TravellerFacts(
                    Letterhead.From(settings),
                    job.Id,
                    job.Reference,
                    job.Title,
                    job.Client!.Name, // included above; the foreign key is required
                    vehicle.Title,
                    vehicle.Plate,
                    vehicle.Vin,
                    vehicle.Colour,
                    vehicle.DriveType.Text(),
                    vehicle.DriveType.IsHighVoltage(),
                    job.PromisedOn,
                    job.KeyCount,
                    job.OdometerKilometers,
                    job.Wish,
                    RestrictionsOf(job),
                    belongings ?? "",
                    [.. stages.Select(stage => new TravellerStage(
                        stage.Name,
                        stage.PlannedHours,
                        [.. stage.Steps.OrderBy(step => step.Order).Select(step => new TravellerStep(
                            step.Text, step.Required, step.NeedsPhoto, step.NeedsSecondPerson, step.Measure?.Name ?? "", step.Measure?.LimitsText ?? "", step.IsDone))]))]);
            },
            cancellationToken);
    }

    /// <summary>What must not happen to this car, one line each.</summary>
    public static IReadOnlyList<string> RestrictionsOf(Job job)
    {
        ArgumentNullException.ThrowIfNull(job);
        var lines = new List<string>();
        if (job.NothingCut)
        {
            lines.Add("Nothing of the car is cut or drilled.");
        }

        if (job.LeasedVehicle)
        {
            lines.Add("Leased vehicle: everything has to go back to how it was.");
        }

        if (job.KeepSpareWheel)
        {
            lines.Add("The spare wheel stays usable.");
        }

        if (job.LuggageLitresToKeep is { } litres)
        {
            lines.Add(string.Create(CultureInfo.CurrentCulture, $"At least {litres:0.#} l of luggage space stay free."));
        }

        lines.AddRange(job.RestrictionNotes.Split('\n').Select(line => line.Trim()).Where(line => line.Length > 0));
        return lines;
    }
}

/// <summary>Everything on the traveller.</summary>
public sealed record TravellerFacts(
    Letterhead Letterhead,
    Guid JobId,
    string JobReference,
    string JobTitle,
    string ClientName,
    string Vehicle,
    string Plate,
    string Vin,
    string Colour,
    string Drive,
    bool HighVoltage,
    DateOnly? PromisedOn,
    int? KeyCount,
    double? OdometerKilometers,
    string Wish,
    IReadOnlyList<string> Restrictions,
    string Belongings,
    IReadOnlyList<TravellerStage> Stages);

public sealed record TravellerStage(string Name, decimal PlannedHours, IReadOnlyList<TravellerStep> Steps);

public sealed record TravellerStep(string Text, bool Required, bool NeedsPhoto, bool NeedsSecondPerson, string Measure, string Limits, bool Done);
