namespace ShopFloor.Engineering.Electrical;

/// <summary>What kind of consumer a load is.</summary>
public enum LoadKind
{
    /// <summary>An amplifier: its currents are computed from its data sheet.</summary>
    Amplifier,

    /// <summary>Anything whose currents are known.</summary>
    Fixed,
}

/// <summary>Data sheet of an amplifier; null means not known yet, which is reported and never taken as zero.</summary>
public sealed record AmplifierLoad
{
    /// <summary>Rated continuous RMS output power of all channels together, W.</summary>
    public double? RatedOutputWatts { get; init; }

    /// <summary>Output stage.</summary>
    public AmplifierClass? Class { get; init; }

    /// <summary>Efficiency at rated output, 0.05 to 0.98; null takes the default of the class.</summary>
    public double? FullPowerEfficiency { get; init; }

    /// <summary>Idle current, A; null takes the default.</summary>
    public double? IdleAmperes { get; init; }

    /// <summary>Peak to RMS ratio of the music, dB.</summary>
    public double CrestFactorDecibels { get; init; } = ElectricalDefaults.CrestFactorDecibels;
}

/// <summary>Currents of a load that is no amplifier.</summary>
public sealed record FixedLoad
{
    /// <summary>Largest continuous current, A (0.001 to 2000); null means not known yet, which is reported.</summary>
    public double? RatedAmperes { get; init; }

    /// <summary>Average current while music plays, A; null takes the rated current.</summary>
    public double? MusicAmperes { get; init; }

    /// <summary>Current when switched on and idle, A; null takes the rated current.</summary>
    public double? IdleAmperes { get; init; }
}

/// <summary>One consumer with the run that feeds it.</summary>
public sealed record ElectricalLoad
{
    /// <summary>Identifier, unique in the plan.</summary>
    public required string Id { get; init; }

    /// <summary>Name shown in texts.</summary>
    public required string Name { get; init; }

    /// <summary>Kind; the data of that kind are used.</summary>
    public required LoadKind Kind { get; init; }

    /// <summary>Data sheet when <see cref="Kind"/> is <see cref="LoadKind.Amplifier"/>.</summary>
    public AmplifierLoad? Amplifier { get; init; }

    /// <summary>Currents when <see cref="Kind"/> is <see cref="LoadKind.Fixed"/>.</summary>
    public FixedLoad? Fixed { get; init; }

    /// <summary>Fuse the maker asks for, A, or null.</summary>
    public double? MakerFuseAmperes { get; init; }

    /// <summary>Drop allowed from the battery to it and back, percent of the supply voltage (0.1 to 20); null takes that of the rules.</summary>
    public double? MaxDropPercent { get; init; }

    /// <summary>Identifier of the point that feeds it; null when the vehicle's battery does.</summary>
    public string? FedFrom { get; init; }

    /// <summary>The run to it.</summary>
    public RunData Branch { get; init; } = new();
}
