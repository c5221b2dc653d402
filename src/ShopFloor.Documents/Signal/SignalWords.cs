using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Engineering.Signal.Presets;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Documents.Signal;

/// <summary>Figures of a signal path in the same words on screen and paper.</summary>
public static class SignalWords
{
    public static string Watts(double? watts, UnitText text) => watts is { } known ? text.Watts(known) : "not known";

    public static string Format(CarriedFormat carried, UnitText text)
    {
        var arrives = (carried.SampleRateHertz, carried.Bits) switch
        {
            ({ } rate, { } bits) => $"{text.Number(rate / 1000, 4)} kHz, {bits} bits",
            ({ } rate, null) => $"{text.Number(rate / 1000, 4)} kHz",
            _ => "not known",
        };
        return carried.IsWhole switch { true => $"{arrives}, whole", false => carried.LossyAt is { } lossy ? $"{arrives}, less by a codec: {lossy}" : $"{arrives}, reduced", _ => arrives };
    }

    public static string Conversions(CarriedFormat carried) => carried.Conversions.Count == 0 ? "nothing" : string.Join("; ", carried.Conversions.Select(change => $"{change.DeviceName}: {change.What}"));

    public static string Delay(CarriedFormat carried, UnitText text) =>
        carried.DelaySeconds is { } seconds ? text.With(1000 * seconds, "ms") : $"not known ({string.Join(", ", carried.DelayMissing)})";

    /// <summary>The stage before the amplifier that clips first, with its distance to full scale.</summary>
    public static string ClipsFirst(ChannelLevels levels, UnitText text) => levels.Loudest?.ClipsFirst is { HeadroomDecibels: { } headroom } stage
        ? headroom > 0.05 ? $"{stage.Name}, {text.With(headroom, "dB")} above full scale" : headroom < -0.05 ? $"{stage.Name}, {text.With(-headroom, "dB")} too early" : $"{stage.Name}, just at full scale"
        : "not known";
}
