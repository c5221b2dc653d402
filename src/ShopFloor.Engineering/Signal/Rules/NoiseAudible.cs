using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>Silence is silent</summary>
public sealed class NoiseAudible : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "noise-audible";

    /// <inheritdoc/>
    public override string Title => "Silence is silent";

    /// <inheritdoc/>
    public override string Why => "Hiss in a parked car is the first thing a client hears.";

    /// <inheritdoc/>
    public override string Remedy => "Raise the voltage before the amplifier and lower its gain, or use a quieter stage.";

    /// <inheritdoc/>
    public override string Example => "A processor with 70 dB signal-to-noise before an amplifier at full gain: hiss when the engine is off.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var levels in state.Channels)
        {
            foreach (var noise in levels.Noise.Where(noise => noise.SoundLevelDecibels > SignalDefaults.AudibleNoiseDecibels))
                yield return Warn(noise.DriverId, state.Device(noise.DriverId).Name, $"Residual noise is {state.Text.With(noise.SoundLevelDecibels!.Value, "dB")} at 1 m.", Remedy); // the filter above
        }
    }
}
