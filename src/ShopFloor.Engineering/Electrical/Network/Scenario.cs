namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>What the engine does.</summary>
public enum EngineState
{
    /// <summary>Standing still; the alternator gives nothing.</summary>
    Off,

    /// <summary>Running at idle speed.</summary>
    Idle,

    /// <summary>Running at cruising speed.</summary>
    Cruise,
}

/// <summary>What the loads do.</summary>
public enum LoadLevel
{
    /// <summary>Switched on, no signal.</summary>
    Idle,

    /// <summary>Typical music.</summary>
    Music,

    /// <summary>Full rated output.</summary>
    Full,
}

/// <summary>An operating state of the vehicle and its equipment.</summary>
/// <param name="Engine">What the engine does.</param>
/// <param name="Level">What the loads do.</param>
public sealed record Scenario(EngineState Engine, LoadLevel Level)
{
    /// <summary>Engine speed at idle, 1/min (100 to 20 000). The default is common practice, no source.</summary>
    public double IdleEngineRpm { get; init; } = 750;

    /// <summary>Engine speed at cruise, 1/min (100 to 20 000). The default is common practice, no source.</summary>
    public double CruiseEngineRpm { get; init; } = 2400;

    /// <summary>Engine speed in this scenario, 1/min.</summary>
    public double EngineRpm => Engine switch
    {
        EngineState.Off => 0,
        EngineState.Idle => IdleEngineRpm,
        _ => CruiseEngineRpm,
    };

    /// <summary>Engine off, idle and cruise, each with loads idle, on music and at full output.</summary>
    public static IReadOnlyList<Scenario> All { get; } =
        [.. from engine in Enum.GetValues<EngineState>() from level in Enum.GetValues<LoadLevel>() select new Scenario(engine, level)];

    /// <summary>The scenario in plain words.</summary>
    public override string ToString() =>
        Engine switch { EngineState.Off => "Engine off", EngineState.Idle => "Engine idling", _ => "Cruising" }
        + Level switch { LoadLevel.Idle => ", no signal", LoadLevel.Music => ", typical music", _ => ", full output" };
}
