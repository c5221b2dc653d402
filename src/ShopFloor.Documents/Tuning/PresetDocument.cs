using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Engineering.Signal.TestSignals;
using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Tuning.Factory;
using ShopFloor.Shop.Phases.Tuning.Presets;

namespace ShopFloor.Documents.Tuning;

/// <summary>The sheet a processor is typed up from.</summary>
public static class PresetDocument
{
    public static PrintedDocument Compose(PresetPaper paper)
    {
        ArgumentNullException.ThrowIfNull(paper);
        var text = new UnitText(paper.Letterhead.Units, CultureInfo.CurrentCulture);
        var label = PresetForm.Label(paper.Name, paper.Form.Number);
        var head = Paper.Head(paper.Letterhead, $"{paper.JobReference}   {label}", $"{paper.Vehicle}: {paper.JobTitle}", "Processor sheet") with
        {
            ShopContact = [],
            FooterText = $"{label} · {paper.JobReference} · {paper.Vehicle}",
        };
        List<SheetChannel> all = [.. paper.Sheet.Inputs.Select(input => input with { Name = $"Input: {input.Name}" }), .. paper.Sheet.Channels];
        return new PrintedDocument(head, [Front(paper, text), .. Inputs(paper, text), .. all.Where(channel => channel.Filters.Count > 0).Select(Filters), .. all.Where(channel => channel.Sections.Count > 0).Select((channel, at) => Coefficients(channel, at == 0, paper.Sheet.FeedbackSign))]);
    }

    private static IEnumerable<Section> Inputs(PresetPaper paper, UnitText text)
    {
        if (paper.Sheet.Inputs.Count > 0)
        {
            yield return new Section(
                "Inputs",
                new Paragraph("Set before the inputs are mixed: it joins the factory outputs and undoes what the factory did to them."),
                new Table(
                    [new Column("Input", Width: 2.6), Column.Number("Level"), Column.Number("Delay", 1.1), Column.Number("Samples"), new Column("Polarity", Width: 0.9), Column.Number("Filters", 0.8), new Column("Done", Width: 0.6)],
                    [.. paper.Sheet.Inputs.Select(input => new TableRow(
                        input.Name, PresetWords.Gain(input.LevelDecibels), PresetWords.Milliseconds(input.DelayMilliseconds / 1e3), input.DelaySamples.ToString("0.##", CultureInfo.CurrentCulture), PresetWords.Polarity(input.Inverted),
                        input.Filters.Count.ToString(CultureInfo.CurrentCulture), ""))]),
                new Paragraph(string.Join(" ", paper.Form.Factory.Select(note => FactoryWords.Of(note, text)))) { Secondary = true });
        }
    }

    private static Section Front(PresetPaper paper, UnitText text) => new(
        "Channels",
        Paper.Facts(
            2,
            ("Processor", paper.Sheet.Processor),
            ("Sample rate", text.With(paper.Sheet.SampleRateHertz, "Hz", 6)),
            ("Kept", $"{paper.Form.SavedBy.Name}, {Paper.Moment(paper.Letterhead, paper.Form.SavedBy.At)}"),
            ("In the car", paper.Form.InCar is { } car ? $"{car.Name}, {Paper.Moment(paper.Letterhead, car.At)}" : "no"),
            ("Target", paper.Form.Target.Name),
            ("Why", paper.Form.Note)),
        new Caution(CautionKind.Danger, FormattedText.Strong("High-passes first. ") + "Type the high-pass of every tweeter and midrange, and check it, before anything is played: a tweeter without one is destroyed within a second."),
        new Caution(CautionKind.Caution, SoundExposure.Caution),
        new Table(
            [new Column("Channel", Width: 1.6), Column.Number("Level"), Column.Number("Delay", 1.1), Column.Number("Samples"), Column.Number("Way", 0.9), new Column("Polarity", Width: 0.9), new Column("High-pass", Width: 1.8), new Column("Low-pass", Width: 1.8), new Column("Done", Width: 0.6)],
            [.. paper.Sheet.Channels.Select(channel => new TableRow(
                channel.Name, PresetWords.Gain(channel.LevelDecibels), PresetWords.Milliseconds(channel.DelayMilliseconds / 1e3), channel.DelaySamples.ToString("0.##", CultureInfo.CurrentCulture),
                text.Millimeters(channel.DelayCentimeters / 100), PresetWords.Polarity(channel.Inverted), PresetWords.Crossover(channel.HighPass), PresetWords.Crossover(channel.LowPass), ""))]));

    private static Section Filters(SheetChannel channel) => new(
        $"Filters: {channel.Name}",
        new KeepTogether(new Table(
            [Column.Number("No.", 0.5), new Column("Kind", Width: 1.6), Column.Number("Frequency"), Column.Number("Gain"), Column.Number("Q"), new Column("Done", Width: 0.6)],
            [.. channel.Filters.Select((filter, at) => new TableRow(
                (at + 1).ToString(CultureInfo.CurrentCulture), PresetWords.Kind(filter.Kind), filter.Hertz.ToString("0.##", CultureInfo.CurrentCulture) + " Hz",
                PresetWords.HasGain(filter.Kind) ? PresetWords.Gain(filter.GainDecibels) : "", filter.Q.ToString("0.###", CultureInfo.CurrentCulture), ""))])));

    private static Section Coefficients(SheetChannel channel, bool first, FeedbackSign sign)
    {
        var table = new Table(
            [new Column("Section", Width: 1), Column.Number("b0"), Column.Number("b1"), Column.Number("b2"), Column.Number("a1"), Column.Number("a2")],
            [.. channel.Sections.Select(section => new TableRow(section.Use, N(section.B0), N(section.B1), N(section.B2), N(section.A1), N(section.A2)))]);
        return first
            ? new Section($"Coefficients: {channel.Name}", new Paragraph($"y[n] = b0·x[n] + b1·x[n−1] + b2·x[n−2] {(sign == FeedbackSign.Added ? "+" : "−")} a1·y[n−1] {(sign == FeedbackSign.Added ? "+" : "−")} a2·y[n−2]. All digits stand in the CSV and JSON files of this version."), table)
            : new Section($"Coefficients: {channel.Name}", table);
    }

    private static string N(double value) => value.ToString("0.00000000", CultureInfo.CurrentCulture);
}
