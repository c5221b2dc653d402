using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Runs;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Turns the cables of links into lines of the parts list; doing it again brings the same lines up to date. Lines that are ordered or further stay.</summary>
internal static class LinkCables
{
    public static async Task<Outcome<LinkCablesResult>> PutOnListAsync(ShopDbContext db, SignalPlanView view, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var stock = await db.CatalogueParts.AsNoTracking().Where(part => part.Kind == PartKind.Cable).ToListAsync(cancellationToken);
        var own = await db.JobParts.Where(part => part.JobId == view.JobId && part.PlanRunId.StartsWith(SignalLink.CablePrefix)).ToListAsync(cancellationToken);
        // What is not measured or known for the moment is still asked for: its line stays as it is.
        own.RemoveAll(part => view.Undecided.Contains(part.PlanRunId));
        var lines = view.Cables.Where(cable => cable.LengthMeters is not null).Select(cable => Line(cable, stock));
        var outcome = await PlannedLines.BringAsync(db, view.JobId, own, lines, "no link asks for it any more", now, cancellationToken);
        return outcome.Succeeded
            ? new LinkCablesResult(outcome.Value.Added, outcome.Value.Updated, outcome.Value.Removed, outcome.Value.Kept)
            : outcome.As<LinkCablesResult>();
    }

    private static PlannedLine Line(LinkCable cable, List<CataloguePart> stock)
    {
        var (wanted, catalogueId) = Wanted(cable, stock);
        return new PlannedLine(wanted, catalogueId, part => part.PlanRunId == cable.RunId, part => Fits(part, cable), $"the run of {cable.Name}");
    }

    private static (JobPartDetails Details, Guid? CatalogueId) Wanted(LinkCable cable, List<CataloguePart> stock)
    {
        var match = stock
            .Where(part => part.Unit == PartUnit.Meter && part.Data is CableData data && data.Purpose == cable.Purpose && IsThickEnough(data, cable))
            .OrderBy(part => PlanPartsCheck.AreaOf((CableData)part.Data) ?? 0)
            .ThenBy(part => part.UnitPrice ?? decimal.MaxValue)
            .FirstOrDefault();
        var details = match is not null ? JobPartDetails.FromCatalogue(match) : new JobPartDetails
        {
            Kind = PartKind.Cable,
            Name = cable.Purpose switch { CablePurpose.Loudspeaker => $"Loudspeaker cable {cable.SizeLabel}", CablePurpose.Control => "Control wire", _ => "Screened twin signal cable" },
            Unit = PartUnit.Meter,
            UnitMassKilograms = cable.AreaSquareMillimeters is { } area && cable.Purpose == CablePurpose.Loudspeaker ? MassOfPair(area) : null,
            Data = new CableData
            {
                Purpose = cable.Purpose,
                AreaSquareMillimeters = cable.AreaSquareMillimeters is { } least ? Math.Ceiling(least * 100) / 100 : null,
                InsulationCelsius = ElectricalDefaults.InsulationCelsius,
            },
            Notes = cable.Purpose == CablePurpose.Loudspeaker ? "From the loudspeaker runs. The mass is an estimate: copper by area, insulation from memory." : "From the signal runs.",
        };
        // Rounded up to the half metre.
        details.Quantity = Math.Ceiling((decimal)((cable.LengthMeters ?? 0) + CableCut.DefaultServiceLoopMeters) * cable.Pieces * 2) / 2;
        details.Zone = cable.To;
        var place = $"{cable.Name}: {VehicleZones.NameOf(cable.From)} to {VehicleZones.NameOf(cable.To)}";
        details.Place = place.Length <= Limits.Line ? place : place[..Limits.Line];
        details.PlanRunId = cable.RunId;
        return (details, match?.Id);
    }

    private static double MassOfPair(double area)
    {
        var size = new ConductorSize("", area);
        return Math.Round(2 * (size.CopperKilogramsPerMeter + size.InsulationKilogramsPerMeterEstimate), 4);
    }

    private static bool IsThickEnough(CableData data, LinkCable cable) =>
        cable.AreaSquareMillimeters is not { } least || PlanPartsCheck.AreaOf(data) >= least * 0.995;

    private static bool Fits(JobPart line, LinkCable cable) => line.Data is CableData data && data.Purpose == cable.Purpose && IsThickEnough(data, cable);
}
