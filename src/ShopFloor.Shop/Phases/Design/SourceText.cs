using System.Globalization;
using ShopFloor.Engineering.Signal.Presets;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What a client is told about a source, in plain words: how to switch to it, where the volume is, what stays audible, what arrives.</summary>
internal static class SourceText
{
    /// <summary>Later than this behind a picture is noticed, s: ITU-R BT.1359, from memory.</summary>
    public const double NoticedSeconds = 0.125;

    /// <returns>Empty while nobody wrote how it is switched to: half a guide is none, and the gate asks for it.</returns>
    public static string Write(string howToUse, SourcePresetForm form, SourcePreset? preset)
    {
        if (howToUse.Trim().Length == 0)
        {
            return "";
        }

        string[] sentences =
        [
            howToUse.Trim(),
            preset is { IsHeard: true } ? Volume(form, preset) : "",
            preset is { IsHeard: true } ? Sounds(form) : "",
            preset is { IsHeard: true } ? Quality(preset) : "",
            preset?.Carried?.DelaySeconds is { } late && late >= NoticedSeconds ? string.Create(CultureInfo.InvariantCulture, $"Its sound comes {late:0.0#} s late, so it is not for films.") : "",
            form.Notes.Trim(),
        ];
        return string.Join(' ', sentences.Where(sentence => sentence.Length > 0));
    }

    private static string Volume(SourcePresetForm form, SourcePreset preset) => form.Volume switch
    {
        VolumePlace.Source => $"Turn the volume at {preset.SourceName} itself.",
        VolumePlace.Processor => "Turn the volume at the control of the sound processor.",
        VolumePlace.FactoryControls => "Turn the volume with the car's own knob and buttons.",
        _ => "",
    };

    private static string Sounds(SourcePresetForm form) => form.Sounds switch
    {
        SoundsDuring.HeardOverIt => "Chimes, navigation and telephone stay audible over it.",
        SoundsDuring.ItMakesRoom => "It makes room by itself for chimes, navigation and telephone.",
        SoundsDuring.OwnLoudspeaker => "Chimes, navigation and telephone come from a loudspeaker of their own, as loud as before.",
        SoundsDuring.NotHeard => "While it plays you do not hear chimes, navigation or telephone: switch back to the car's radio when you need them.",
        _ => "",
    };

    private static string Quality(SourcePreset preset)
    {
        if (preset.Carried?.LossyAt is not null)
        {
            return "The way it is sent leaves a part of the music away; for careful listening use a source on a cable.";
        }

        var whole = preset.Formats.Where(format => format.Passage == Passage.Whole).Select(format => format.Format).LastOrDefault();
        var reduced = preset.Formats.Any(format => format.Passage == Passage.Reduced);
        var arrives = (whole, reduced) switch
        {
            ({ } best, false) => $"Whatever it plays arrives whole, up to {Words(best)}.",
            ({ } best, true) => $"Music of up to {Words(best)} arrives whole; finer files play too, reduced to what the way carries.",
            (null, true) when preset.Formats[^1].Arrives is { } least => $"Files play as {Words(least)}.",
            _ => "",
        };
        return preset.Formats.Any(format => format.Passage == Passage.NotNative)
            ? $"{arrives} One-bit files (DSD) do not travel over its digital cable: set it to turn them into PCM.".TrimStart()
            : arrives;
    }

    private static string Words(Engineering.Signal.Chain.AudioFormat format) =>
        string.Create(CultureInfo.InvariantCulture, $"{format.SampleRateHertz / 1000:0.###} kHz and {format.Bits} bits");
}
