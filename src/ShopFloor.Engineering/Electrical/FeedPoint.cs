namespace ShopFloor.Engineering.Electrical;

/// <summary>What a point of the feed is.</summary>
public enum FeedPointKind
{
    /// <summary>Splits the feed: a fused distribution, a bus bar, a stud.</summary>
    Distribution,

    /// <summary>A second battery: its run needs a fuse at both ends.</summary>
    Battery,

    /// <summary>A capacitor across the feed.</summary>
    Capacitor,
}

/// <summary>A point loads and further points are fed from, with the run that feeds it.</summary>
public sealed record FeedPoint
{
    /// <summary>Identifier, unique among points and loads.</summary>
    public required string Id { get; init; }

    /// <summary>Name of the run to it, shown in texts.</summary>
    public required string Name { get; init; }

    /// <summary>What stands there.</summary>
    public FeedPointKind Kind { get; init; }

    /// <summary>The battery there as a source of short-circuit current, when <see cref="Kind"/> says so and it is known.</summary>
    public BatterySource? Battery { get; init; }

    /// <summary>Identifier of the point that feeds it; null when the vehicle's battery does.</summary>
    public string? FedFrom { get; init; }

    /// <summary>The run to it.</summary>
    public RunData Run { get; init; } = new();

    /// <summary>
    /// Share of the summed rated currents behind it that its run is chosen for, 0.3 to 1. The default is all of it, because fuse and
    /// conductor must stand every load at full output at once. Never below the music sum or the largest single load.
    /// </summary>
    public double DemandFactor { get; init; } = 1;
}
