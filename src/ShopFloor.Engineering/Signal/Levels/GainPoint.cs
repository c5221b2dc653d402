using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Signal.Levels;

/// <summary>How a voltage measured at an amplifier output stands to the one its gain is set for.</summary>
public enum GainVerdict
{
    /// <summary>Within the tolerance.</summary>
    Within,

    /// <summary>Below it: quieter than planned, nothing is harmed.</summary>
    TooLow,

    /// <summary>Above it, but amplifier and drivers bear it.</summary>
    TooHigh,

    /// <summary>Above it, and more than the amplifier has into this load: it clips on the same tone with the drivers connected.</summary>
    Clips,

    /// <summary>Above it, and more than the drivers bear for long.</summary>
    Overpowers,
}

/// <summary>A voltage to measure at an amplifier output with the tone of the gain sheet.</summary>
public sealed record GainPoint
{
    /// <summary>The channel or bridged pair: identifier of its load.</summary>
    public required string ChannelId { get; init; }

    /// <summary>Amplifier and output, for texts.</summary>
    public required string ChannelName { get; init; }

    /// <summary>Whether two outputs drive it together, so that the meter lies between them.</summary>
    public required bool IsBridged { get; init; }

    /// <summary>Tone and the voltage wanted.</summary>
    public required GainStep Step { get; init; }

    /// <summary>Lowest voltage accepted, V rms.</summary>
    public required double LowestVolts { get; init; }

    /// <summary>Highest voltage accepted, V rms.</summary>
    public required double HighestVolts { get; init; }

    /// <summary>Voltage at which the amplifier is at its rated output into this load, V rms; null when it is not rated for it.</summary>
    public required double? ClipVolts { get; init; }

    /// <summary>Voltage at which the first driver is at what it bears, V rms; null when no driver says.</summary>
    public required double? DriverVolts { get; init; }

    /// <summary>How target and limits were reached.</summary>
    public required Explanation Explanation { get; init; }

    /// <summary>How far a measured voltage lies from the target, dB; above 0 when it is higher. Null at 0 V.</summary>
    /// <param name="volts">Measured, V rms, 0 or more.</param>
    public double? Decibels(double volts) => volts > 0 ? DecibelLevels.OfRatio(volts / Step.TargetVolts) : null;

    /// <summary>How a measured voltage stands.</summary>
    /// <remarks>What is within the tolerance is never worse than that, also where the target is all the amplifier or the drivers bear.</remarks>
    /// <param name="volts">Measured, V rms, 0 or more.</param>
    public GainVerdict Judge(double volts) =>
        volts < LowestVolts ? GainVerdict.TooLow
        : volts <= HighestVolts ? GainVerdict.Within
        : volts > DriverVolts ? GainVerdict.Overpowers
        : volts > ClipVolts ? GainVerdict.Clips
        : GainVerdict.TooHigh;
}
