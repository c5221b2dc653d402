using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Plots;
using ShopFloor.Documents.Tuning;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Phases.Tuning.Factory;

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
                tuning.LeftBefore.Count > 0 && tuning.RightBefore.Count > 0 ? Drawn(TuningPlots.Kept(tuning, true)) : null,
                tuning.Left.Count > 0 && tuning.Right.Count > 0 ? Drawn(TuningPlots.Kept(tuning, false)) : null,
                new Table(
                    [new Column("Channel", Width: 1.6), Column.Number("Level"), Column.Number("Delay", 1.1), new Column("Polarity", Width: 0.9), new Column("High-pass", Width: 2), new Column("Low-pass", Width: 2), Column.Number("Filters", 0.8)],
                    [.. tuning.Channels.Select(channel => new TableRow(
                        channel.Name, PresetWords.Gain(channel.GainDecibels), PresetWords.Milliseconds(channel.DelaySeconds), PresetWords.Polarity(channel.Inverted), PresetWords.Crossover(channel.HighPass), PresetWords.Crossover(channel.LowPass),
                        channel.Filters.Count.ToString(CultureInfo.CurrentCulture)))]),
                tuning.Heard.Count == 0 ? null : new Table(
                    [new Column("Listened to", Width: 4), new Column("Heard", Width: 2)],
                    [.. tuning.Heard.Select(heard => new TableRow(heard.Question, heard.Good ? "yes" : heard.Note.Length > 0 ? $"no: {heard.Note}" : "no"))]),
                new Paragraph("Whoever resets the processor sets the high-passes first: a tweeter without its own is destroyed by bass. We keep all settings of this preset.") { Secondary = true },
            }.OfType<Block>()]);
    }

    private static Figure Drawn(Plot plot) => new(PlotDrawing.Draw(plot), plot.Title + ".", 52);

    private static string Decibels(double value) => value.ToString("0.0", CultureInfo.CurrentCulture) + " dB";
}
