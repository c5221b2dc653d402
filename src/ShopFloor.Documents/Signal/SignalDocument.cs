using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Diagrams;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.TestSignals;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Signal;

/// <summary>The sheet gains are set by: the signal path as a drawing, what drives what, and the tone and voltage of every channel.</summary>
public static class SignalDocument
{
    /// <param name="sheet">The path with the heads of the paper.</param>
    /// <param name="measured">What was measured, by the channel's load; null for none.</param>
    public static PrintedDocument Compose(SignalSheet sheet, IReadOnlyDictionary<string, MeasuredFact>? measured = null)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var text = new UnitText(sheet.Letterhead.Units, CultureInfo.CurrentCulture);
        var head = Paper.Head(sheet.Letterhead, $"{sheet.JobReference}   Signal path", $"{sheet.Vehicle}: {sheet.JobTitle}", "Channel map and gain sheet") with
        {
            ShopContact = [],
            FooterText = $"Signal path · {sheet.JobReference} · {sheet.Vehicle}",
        };
        return new PrintedDocument(head, [.. Sections(sheet.View, measured ?? new Dictionary<string, MeasuredFact>(), text)]);
    }

    private static IEnumerable<Section> Sections(SignalPathView view, IReadOnlyDictionary<string, MeasuredFact> measured, UnitText text)
    {
        if (view.Result is null)
        {
            yield return new Section("", new Paragraph("Nothing is worked out yet: say on the design page what feeds which loudspeaker."));
            yield break;
        }

        List<Block> front = [];
        var stops = view.Findings.Where(finding => finding.Severity == Severity.Stop).ToList();
        if (stops.Count > 0)
        {
            front.Add(new Caution(CautionKind.Danger, FormattedText.Strong("Not to be switched on like this. ") + string.Join(" ", stops.Select(finding => $"{finding.Subject}: {finding.Text}"))));
        }

        front.Add(new Figure(SignalDiagram.Draw(SignalGraph.Of(view)), "From source to loudspeaker, connector by connector.", 120));
        yield return new Section("", front);
        yield return new Section(
            "Channel map",
            new Table(
                [new Column("Channel", Width: 2), new Column("Loudspeakers", Width: 2.4), new Column("Coils", Width: 1.4), Column.Number("Load"), new Column("Fed by", Width: 2), Column.Number("Has"), Column.Number("Bears"), Column.Number("Set for")],
                [.. view.Channels.Select(row => MapRow(row, text))]) { WhenEmpty = "No channel has a load yet." },
            new Paragraph($"Load: nominal, and the lowest over the band in brackets. Has: what the amplifier gives into it. Bears: what its loudspeakers bear for long.{(view.Unused.Count > 0 ? $" Free: {string.Join("; ", view.Unused)}." : "")}") { Secondary = true });
        yield return new Section(
            "Gain sheet",
            new Caution(CautionKind.Caution, SoundExposure.Caution),
            NumberedSteps.From(GainSteps.All(text, view.Input?.GainOverlapDecibels ?? 0)),
            new Table(
                [new Column("Channel", Width: 2.2), Column.Number("Tone"), Column.Number("Level"), Column.Number("Volts AC"), Column.Number("Power"), Column.Number("Control at"), new Column("Clips first", Width: 2), Column.Number("Signal to noise"), Column.Number("Measured", 1.3)],
                [.. view.Channels.Select(row => GainRow(row, measured.GetValueOrDefault(row.Levels.Channel.Load.Id), text))]) { WhenEmpty = "No channel has a load yet." },
            new Paragraph($"A measured voltage may lie {text.With(view.GainToleranceDecibels, "dB")} to either side.") { Secondary = true });
        yield return new Section("Cables", ConnectionTable.Of(view.Connections, text));
        yield return new Section(
            "What arrives of each source",
            new Table(
                [new Column("Source", Width: 1.6), new Column("Format", Width: 1.6), new Column("Changed on the way", Width: 3), Column.Number("Delay")],
                [.. view.Result.Formats.Select(format => new TableRow(
                    view.NameOf(format.SourceId), SignalWords.Format(format.Carried, text), SignalWords.Conversions(format.Carried), SignalWords.Delay(format.Carried, text)))]) { WhenEmpty = "No source is heard." });
        var said = view.Findings.Where(finding => finding.Severity != Severity.Stop).ToList();
        if (said.Count > 0)
        {
            yield return new Section("Worth knowing", Bullets.From(said.Select(finding => $"{finding.Subject}: {finding.Text} {finding.Remedy}")));
        }
    }

    private static TableRow MapRow(PathChannel row, UnitText text)
    {
        var channel = row.Levels.Channel;
        return new TableRow(
            channel.Name, row.Drivers, row.Coils, $"{text.With(channel.NominalOhms, "Ω")} ({text.Number(channel.MinimumOhms)})", row.FedBy.Length > 0 ? row.FedBy : "nothing",
            SignalWords.Watts(channel.AvailableWatts, text), SignalWords.Watts(channel.DriverLimitWatts, text), SignalWords.Watts(channel.TargetWatts, text));
    }

    private static TableRow GainRow(PathChannel row, MeasuredFact? measured, UnitText text) => new(
        row.Levels.Channel.Name,
        row.Levels.Step is { } step ? text.With(step.ToneHertz, "Hz") : "–",
        row.Levels.Step is { } tone ? text.With(tone.ToneDecibelsFullScale, "dB") : "–",
        row.Levels.Step is { } volts ? text.Volts(volts.TargetVolts) : "–",
        SignalWords.Watts(row.Levels.Step?.Watts, text),
        row.Levels.SensitivityVolts is { } control ? text.Volts(control) : "not known",
        SignalWords.ClipsFirst(row.Levels, text),
        row.Levels.SignalToNoiseDecibels is { } noise ? text.With(noise, "dB") : "not known",
        measured?.Value is { } value ? $"{MeasuredWords.Number(value, measured.Unit)} ({MeasuredTable.Result(measured)})" : "________");
}
