namespace ShopFloor.Engineering.Signal;

/// <summary>Values used where nothing was entered, with where they come from.</summary>
public static class SignalDefaults
{
    /// <summary>Gain overlap, dB: recordings rarely stay at full scale. Common practice, no source; 0 keeps the amplifier from ever clipping.</summary>
    public const double GainOverlapDecibels = 5;

    /// <summary>How far a measured gain may lie from its target to either side, dB: less is not heard, and meters differ by as much. Common practice, no source.</summary>
    public const double GainToleranceDecibels = 0.5;

    /// <summary>Lowest impedance of a coil over its nominal one: IEC 60268-5, from memory.</summary>
    public const double LowestImpedanceShare = 0.8;

    /// <summary>Level below which a driver's residual noise at 1 m is not heard in a parked car, dB. Common practice, no source.</summary>
    public const double AudibleNoiseDecibels = 20;

    /// <summary>Voltage loudspeaker sensitivity is stated at, V: 1 W into 8 Ω.</summary>
    public const double SensitivityVolts = 2.83;
}
