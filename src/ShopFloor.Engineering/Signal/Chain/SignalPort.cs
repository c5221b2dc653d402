namespace ShopFloor.Engineering.Signal.Chain;

/// <summary>A connector of a device. Fields that are not known are null, never zero.</summary>
public sealed record SignalPort
{
    /// <summary>Identifier, unique within its device.</summary>
    public required string Id { get; init; }

    /// <summary>Name as printed on the device or its plug.</summary>
    public required string Name { get; init; }

    /// <summary>What it carries.</summary>
    public required PortKind Kind { get; init; }

    /// <summary>Analogue output: largest undistorted voltage. Analogue input: voltage it clips at in its least sensitive position. V rms.</summary>
    public double? MaxVolts { get; init; }

    /// <summary>Analogue input with a sensitivity control: voltage for full scale in its most sensitive position, V rms. Null: no control.</summary>
    public double? MinVolts { get; init; }

    /// <summary>Output or input impedance, Ω.</summary>
    public double? Ohms { get; init; }

    /// <summary>Highest sample rate of a digital connector, Hz.</summary>
    public double? MaxSampleRateHertz { get; init; }

    /// <summary>Longest word of a digital connector, bits.</summary>
    public int? MaxBits { get; init; }

    /// <summary>Bit rate of a lossy codec on this connector, kbit/s; null when nothing is thrown away.</summary>
    public double? CodecKilobitsPerSecond { get; init; }

    /// <summary>Side of the image this connector belongs to.</summary>
    public ImageSide Side { get; init; }
}

/// <summary>Side of the image a signal or a driver belongs to.</summary>
public enum ImageSide
{
    /// <summary>Both, or the side does not matter (a subwoofer).</summary>
    Both,

    /// <summary>Left.</summary>
    Left,

    /// <summary>Right.</summary>
    Right,

    /// <summary>Centre.</summary>
    Center,
}
