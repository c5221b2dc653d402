using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Voltage drop of a run at one current, there and back.</summary>
/// <param name="Amperes">Current, A.</param>
/// <param name="ConductorCelsius">Conductor temperature assumed, °C.</param>
/// <param name="ConductorOhms">Resistance of the conductors at that temperature, Ω.</param>
/// <param name="BodyOhms">Resistance of a body return, Ω; 0 for a dedicated return.</param>
/// <param name="Volts">Drop there and back, V.</param>
/// <param name="Percent">Drop in percent of the supply voltage.</param>
/// <param name="TerminationOhms">Resistance of lugs, joints and holders, Ω; 0 when they were left out.</param>
public sealed record RunDrop(
    double Amperes, double ConductorCelsius, double ConductorOhms, double BodyOhms, double Volts, double Percent, double TerminationOhms = 0);

/// <summary>Conductor and fuse of one run, and how they were reached.</summary>
public sealed record RunSizingResult
{
    /// <summary>Identifier of the run.</summary>
    public required string RunId { get; init; }

    /// <summary>Name of the run.</summary>
    public required string Name { get; init; }

    /// <summary>Conductor; the largest available when <see cref="DecidedBy"/> is <see cref="SizeDecision.NoneFits"/>.</summary>
    public required ConductorSize Conductor { get; init; }

    /// <summary>What decided the size.</summary>
    public required SizeDecision DecidedBy { get; init; }

    /// <summary>Whether every limit in <see cref="Limits"/> is kept.</summary>
    public required bool KeepsAllLimits { get; init; }

    /// <summary>Name of the ampacity table.</summary>
    public required string TableName { get; init; }

    /// <summary>What the table was written for.</summary>
    public required string TableStatement { get; init; }

    /// <summary>Row of the table, for example "4 AWG".</summary>
    public required string TableRow { get; init; }

    /// <summary>Column of the table: insulation class, °C.</summary>
    public required double TableColumnCelsius { get; init; }

    /// <summary>Table value before derating, A.</summary>
    public required double TableAmperes { get; init; }

    /// <summary>Factor for the surroundings, 0 to 1.</summary>
    public required double AmbientFactor { get; init; }

    /// <summary>Factor for bundling, 0 to 1.</summary>
    public required double BundlingFactor { get; init; }

    /// <summary>Current the conductor may carry here, A.</summary>
    public required double DeratedAmperes { get; init; }

    /// <summary>Least fuse rating the load asks for, A.</summary>
    public required double MinimumFuseAmperes { get; init; }

    /// <summary>Largest fuse the table's source allows, A: an outer ceiling, never used to choose.</summary>
    public required double FuseCeilingAmperes { get; init; }

    /// <summary>Fuse, or null when none fits.</summary>
    public required FuseChoice? Fuse { get; init; }

    /// <summary>Insulation class of the cable, °C; 0 in results kept from before it was recorded.</summary>
    public double InsulationCelsius { get; init; }

    /// <summary>Warmest surroundings reckoned with, °C; 0 in results kept from before it was recorded.</summary>
    public double AmbientCelsius { get; init; }

    /// <summary>Largest short-circuit current its fuse may have to interrupt, A, or null when not known.</summary>
    public double? ProspectiveAmperes { get; init; }

    /// <summary>Current at idle, A, or null when unknown.</summary>
    public required double? IdleAmperes { get; init; }

    /// <summary>Drop at the continuous current.</summary>
    public required RunDrop RatedDrop { get; init; }

    /// <summary>Drop at the average current on music.</summary>
    public required RunDrop MusicDrop { get; init; }

    internal RunDrop DropAt(DropBasis basis) => basis == DropBasis.MusicCurrent ? MusicDrop : RatedDrop;

    /// <summary>Length one way, m.</summary>
    public required double LengthMeters { get; init; }

    /// <summary>How the current gets back.</summary>
    public required ReturnPath ReturnPath { get; init; }

    /// <summary>Length of conductor needed, return included, m; no allowance for ends.</summary>
    public required double ConductorMeters { get; init; }

    /// <summary>Mass of copper, kg.</summary>
    public required double CopperKilograms { get; init; }

    /// <summary>Mass of cable with insulation, kg; the insulation is an estimate.</summary>
    public required double CableKilograms { get; init; }

    /// <summary>What was found.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>Every limit checked.</summary>
    public required IReadOnlyList<LimitCheck> Limits { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
