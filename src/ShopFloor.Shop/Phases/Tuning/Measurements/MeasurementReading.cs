using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Analysis;
using ShopFloor.Engineering.Tuning.Measurements;

namespace ShopFloor.Shop.Phases.Tuning.Measurements;

/// <summary>What an arrival is counted from, surest first.</summary>
public enum ArrivalClock
{
    /// <summary>The electrical loopback: the same for all measurements.</summary>
    Loopback,

    /// <summary>The distance by tape.</summary>
    Tape,

    /// <summary>The phase or the start of the file; the same for all only when the measuring program kept it.</summary>
    File,

    /// <summary>The start of the recording; the same for all only when playing and recording were started together.</summary>
    Recording,

    None,
}

/// <summary>A measurement as it was read.</summary>
public sealed record MeasurementReading
{
    /// <summary>Level and phase over log frequency, the arrival taken out of the phase, the microphone's curve taken off.</summary>
    public required FrequencyResponse Response { get; init; }

    /// <summary>When the sound arrives, s; null while nothing says.</summary>
    public double? ArrivalSeconds { get; init; }

    public ArrivalClock Clock { get; init; } = ArrivalClock.None;

    /// <summary>Whether the first swing goes the other way; null while nothing says.</summary>
    public bool? IsInverted { get; init; }

    /// <summary>0 to 1.</summary>
    public double PolarityConfidence { get; init; }

    /// <summary>Of sound files.</summary>
    public ImpulseResponse? Impulse { get; init; }

    /// <summary>Of sound files.</summary>
    public ArrivalResult? Arrival { get; init; }

    /// <summary>Harmonics and noise of a sweep.</summary>
    public SweepResult? Sweep { get; init; }

    public required UsableBandResult Usable { get; init; }

    public IReadOnlyList<Finding> Findings { get; init; } = [];
}
