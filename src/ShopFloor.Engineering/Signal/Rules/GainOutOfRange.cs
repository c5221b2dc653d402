using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>The gain lies within the control</summary>
public sealed class GainOutOfRange : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "gain-out-of-range";

    /// <inheritdoc/>
    public override string Title => "The gain lies within the control";

    /// <inheritdoc/>
    public override string Why => "Beyond its range the amplifier is never driven fully, or is overdriven at every setting.";

    /// <inheritdoc/>
    public override string Remedy => "Bring another voltage to the input, or take another amplifier.";

    /// <inheritdoc/>
    public override string Example => "0.1 V arrives and full power needs 0.5 V at the most sensitive position of the control.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var levels in state.Channels)
        {
            var (channel, text) = (levels.Channel, state.Text);
            if (levels.OutsideRangeDecibels > 0.5)
                yield return Warn(channel.Load.Id, channel.Name, $"The input is {text.With(levels.OutsideRangeDecibels.Value, "dB")} too weak: it would need a sensitivity of {text.Volts(levels.SensitivityVolts!.Value)}, the control ends at {text.Volts(channel.Amplifier.SensitivityMinVolts!.Value)}.", "Use a source or a processor with a higher output voltage, or accept less power."); // outside a range there is one
            else if (levels.OutsideRangeDecibels < -0.5)
                yield return Warn(channel.Load.Id, channel.Name, $"The input is {text.With(-levels.OutsideRangeDecibels.Value, "dB")} too strong: it would need a sensitivity of {text.Volts(levels.SensitivityVolts!.Value)}, the control ends at {text.Volts(channel.Amplifier.SensitivityMaxVolts!.Value)}.", "Lower the output of the processor, or fit a pad."); // as above
        }
    }
}
