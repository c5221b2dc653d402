using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Plots;
using ShopFloor.Documents.Tuning;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Phases.Tuning.Factory;
using ShopFloor.Shop.Phases.Tuning.Presets;

namespace ShopFloor.Documents.Handover;

/// <summary>One page of the handover: what the tuning reached, and what a processor is set up from again.</summary>
internal static class HandoverTuning
{
    public static Section? Of(HandoverFacts facts)
    {
        if (facts.Tuning is not { } tuning)
        {
            return null;
        }

        var text = new UnitText(facts.Letterhead.Units, CultureInfo.CurrentCulture);
        return new Section(
            "How the sound was tuned",
            [.. new Block?[]
            {
                Paper.Facts(
                    2,
                    ("Preset", tuning.Label),
                    ("Processor", tuning.Processor),
                    ("Wanted", tuning.Target),
                    ("Left against right, at most", tuning.LargestDecibels is { } now ? $"{Decibels(now)}{(tuning.LargestBeforeDecibels is { } old ? $", {Decibels(old)} before" : "")}" : "not measured"),
                    ("Left and right arrive within", tuning.ArrivalSeconds is { } seconds ? (seconds * 1e6).ToString("0", CultureInfo.CurrentCulture) + " µs" : ""),
                    ("Factory signal", string.Join(" ", tuning.Factory.Select(note => FactoryWords.Of(note, text)))),
                    ("Judged", tuning.LargestDecibels is null ? "" : $"{text.With(tuning.FromHertz, "Hz")} to {text.With(tuning.ToHertz, "Hz")}, thirds of an octave")),
                Drawn(tuning),
                new Table(
                    [new Column("Channel", Width: 2), Column.Number("Level", 0.9), Column.Number("Delay"), new Column("Polarity", Width: 0.8), new Column("High-pass, dB/oct", Width: 2.4), new Column("Low-pass, dB/oct", Width: 2.4)],
                    [.. tuning.Channels.Select(channel => new TableRow(
                        channel.Name, PresetWords.Gain(channel.GainDecibels), PresetWords.Milliseconds(channel.DelaySeconds), PresetWords.Polarity(channel.Inverted), Half(channel.HighPass), Half(channel.LowPass)))]),
                Heard("Asked at the seat, and answered yes each time:", tuning.Heard.Where(heard => heard.Good).Select(heard => heard.Question)),
                Heard("Not yet as it should be:", tuning.Heard.Where(heard => !heard.Good).Select(heard => heard.Note.Length > 0 ? $"{heard.Question} {heard.Note}." : heard.Question)),
                new Paragraph("Whoever resets the processor sets the high-passes first: a tweeter without its own is destroyed by bass. We keep all settings of this preset.") { Secondary = true },
            }.OfType<Block>()])
        {
            StartsNewPage = true, // one page that can be taken out
        };
    }

    // Many channels take the room of the plots, which stay readable at two thirds of the height.
    private static Figure? Drawn(TuningFact tuning)
    {
        var height = Math.Clamp(70 - (4 * (tuning.Channels.Count - 7)), 46, 70);
        return (tuning.LeftBefore.Count > 0 && tuning.RightBefore.Count > 0, tuning.Left.Count > 0 && tuning.Right.Count > 0) switch
        {
            (true, true) => new(PlotPair.Draw(TuningPlots.Kept(tuning, true), TuningPlots.Kept(tuning, false)), "Left and right at the seat before, and as tuned.", height),
            (true, _) => Alone(true),
            (_, true) => Alone(false),
            _ => null,
        };

        Figure Alone(bool before)
        {
            var plot = TuningPlots.Kept(tuning, before);
            return new(PlotDrawing.Draw(plot), plot.Title + ".", height);
        }
    }

    private static string Half(Crossover? half) => half is null ? "off" : string.Create(CultureInfo.CurrentCulture, $"{PresetWords.Shape(half.Shape)} {half.SlopeDecibelsPerOctave}, {half.Hertz:0.##} Hz");

    private static Paragraph? Heard(string verdict, IEnumerable<string> questions) => questions.ToList() is { Count: > 0 } all ? new Paragraph($"{verdict} {string.Join(" ", all)}") : null;

    private static string Decibels(double value) => value.ToString("0.0", CultureInfo.CurrentCulture) + " dB";
}
