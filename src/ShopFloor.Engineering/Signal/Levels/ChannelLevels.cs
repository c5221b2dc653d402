using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Loads;

namespace ShopFloor.Engineering.Signal.Levels;

/// <summary>An amplifier channel or bridged pair with its gain, noise and test tone.</summary>
public sealed record ChannelLevels
{
    /// <summary>Its load.</summary>
    public required LoadedChannel Channel { get; init; }

    /// <summary>Every way that leads to it.</summary>
    public required IReadOnlyList<RouteLevels> Routes { get; init; }

    /// <summary>The loudest of them, which the gain is set for; null when none is known.</summary>
    public required RouteLevels? Loudest { get; init; }

    /// <summary>Voltage gain from its input to the load that is needed, as a ratio; null when a figure is missing.</summary>
    public required double? Gain { get; init; }

    /// <summary>Position of the sensitivity control: input voltage for full rated output, V rms; null when a figure is missing.</summary>
    public required double? SensitivityVolts { get; init; }

    /// <summary>How far that lies outside the control's range, dB: above 0 the input is too weak, below 0 too strong; 0 inside.</summary>
    public required double? OutsideRangeDecibels { get; init; }

    /// <summary>Signal-to-noise ratio at the load when the gain is set so, dB; null when a figure is missing.</summary>
    public required double? SignalToNoiseDecibels { get; init; }

    /// <summary>Residual noise of each driver at 1 m, dB; null when its sensitivity or the noise is not known.</summary>
    public required IReadOnlyList<DriverNoise> Noise { get; init; }

    /// <summary>The tone to set the gain with.</summary>
    public required GainStep? Step { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}

/// <param name="DriverId">The driver.</param>
/// <param name="SoundLevelDecibels">Noise at 1 m, dB.</param>
public sealed record DriverNoise(string DriverId, double? SoundLevelDecibels);

/// <summary>One step of setting gains with a voltmeter.</summary>
/// <param name="ToneHertz">Frequency of the tone, Hz.</param>
/// <param name="ToneDecibelsFullScale">Its level, dB full scale.</param>
/// <param name="TargetVolts">Voltage to reach at the amplifier's terminals with the drivers disconnected or protected, V rms.</param>
/// <param name="Watts">Power that is into the load, W.</param>
public sealed record GainStep(double ToneHertz, double ToneDecibelsFullScale, double TargetVolts, double Watts);
