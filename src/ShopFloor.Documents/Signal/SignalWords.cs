using ShopFloor.Engineering.Signal.Chain;
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

    /// <summary>A format and what becomes of it.</summary>
    public static string Passage(FormatPassage passage, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(passage);
        return passage.Passage switch
        {
            Engineering.Signal.Presets.Passage.Whole => "arrives whole",
            Engineering.Signal.Presets.Passage.Reduced => passage.Arrives is { } least ? $"reduced to {Named(least, text)}" : "reduced",
            Engineering.Signal.Presets.Passage.IntoVoltsAtSource => "turned into volts by the source itself",
            Engineering.Signal.Presets.Passage.NotNative => "not native over IEC 60958: as PCM only",
            _ => "as both ends of the link agree",
        };
    }

    /// <summary>"96 kHz, 24 bits"; a one-bit stream by the name clients know.</summary>
    public static string Named(AudioFormat format, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(format);
        return format.IsOneBit ? $"one-bit (DSD), {text.With(format.SampleRateHertz / 1e6, "MHz", 4)}" : $"{text.With(format.SampleRateHertz / 1000, "kHz", 4)}, {format.Bits} bits";
    }

    /// <summary>How far a measured level lies from its target: "+0.3 dB".</summary>
    public static string Away(double decibels, UnitText text) => $"{(decibels > 0.05 ? "+" : decibels < -0.05 ? "−" : "±")}{text.With(Math.Round(Math.Abs(decibels), 1), "dB")}";

    /// <summary>The stage before the amplifier that clips first, with its distance to full scale.</summary>
    public static string ClipsFirst(ChannelLevels levels, UnitText text) => levels.Loudest?.ClipsFirst is { HeadroomDecibels: { } headroom } stage
        ? headroom > 0.05 ? $"{stage.Name}, {text.With(headroom, "dB")} above full scale" : headroom < -0.05 ? $"{stage.Name}, {text.With(-headroom, "dB")} too early" : $"{stage.Name}, just at full scale"
        : "not known";
}
