using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical;

/// <summary>A load, or all loads together, at one level of output.</summary>
/// <param name="Amperes">Supply current, A.</param>
/// <param name="SupplyWatts">Power from the supply, W.</param>
/// <param name="OutputWatts">Power into loudspeakers, W; 0 for loads that are no amplifier.</param>
/// <param name="HeatWatts">Heat given off, W; a load that is no amplifier gives off all it takes.</param>
public sealed record PlanLevel(double Amperes, double SupplyWatts, double OutputWatts, double HeatWatts)
{
    internal static PlanLevel Zero { get; } = new(0, 0, 0, 0);

    internal PlanLevel Plus(PlanLevel other) => new(
        Amperes + other.Amperes, SupplyWatts + other.SupplyWatts, OutputWatts + other.OutputWatts, HeatWatts + other.HeatWatts);
}

/// <summary>Sums over all loads whose data are known.</summary>
/// <param name="Rated">Every load at rated output at once.</param>
/// <param name="Music">On music.</param>
/// <param name="Idle">Switched on without signal.</param>
/// <param name="IsComplete">Whether the data of every load are known.</param>
public sealed record PlanTotals(PlanLevel Rated, PlanLevel Music, PlanLevel Idle, bool IsComplete);

/// <summary>Voltage drop from the battery to a load and back.</summary>
/// <param name="UpstreamVolts">In the runs up to the point that feeds the load, V; 0 for a load at the battery.</param>
/// <param name="BranchVolts">In the load's own run, V.</param>
/// <param name="TotalVolts">Together, V.</param>
/// <param name="TotalPercent">Together, percent of the supply voltage.</param>
/// <param name="VoltsAtLoad">Voltage left at the load, V.</param>
public sealed record LoadDrop(double UpstreamVolts, double BranchVolts, double TotalVolts, double TotalPercent, double VoltsAtLoad);

/// <summary>One point of the plan with the run to it.</summary>
public sealed record PlannedPoint
{
    /// <summary>Identifier of the point.</summary>
    public required string PointId { get; init; }

    /// <summary>Name.</summary>
    public required string Name { get; init; }

    /// <summary>What stands there.</summary>
    public required FeedPointKind Kind { get; init; }

    /// <summary>Identifier of the point that feeds it; null for the vehicle's battery.</summary>
    public required string? FedFrom { get; init; }

    /// <summary>Current its run is chosen for, A; 0 when no known load is behind it.</summary>
    public required double Amperes { get; init; }

    /// <summary>The run to it; null when nothing is behind it, or while a length on the way is missing.</summary>
    public required RunSizingResult? Run { get; init; }
}

/// <summary>One load of the plan.</summary>
public sealed record PlannedLoad
{
    /// <summary>Identifier of the load.</summary>
    public required string LoadId { get; init; }

    /// <summary>Name.</summary>
    public required string Name { get; init; }

    /// <summary>Identifier of the point that feeds it; null for the vehicle's battery.</summary>
    public required string? FedFrom { get; init; }

    /// <summary>Names of the data that are missing; empty when complete.</summary>
    public required IReadOnlyList<string> MissingData { get; init; }

    /// <summary>At rated output, or null when data are missing.</summary>
    public required PlanLevel? Rated { get; init; }

    /// <summary>On music, or null when data are missing.</summary>
    public required PlanLevel? Music { get; init; }

    /// <summary>At idle, or null when data are missing.</summary>
    public required PlanLevel? Idle { get; init; }

    /// <summary>How the currents of an amplifier were reached, or null.</summary>
    public required AmplifierCurrentResult? Amplifier { get; init; }

    /// <summary>The run to the load, or null while a current or a length is missing.</summary>
    public required RunSizingResult? Branch { get; init; }

    /// <summary>Drop with every load at rated output, or null while a run is missing.</summary>
    public required LoadDrop? RatedDrop { get; init; }

    /// <summary>Drop on music, or null while a run is missing.</summary>
    public required LoadDrop? MusicDrop { get; init; }

    /// <summary>Drop allowed from the battery to it and back, V; 0 in results kept from before it was recorded.</summary>
    public double LimitVolts { get; init; }

    internal LoadDrop? DropAt(DropBasis basis) => basis == DropBasis.MusicCurrent ? MusicDrop : RatedDrop;
}

/// <summary>The conductor a run would get if runs were sized one by one.</summary>
/// <param name="RunId">Identifier of the run's point or load.</param>
/// <param name="Conductor">Conductor.</param>
/// <param name="ConductorMeters">Length of it, return included, m.</param>
public sealed record RunByRunSize(string RunId, ConductorSize Conductor, double ConductorMeters);

/// <summary>Conductor to buy: net lengths, no allowance for ends and routing.</summary>
/// <param name="Size">Label of the size.</param>
/// <param name="InsulationCelsius">Temperature class asked for, °C.</param>
/// <param name="PositiveMeters">Feed conductor, m.</param>
/// <param name="ReturnMeters">Return conductor, m.</param>
/// <param name="CableKilograms">Mass with insulation, kg; the insulation is an estimate.</param>
public sealed record ConductorToBuy(
    string Size, double InsulationCelsius, double PositiveMeters, double ReturnMeters, double CableKilograms);

/// <summary>Fuses to buy.</summary>
/// <param name="RatingAmperes">Rating, A.</param>
/// <param name="Form">Form, or null when the rating is in no series of the shop.</param>
/// <param name="FormName">Plain name of the form.</param>
/// <param name="Count">How many are fitted; spares are extra.</param>
public sealed record FuseToBuy(double RatingAmperes, FuseForm? Form, string FormName, int Count);

/// <summary>The whole supply network with its results.</summary>
public sealed record ElectricalPlanResult
{
    /// <summary>The points in the order entered.</summary>
    public required IReadOnlyList<PlannedPoint> Points { get; init; }

    /// <summary>The loads in the order entered.</summary>
    public required IReadOnlyList<PlannedLoad> Loads { get; init; }

    /// <summary>Sums at rated output, on music and at idle.</summary>
    public required PlanTotals Totals { get; init; }

    /// <summary>Drop allowed from the battery to any load and back, V.</summary>
    public required double MaxDropVolts { get; init; }

    /// <summary>Mass of copper in all runs, kg.</summary>
    public required double CopperKilograms { get; init; }

    /// <summary>Mass of all runs with insulation, kg; the insulation is an estimate.</summary>
    public required double CableKilograms { get; init; }

    /// <summary>Mass the cables would have with runs sized one by one from the battery outward, kg: what choosing them together is compared with.</summary>
    public required double RunByRunCableKilograms { get; init; }

    /// <summary>What each run would get sized one by one from the battery outward; empty in results kept from before it was recorded.</summary>
    public IReadOnlyList<RunByRunSize> RunByRunSizes { get; init; } = [];

    /// <summary>Comparison with the alternator, or null when it is not known.</summary>
    public required AlternatorComparison? Alternator { get; init; }

    /// <summary>Every finding of plan, runs and loads, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>Cautions to show where the plan is made and printed.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }

    /// <summary>Conductors to buy.</summary>
    public required IReadOnlyList<ConductorToBuy> ConductorsToBuy { get; init; }

    /// <summary>Fuses to buy.</summary>
    public required IReadOnlyList<FuseToBuy> FusesToBuy { get; init; }

    /// <summary>How the plan was reached.</summary>
    public required Explanation Explanation { get; init; }
}
