namespace ShopFloor.Shop.Phases.Design;

/// <summary>The wiring schedule as data for other programs; lengths in m, currents in A, areas in mm², temperatures in °C.</summary>
/// <param name="ServiceLoopMeters">Contained in every cut length.</param>
public sealed record WiringTable(
    string JobReference,
    string JobTitle,
    string Vehicle,
    double ServiceLoopMeters,
    IReadOnlyList<WiringTableRow> Wires,
    IReadOnlyList<FuseRow> Fuses,
    IReadOnlyList<SpareFuse> SpareFuses,
    IReadOnlyList<WireToCut> ToCut,
    IReadOnlyList<string> Stops,
    IReadOnlyList<string> Cautions)
{
    public static WiringTable Of(WiringSchedule schedule)
    {
        ArgumentNullException.ThrowIfNull(schedule);
        var fuses = schedule.Fuses.ToDictionary(fuse => fuse.Mark);
        return new WiringTable(
            schedule.JobReference,
            schedule.JobTitle,
            schedule.Vehicle,
            schedule.ServiceLoopMeters,
            [.. schedule.Wires.Select(wire => WiringTableRow.Of(wire, fuses.GetValueOrDefault(wire.FuseMark)))],
            schedule.Fuses,
            schedule.Spares,
            schedule.ToCut,
            [.. schedule.Stops.Select(stop => $"{stop.Subject}: {stop.Text}")],
            schedule.Cautions);
    }
}

/// <summary>One conductor.</summary>
/// <param name="CutMeters">Length to cut, with the service loop, m.</param>
/// <param name="FuseMark">Its fuse; empty for a return or a run without one.</param>
/// <param name="FuseRatingAmperes">Rating of that fuse, A.</param>
public sealed record WiringTableRow(
    string Mark,
    string RunId,
    string Name,
    string From,
    string To,
    string Size,
    double AreaSquareMillimeters,
    double InsulationCelsius,
    string Colour,
    double CutMeters,
    bool LengthMeasured,
    bool IsReturn,
    string FromTerminal,
    string ToTerminal,
    string FuseMark,
    double? FuseRatingAmperes,
    string? FuseForm,
    string Route,
    string Notes)
{
    internal static WiringTableRow Of(WireRow wire, FuseRow? fuse) => new(
        wire.Mark,
        wire.RunId,
        wire.Name,
        wire.From,
        wire.To,
        wire.Size,
        wire.AreaSquareMillimeters,
        wire.InsulationCelsius,
        wire.Colour,
        wire.CutMeters,
        wire.LengthMeasured,
        wire.IsReturn,
        wire.FromTerminal,
        wire.ToTerminal,
        wire.FuseMark,
        fuse?.RatingAmperes,
        fuse?.Form,
        wire.Route,
        wire.Notes);
}
