using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>Nothing clips before the amplifier</summary>
public sealed class InputClipped : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "input-clipped";

    /// <inheritdoc/>
    public override string Title => "Nothing clips before the amplifier";

    /// <inheritdoc/>
    public override string Why => "A stage that clips early distorts at every volume setting behind it, and no gain setting there can mend it.";

    /// <inheritdoc/>
    public override string Remedy => "Lower the level before it, set a less sensitive range, or fit a pad.";

    /// <inheritdoc/>
    public override string Example => "A radio gives 6 V into an input that clips at 2 V: 20·log10(6/2) = 9.5 dB too much.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var stage in state.Routes.SelectMany(way => way.Stages).Where(stage => stage.HeadroomDecibels < -0.1).DistinctBy(stage => stage.Name))
        {
            yield return Warn($"{stage.DeviceId}:{stage.Name}", stage.Name,
                stage.Volts is { } volts ? $"{state.Text.Volts(volts)} arrives at full scale; it clips at {state.Text.Volts(stage.LimitVolts!.Value)}, {state.Text.With(-stage.HeadroomDecibels!.Value, "dB")} lower." : $"The level inside is {state.Text.With(-stage.HeadroomDecibels!.Value, "dB")} above full scale.", // a headroom comes with its limit
                Remedy);
        }
    }
}
