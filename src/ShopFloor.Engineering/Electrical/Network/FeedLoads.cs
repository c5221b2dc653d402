namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>A load that takes the same power at any voltage, such as an amplifier with a regulated supply.</summary>
public sealed record ConstantPowerLoad : FeedElement
{
    /// <summary>Power switched on and idle, W (0 to 1 000 000).</summary>
    public double IdleWatts { get; init; }

    /// <summary>Average power on typical music, W (0 to 1 000 000).</summary>
    public required double MusicWatts { get; init; }

    /// <summary>Power at full output, W (0 to 1 000 000).</summary>
    public required double FullWatts { get; init; }

    /// <summary>Voltage below which it stops working, V (0 to 1000), or null when not known.</summary>
    public double? MinimumWorkingVolts { get; init; }
}

/// <summary>A load that takes the same current at any voltage.</summary>
public sealed record ConstantCurrentLoad : FeedElement
{
    /// <summary>Current switched on and idle, A (0 to 100 000).</summary>
    public double IdleAmperes { get; init; }

    /// <summary>Average current on typical music, A (0 to 100 000).</summary>
    public required double MusicAmperes { get; init; }

    /// <summary>Current at full output, A (0 to 100 000).</summary>
    public required double FullAmperes { get; init; }

    /// <summary>Voltage below which it stops working, V (0 to 1000), or null when not known.</summary>
    public double? MinimumWorkingVolts { get; init; }
}

/// <summary>A load that behaves as a resistance. Null means that it draws nothing at that level.</summary>
public sealed record ResistiveLoad : FeedElement
{
    /// <summary>Resistance switched on and idle, Ω (0.000 001 to 1 000 000 000), or null.</summary>
    public double? IdleOhms { get; init; }

    /// <summary>Resistance on typical music, Ω (0.000 001 to 1 000 000 000), or null.</summary>
    public required double? MusicOhms { get; init; }

    /// <summary>Resistance at full output, Ω (0.000 001 to 1 000 000 000), or null.</summary>
    public required double? FullOhms { get; init; }

    /// <summary>Voltage below which it stops working, V (0 to 1000), or null when not known.</summary>
    public double? MinimumWorkingVolts { get; init; }
}

/// <summary>What the vehicle itself draws, whatever the music does; a constant current.</summary>
public sealed record VehicleBaseLoad : FeedElement
{
    /// <summary>With the engine off and the vehicle switched on as for listening, A (0 to 10 000).</summary>
    public required double EngineOffAmperes { get; init; }

    /// <summary>With the engine running, A (0 to 10 000).</summary>
    public required double EngineRunningAmperes { get; init; }
}
