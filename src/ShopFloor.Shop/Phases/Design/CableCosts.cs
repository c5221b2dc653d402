using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What the cables of a plan cost the shop, against the same runs sized one by one. For those who may see costs.</summary>
public sealed class CableCosts(ShopStore store)
{
    /// <returns>Null while no run is sized.</returns>
    public Task<CableCost?> GetAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeCosts);
        return store.ReadAsync(
            async db =>
            {
                var plan = await ElectricalPlans.ViewAsync(db, jobId, UnitText.Invariant, cancellationToken);
                if (plan.Result is not { RunByRunSizes.Count: > 0 } result)
                {
                    return null;
                }

                var stock = await db.CatalogueParts.AsNoTracking().Where(part => part.Kind == PartKind.Cable).ToListAsync(cancellationToken);
                var settings = await db.SettingsAsync(cancellationToken);
                return Of([.. plan.Runs.Select(run => run.Sizing).OfType<RunSizingResult>()], result.RunByRunSizes, stock, SettingsReading.CurrencyOf(settings));
            },
            cancellationToken);
    }

    internal static CableCost Of(IReadOnlyList<RunSizingResult> runs, IReadOnlyList<RunByRunSize> runByRun, IReadOnlyList<CataloguePart> stock, Currency currency)
    {
        var classes = runs.ToDictionary(run => run.RunId, run => run.InsulationCelsius);
        var missing = new SortedSet<string>(StringComparer.Ordinal);
        Amount? Sum(IEnumerable<(string RunId, ConductorSize Conductor, double Meters)> pieces)
        {
            decimal? sum = 0;
            foreach (var (runId, conductor, meters) in pieces)
            {
                var cost = PlannedParts.CableOf(stock, conductor, classes[runId], CablePurpose.Power)?.UnitCost;
                if (cost is null)
                {
                    missing.Add(conductor.Label);
                }

                sum += cost * (decimal)meters;
            }

            return sum is { } whole ? new Amount(whole, currency) : null;
        }

        var lightest = Sum(runs.Select(run => (run.RunId, run.Conductor, run.ConductorMeters)));
        var oneByOne = Sum(runByRun.Where(run => classes.ContainsKey(run.RunId)).Select(run => (run.RunId, run.Conductor, run.ConductorMeters)));
        return new CableCost(lightest, oneByOne, [.. missing]);
    }
}

/// <summary>Net cost of the cables by the catalogue, without an allowance for ends.</summary>
/// <param name="Lightest">Of the sizes the plan chose; null when one of them has no cost in the catalogue.</param>
/// <param name="RunByRun">Of the same runs sized one by one; likewise.</param>
/// <param name="WithoutCost">Sizes the catalogue has no cost for.</param>
public sealed record CableCost(Amount? Lightest, Amount? RunByRun, IReadOnlyList<string> WithoutCost);
