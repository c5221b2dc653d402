using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Lighting;

/// <summary>Current of one colour over the whole strip.</summary>
/// <param name="Name">Colour.</param>
/// <param name="Amperes">At full brightness and full voltage, A.</param>
public sealed record LedChannelCurrent(string Name, double Amperes);

/// <summary>Currents, drop and supply of a light strip.</summary>
public sealed record LedStripResult
{
    /// <summary>By colour.</summary>
    public required IReadOnlyList<LedChannelCurrent> Channels { get; init; }

    /// <summary>All colours at full brightness and full voltage, A: what supply, controller and fuse are chosen for.</summary>
    public required double FullAmperes { get; init; }

    /// <summary>With the voltage drop taken into account, A; the same as full when the current is constant.</summary>
    public required double DrawnAmperes { get; init; }

    /// <summary>On average at the entered brightness, A.</summary>
    public required double AverageAmperes { get; init; }

    /// <summary>Drop from the supply to the worst-fed segment, feeder included, V. Can exceed the supply, which means the strip will not light.</summary>
    public required double DropVolts { get; init; }

    /// <summary>Current of the worst-fed segment over that of the best-fed, 0 to 1.</summary>
    public required double DimmestShare { get; init; }

    /// <summary>Least number of feed points that keeps the drop, or null when 50 do not.</summary>
    public required int? LeastFeedPoints { get; init; }

    /// <summary>Rating of supply or controller loaded to 80 %, W.</summary>
    public required double SupplyRatingWatts { get; init; }

    /// <summary>Rating of supply or controller loaded to 80 %, A.</summary>
    public required double SupplyRatingAmperes { get; init; }

    /// <summary>Smallest blade fuse loaded to at most 80 %, A, or null above 30 A.</summary>
    public required double? FuseAmperes { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
