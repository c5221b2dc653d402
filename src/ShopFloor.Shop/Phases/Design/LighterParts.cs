using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Mass;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>
/// Lighter things of the catalogue for panels and cables of a job: a panel as stiff as the planned one, a cable of the same purpose
/// and metal with at least the area the plan asks for, or that of the line.
/// </summary>
public sealed class LighterParts(ShopStore store)
{
    // A gauge and its nominal area differ by less.
    private const double SameArea = 0.995;

    /// <summary>Grams for money first for those who see prices, else the most grams first.</summary>
    public Task<List<LighterChoice>> GetAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                var facts = await PlanFacts.ReadAsync(db, jobId, cancellationToken);
                var stock = await StockAsync(db, cancellationToken);
                var sizes = Sizes(jobId, facts);
                var seesPrices = actor.May(Permission.SeePrices);
                var choices = facts.Parts.Where(IsOpen).SelectMany(part => Of(part, stock, sizes));
                return seesPrices
                    ? choices.OrderByDescending(choice => choice.IsFree).ThenByDescending(choice => choice.IsFree ? choice.SavedKilograms : choice.GramsPerMoney ?? -1).ThenByDescending(choice => choice.SavedKilograms).ToList()
                    : [.. choices.Select(choice => choice with { AddedPrice = null }).OrderByDescending(choice => choice.SavedKilograms)];
            },
            cancellationToken);
    }

    /// <summary>Makes the line the lighter thing; amount, place and way stay. Refused when it is ordered, or no longer among the choices.</summary>
    public Task<Outcome<Guid>> TakeAsync(Actor actor, Guid partId, Guid expectedVersion, Guid cataloguePartId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                if (await db.JobParts.SingleOrDefaultAsync(found => found.Id == partId, cancellationToken) is not { } part)
                {
                    return new Problem("", "That part is no longer on the list.");
                }

                if (await JobLock.ProblemAsync(db, part.JobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                if (!IsOpen(part))
                {
                    return new Problem("", $"{part.Name} is {part.State.Text().ToLowerInvariant()}; what is ordered is not replaced here.");
                }

                var facts = await PlanFacts.ReadAsync(db, part.JobId, cancellationToken);
                var stock = await StockAsync(db, cancellationToken);
                if (!Of(part, stock, Sizes(part.JobId, facts)).Any(choice => choice.CataloguePartId == cataloguePartId))
                {
                    return new Problem("", "That is no lighter choice for this part any more; the list shows what is there now.");
                }

                var details = JobPartDetails.FromCatalogue(stock.Single(found => found.Id == cataloguePartId)); // among the choices
                (details.Direction, details.Quantity, details.Zone, details.Place, details.Position) = (part.Direction, part.Quantity, part.Zone, part.Place, part.Position);
                (details.Access, details.PlanRunId) = (part.Access, part.PlanRunId);
                if (await db.ConflictAsync(part, expectedVersion, details, JobPartDetails.Of(part), cancellationToken) is { } conflict)
                {
                    return conflict;
                }

                part.Replace(details, cataloguePartId);
                return part.Id;
            },
            cancellationToken);
    }

    private static bool IsOpen(JobPart part) => part is { Direction: PartDirection.Installed, State: PartState.Needed, UnitMassKilograms: not null, Kind: PartKind.Material or PartKind.Cable };

    private static Task<List<CataloguePart>> StockAsync(ShopDbContext db, CancellationToken cancellationToken) =>
        db.CatalogueParts.AsNoTracking().Where(part => part.Kind == PartKind.Material || part.Kind == PartKind.Cable).ToListAsync(cancellationToken);

    /// <summary>The conductor the plan wants for each run, mm², and the temperature its insulation must stand.</summary>
    private static Dictionary<string, (double SquareMillimeters, double Celsius)> Sizes(Guid jobId, PlanFacts facts) => ElectricalPlans.ViewOf(jobId, facts, Engineering.Units.UnitText.Invariant).Runs
        .Where(run => run.Sizing is not null)
        .ToDictionary(run => run.Place.RunId, run => (run.Sizing!.Conductor.AreaSquareMillimeters, run.Sizing.InsulationCelsius)); // filtered

    private static IEnumerable<LighterChoice> Of(JobPart part, List<CataloguePart> stock, Dictionary<string, (double SquareMillimeters, double Celsius)> sizes) => part.Data switch
    {
        MaterialData panel => Panels(part, panel, stock),
        CableData cable => Cables(part, cable, stock, sizes),
        _ => [],
    };

    private static IEnumerable<LighterChoice> Panels(JobPart part, MaterialData panel, List<CataloguePart> stock)
    {
        if (part.Unit != PartUnit.SquareMeter || Sheet(part.Id.ToString(), part.Name, panel) is not { } planned)
        {
            yield break;
        }

        List<(CataloguePart Part, PanelMaterial Sheet)> candidates =
        [
            .. stock.Where(found => found.Id != part.CataloguePartId && found.Unit == PartUnit.SquareMeter && found.UnitMassKilograms is not null && found.Data is MaterialData)
                .Select(found => (found, Sheet(found.Id.ToString(), found.Name, (MaterialData)found.Data)))
                .Where(pair => pair.Item2 is not null)
                .Select(pair => (pair.found, pair.Item2!)),
        ];
        var input = new LighterPanelsInput { SquareMeters = (double)part.Quantity, Planned = planned, Candidates = [.. candidates.Take(200).Select(pair => pair.Sheet)] };
        if (candidates.Count == 0 || input.Validate().Count > 0)
        {
            yield break;
        }

        foreach (var option in LighterPanels.Compute(input).Options)
        {
            var stiffness = option.BendingNewtonMeters / LighterPanels.BendingNewtonMeters(planned.Pascals, planned.Sheets[0].ThicknessMeters);
            if (Choice(part, candidates.First(pair => pair.Sheet.Id == option.MaterialId).Part, LighterReason.AsStiff, stiffness) is { } choice)
            {
                yield return choice;
            }
        }
    }

    private static IEnumerable<LighterChoice> Cables(JobPart part, CableData cable, List<CataloguePart> stock, Dictionary<string, (double SquareMillimeters, double Celsius)> sizes)
    {
        var own = PlanPartsCheck.AreaOf(cable);
        var asked = sizes.TryGetValue(part.PlanRunId, out var run) ? run.SquareMillimeters : own;
        if (asked is not { } area || own is null || part.Unit != PartUnit.Meter)
        {
            yield break;
        }

        var celsius = Math.Max(run.Celsius, part.PlanRunId.Length > 0 && run.Celsius > 0 ? 0 : cable.InsulationCelsius ?? 0);
        foreach (var found in stock)
        {
            if (found.Id != part.CataloguePartId && found.Unit == PartUnit.Meter && found.Data is CableData other && other.Purpose == cable.Purpose && other.Metal == cable.Metal
                && PlanPartsCheck.AreaOf(other) is { } theirs && theirs >= area * SameArea && (other.InsulationCelsius ?? 0) >= celsius
                && Choice(part, found, LighterReason.CarriesAsMuch, theirs / area) is { } choice)
            {
                yield return choice;
            }
        }
    }

    private static PanelMaterial? Sheet(string id, string name, MaterialData data) =>
        data is { ThicknessMillimeters: { } thickness, DensityKilogramsPerCubicMeter: { } density, BendingGigapascals: { } modulus }
            ? new PanelMaterial(id, name, density, modulus * 1e9, [new SheetChoice(thickness / 1000)])
            : null;

    private static LighterChoice? Choice(JobPart part, CataloguePart other, LighterReason reason, double ratio)
    {
        // By the masses on the list and in the catalogue, which are weighed, not by density.
        var saved = (part.UnitMassKilograms - other.UnitMassKilograms) * (double)part.Quantity;
        return saved is > 0.001 ? new LighterChoice(part.Id, part.Version, part.Name, other.Id, other.Name, saved.Value, reason, ratio, (other.UnitPrice - part.UnitPrice) * part.Quantity) : null;
    }
}

/// <summary>Why the lighter thing may take the place.</summary>
public enum LighterReason
{
    AsStiff,
    CarriesAsMuch,
}

/// <summary>A lighter thing for a line of the parts list.</summary>
/// <param name="Version">Version of the line.</param>
/// <param name="Ratio">Its stiffness or area over what is asked, at least 1.</param>
/// <param name="AddedPrice">Net price more than now, of the whole line; null when one is not known or not shown.</param>
public sealed record LighterChoice(
    Guid PartId, Guid Version, string PartName, Guid CataloguePartId, string Name, double SavedKilograms, LighterReason Reason, double Ratio, decimal? AddedPrice)
{
    /// <summary>Lighter and not dearer.</summary>
    public bool IsFree => AddedPrice <= 0;

    /// <summary>Grams saved for one unit of money; null when it costs nothing more or its price is not known.</summary>
    public double? GramsPerMoney => AddedPrice is > 0 and var price ? SavedKilograms * 1000 / (double)price : null;
}
