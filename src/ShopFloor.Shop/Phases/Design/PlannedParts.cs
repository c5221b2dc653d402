using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Conductors;
using ShopFloor.Engineering.Electrical.Fusing;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>
/// Turns the runs of a plan into lines of the parts list. A line keeps the run it came from, so doing it again brings the same lines
/// up to date. Lines that are ordered or further are left alone and told.
/// </summary>
internal static class PlannedParts
{
    public static async Task<Outcome<PlannedPartsResult>> PutOnListAsync(
        ShopDbContext db, ElectricalPlanView view, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var stock = await db.CatalogueParts.AsNoTracking()
            .Where(part => part.Kind == PartKind.Cable || part.Kind == PartKind.Fuse || part.Kind == PartKind.Distribution)
            .ToListAsync(cancellationToken);
        var own = await db.JobParts.Where(part => part.JobId == view.JobId && part.PlanRunId != "" && !part.PlanRunId.StartsWith(SignalLink.CablePrefix) && !part.PlanRunId.StartsWith(MadeLines.Prefix)).ToListAsync(cancellationToken);
        var buysDistribution = view.Sources.MainPartId is not { } main || own.Exists(part => part.Id == main);
        var wanted = Wanted(view, stock, buysDistribution).ToList();
        var lines = wanted.Select(each => new PlannedLine(each.Details, each.CatalogueId, part => KeyOf(part) == each.Key, part => SameThing(part, each.Details), "the plan"));
        var outcome = await PlannedLines.BringAsync(db, view.JobId, own, lines, "the plan no longer asks for it", now, cancellationToken);
        return outcome.Succeeded
            ? new PlannedPartsResult(
                outcome.Value.Added, outcome.Value.Updated, outcome.Value.Removed, outcome.Value.Kept, [.. wanted.Where(each => each.Details.UnitPrice is null).Select(each => each.Details.Name)])
            : outcome.As<PlannedPartsResult>();
    }

    private static IEnumerable<WantedPart> Wanted(ElectricalPlanView view, List<CataloguePart> stock, bool buysDistribution)
    {
        List<(PlanRun Run, FuseChoice Fuse)> fitted = [];
        var branches = view.Runs.Count(run => run.Place.SourceId == ElectricalPlanBuilder.MainRunId);
        foreach (var run in view.Runs)
        {
            // Where no size fits, nothing is decided, so nothing is bought.
            if (run.Sizing is not { DecidedBy: not SizeDecision.NoneFits } sizing)
            {
                continue;
            }

            yield return Cable(run, sizing, CablePurpose.Power, sizing.LengthMeters, stock);
            if (sizing.ReturnPath == ReturnPath.DedicatedConductor)
            {
                yield return Cable(run, sizing, CablePurpose.Ground, sizing.LengthMeters, stock);
            }

            if (sizing.Fuse is { } fuse)
            {
                yield return Placed(Fuse(fuse, stock, out var match), match, run, run.Place.From, "");
                fitted.Add((run, fuse));
            }

            if (run.Place.RunId == ElectricalPlanBuilder.MainRunId && buysDistribution)
            {
                yield return Distribution(run, branches, sizing.Fuse?.RatingAmperes ?? sizing.DeratedAmperes, stock);
            }
        }

        foreach (var spare in SpareFuses.For(fitted.Select(each => each.Fuse)))
        {
            var (run, fuse) = fitted.First(each => each.Fuse.Form == spare.Form && each.Fuse.RatingAmperes == spare.RatingAmperes);
            var details = Fuse(fuse, stock, out var match);
            (details.Zone, details.Place) = (run.Place.From, "Spare, left in the car");
            details.PlanRunId = string.Create(CultureInfo.InvariantCulture, $"{PlannedSpares.RunPrefix}{spare.RatingAmperes} A {spare.FormName}");
            yield return new WantedPart(new LineKey(details.PlanRunId, details.Kind, ""), details, match?.Id);
        }
    }

    /// <summary>The cable of the catalogue a run would be made of: of its size and metal, warm enough, cheapest first.</summary>
    internal static CataloguePart? CableOf(IEnumerable<CataloguePart> stock, ConductorSize size, double insulationCelsius, CablePurpose purpose) => stock
        .Where(part => part.Data is CableData cable
            && part.Unit == PartUnit.Meter
            && (cable.Purpose == purpose || cable.Purpose == CablePurpose.Power)
            && PlanShelf.IsSize(cable, size)
            && cable.InsulationCelsius >= insulationCelsius)
        .OrderBy(part => ((CableData)part.Data).Purpose != purpose)
        .ThenBy(part => part.UnitPrice ?? decimal.MaxValue)
        .FirstOrDefault();

    private static WantedPart Cable(
        PlanRun run, RunSizingResult sizing, CablePurpose purpose, double meters, List<CataloguePart> stock)
    {
        var match = CableOf(stock, sizing.Conductor, sizing.InsulationCelsius, purpose);
        var details = match is not null ? JobPartDetails.FromCatalogue(match) : new JobPartDetails
        {
            Kind = PartKind.Cable,
            Name = $"Cable {sizing.Conductor.Label}, {(purpose == CablePurpose.Power ? "feed" : "return")}",
            Unit = PartUnit.Meter,
            UnitMassKilograms = Math.Round(sizing.CableKilograms / sizing.ConductorMeters, 4),
            Data = new CableData
            {
                Purpose = purpose,
                Awg = sizing.Conductor.SizeSystem == SizeSystem.Awg ? sizing.Conductor.Label.Split(" AWG")[0] : null,
                Metal = sizing.Conductor.Material.IsCopperClad ? CableMetal.CopperCladAluminium : CableMetal.Copper,
                AreaSquareMillimeters = Math.Round(sizing.Conductor.AreaSquareMillimeters, 2),
                InsulationCelsius = sizing.InsulationCelsius,
            },
            Notes = "From the electrical plan. The mass is an estimate: copper by area, insulation from memory.",
        };
        // Rounded up to the half metre, so there is something for the ends.
        details.Quantity = Math.Ceiling((decimal)meters * 2) / 2;
        return Placed(details, match, run, run.Place.To, purpose.ToString());
    }

    private static JobPartDetails Fuse(FuseChoice fuse, List<CataloguePart> stock, out CataloguePart? match)
    {
        var form = SearchText.Words(fuse.FormName);
        match = stock
            .Where(part => part.Data is FuseData data
                && data.RatingAmperes is { } rating && Math.Abs(rating - fuse.RatingAmperes) < 1e-6
                && form.All(SearchText.Words(data.Form).Contains))
            // "Blade" is also in "small blade": the same words go before more words.
            .OrderBy(part => SearchText.Words(((FuseData)part.Data).Form).Count)
            .ThenBy(part => part.UnitPrice ?? decimal.MaxValue)
            .FirstOrDefault();
        return match is not null ? JobPartDetails.FromCatalogue(match) : new JobPartDetails
        {
            Kind = PartKind.Fuse,
            Name = string.Create(CultureInfo.InvariantCulture, $"Fuse {fuse.RatingAmperes} A, {fuse.FormName}"),
            Data = new FuseData
            {
                RatingAmperes = fuse.RatingAmperes,
                Form = fuse.FormName,
                // A remembered figure stays off the part, where it would count as its maker's.
                InterruptAmperes = fuse.InterruptIsFromMemory ? null : fuse.InterruptAmperes,
            },
            Notes = "From the electrical plan. Check voltage and interrupt rating against the maker's data.",
        };
    }

    private static WantedPart Distribution(PlanRun run, int ways, double amperes, List<CataloguePart> stock)
    {
        var match = stock
            .Where(part => part.Data is DistributionData data && data.Ways >= ways && data.MaxAmperes >= amperes)
            .OrderBy(part => ((DistributionData)part.Data).Ways)
            .ThenBy(part => part.UnitPrice ?? decimal.MaxValue)
            .FirstOrDefault();
        var details = match is not null ? JobPartDetails.FromCatalogue(match) : new JobPartDetails
        {
            Kind = PartKind.Distribution,
            Name = string.Create(CultureInfo.InvariantCulture, $"Fused distribution, {ways} ways"),
            Data = new DistributionData { Ways = ways, MaxAmperes = Math.Ceiling(amperes) },
            Notes = "From the electrical plan.",
        };
        return Placed(details, match, run, run.Place.To, "");
    }

    private static WantedPart Placed(JobPartDetails details, CataloguePart? match, PlanRun run, string zone, string role)
    {
        details.Zone = zone;
        details.Place = $"{run.Place.Name}: {VehicleZones.NameOf(run.Place.From)} to {VehicleZones.NameOf(run.Place.To)}";
        details.Place = details.Place.Length <= Limits.Line ? details.Place : details.Place[..Limits.Line];
        details.PlanRunId = run.Place.RunId;
        return new WantedPart(new LineKey(run.Place.RunId, details.Kind, role), details, match?.Id);
    }

    private static LineKey KeyOf(JobPart part) => new(
        part.PlanRunId, part.Kind, part.Data is CableData cable ? (cable.Purpose == CablePurpose.Ground ? CablePurpose.Ground : CablePurpose.Power).ToString() : "");

    private static bool SameThing(JobPart line, JobPartDetails wanted) => (line.Data, wanted.Data) switch
    {
        (CableData mine, CableData theirs) => PlanPartsCheck.AreaOf(mine) is { } a && PlanPartsCheck.AreaOf(theirs) is { } b
            && Math.Abs((a / b) - 1) < 0.005 && mine.Metal == theirs.Metal && !(mine.InsulationCelsius < theirs.InsulationCelsius),
        (FuseData mine, FuseData theirs) => mine.RatingAmperes == theirs.RatingAmperes
            && (PlanShelf.SeriesOf(mine.Form)?.Form == PlanShelf.SeriesOf(theirs.Form)?.Form
                || mine.InterruptAmperes >= (theirs.InterruptAmperes ?? PlanShelf.SeriesOf(theirs.Form)?.InterruptAmperes)),
        (DistributionData mine, DistributionData theirs) => mine.Ways >= theirs.Ways && mine.MaxAmperes >= theirs.MaxAmperes,
        _ => false,
    };

    private sealed record LineKey(string RunId, PartKind Kind, string Role);

    private sealed record WantedPart(LineKey Key, JobPartDetails Details, Guid? CatalogueId);
}
