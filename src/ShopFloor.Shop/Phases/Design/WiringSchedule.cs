using ShopFloor.Engineering.Explained;
using ShopFloor.Shop.Money;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Everything the bench needs to make the looms of a job: one row a conductor, one a fuse, and what to cut it from.</summary>
/// <param name="ServiceLoopMeters">Added to each length as measured or suggested, m.</param>
public sealed record WiringSchedule(
    Letterhead Letterhead,
    string JobReference,
    string JobTitle,
    string Vehicle,
    ElectricalPlanView Plan,
    double ServiceLoopMeters,
    IReadOnlyList<WireRow> Wires,
    IReadOnlyList<FuseRow> Fuses,
    IReadOnlyList<SpareFuse> Spares,
    IReadOnlyList<WireToCut> ToCut,
    IReadOnlyList<Finding> Stops,
    IReadOnlyList<string> Cautions)
{
    /// <summary>What the job's facts say about working safely on its supply.</summary>
    public SupplySafety Safety { get; init; } = SupplySafety.None;
}

/// <summary>One conductor.</summary>
/// <param name="Mark">What its labels say, W1 or W1R for its return.</param>
/// <param name="CutMeters">Length to cut, with the service loop, m.</param>
/// <param name="IsReturn">Whether it is the return of its run.</param>
/// <param name="FromTerminal">End to crimp where it starts; empty where the maker of what stands there says it.</param>
/// <param name="ToTerminal">Likewise where it ends.</param>
/// <param name="FuseMark">Its fuse; empty for a return.</param>
/// <param name="LengthMeasured">Whether the length was measured; a suggested one is not to be cut by.</param>
public sealed record WireRow(
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
    string Route,
    string Notes);

/// <summary>One fuse.</summary>
/// <param name="FromSourceMeters">Along the conductor from where it is fed, m; null when not measured.</param>
public sealed record FuseRow(string Mark, double RatingAmperes, string Form, string Place, string Protects, double? FromSourceMeters);

/// <summary>Spare fuses to leave in the car: one of each rating and form.</summary>
public sealed record SpareFuse(double RatingAmperes, string Form);

/// <summary>How much of a conductor to have at hand.</summary>
public sealed record WireToCut(string Size, double AreaSquareMillimeters, double InsulationCelsius, string Colour, double Meters, int Pieces);
