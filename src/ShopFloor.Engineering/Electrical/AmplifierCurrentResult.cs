using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical;

/// <summary>An amplifier at one level of output.</summary>
/// <param name="OutputWatts">Power into the loudspeakers, W.</param>
/// <param name="CurrentAmperes">Supply current with idle current, A.</param>
/// <param name="SupplyWatts">Power taken from the supply, W.</param>
/// <param name="Efficiency">Output over supply power, 0 to 1.</param>
/// <param name="HeatWatts">Power left in the amplifier as heat, W.</param>
public sealed record AmplifierLevel(
    double OutputWatts, double CurrentAmperes, double SupplyWatts, double Efficiency, double HeatWatts);

/// <summary>Supply current and heat of an amplifier at rated output, on music and at idle.</summary>
public sealed record AmplifierCurrentResult
{
    /// <summary>At rated continuous output: what fuse and conductor are chosen for.</summary>
    public required AmplifierLevel Rated { get; init; }

    /// <summary>On music at the entered crest factor: what battery and alternator have to supply.</summary>
    public required AmplifierLevel Music { get; init; }

    /// <summary>Switched on without signal.</summary>
    public required AmplifierLevel Idle { get; init; }

    /// <summary>Average music power as a fraction of rated power, 0 to 1.</summary>
    public required double MusicPowerFraction { get; init; }

    /// <summary>Full-power efficiency used, 0 to 1.</summary>
    public required double FullPowerEfficiency { get; init; }

    /// <summary>"entered", or "default" with its source.</summary>
    public required string EfficiencyOrigin { get; init; }

    /// <summary>"entered", or "default" with its source.</summary>
    public required string IdleOrigin { get; init; }

    /// <summary>What looks wrong with the data.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
