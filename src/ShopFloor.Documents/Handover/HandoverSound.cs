using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Diagrams;
using ShopFloor.Documents.Signal;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Handover;

namespace ShopFloor.Documents.Handover;

/// <summary>The signal path in the handover: the drawing, what drives what, the levels as they were set, and every cable.</summary>
internal static class HandoverSound
{
    public static Section? Of(HandoverFacts facts)
    {
        if (facts.Signal is not { } signal)
        {
            return null;
        }

        var text = new UnitText(facts.Letterhead.Units, CultureInfo.CurrentCulture);
        return new Section(
            "How the sound runs",
            [.. new Block?[]
            {
                new Figure(SignalDiagram.Draw(signal.Drawing), "From source to loudspeaker, connector by connector.", 110),
                new Subheading("What drives what"),
                Channels(signal, text),
                signal.Levels.Count == 0 ? null : new Subheading(signal.Levels.Any(fact => fact.Value is not null) ? "Levels as we set them" : "Levels to set"),
                signal.Levels.Count == 0 ? null : Levels(signal, text),
                signal.Levels.Count == 0 ? null : new Paragraph("Volts AC at the amplifier's terminals with the tone named, loudspeakers taken off. Whoever changes a part or a setting sets them again before it plays loud.") { Secondary = true },
                signal.Connections.Count == 0 ? null : new Subheading("Cables"),
                signal.Connections.Count == 0 ? null : ConnectionTable.Of(signal.Connections, text),
            }.OfType<Block>()]);
    }

    private static Table Channels(HandoverSignal signal, UnitText text) => new(
        [new Column("Loudspeakers", Width: 2.4), new Column("Channel", Width: 2.4), new Column("Coils", Width: 1.6), Column.Number("Load"), new Column("Fed by", Width: 2.2), Column.Number("Set for")],
        [.. signal.Channels.Select(row => new TableRow(
            row.Loudspeakers, row.Channel, row.Coils, text.With(row.LoadOhms, "Ω"), row.FedBy.Length > 0 ? row.FedBy : "nothing", row.SetWatts is { } watts ? text.Watts(watts) : "not known"))]);

    private static Table Levels(HandoverSignal signal, UnitText text) => new(
        [new Column("Channel", Width: 3.2), new Column("Tone", Width: 1.6), Column.Number("Set to"), Column.Number("Measured"), new Column("Result", Width: 1.2)],
        [.. signal.Levels.Select(fact => new TableRow(
            fact.Name,
            Tone(signal, fact, text),
            fact.Predicted is { } target ? MeasuredWords.Number(target, fact.Unit) : "–",
            fact.Value is { } value ? MeasuredWords.Number(value, fact.Unit) : "–",
            MeasuredTable.Result(fact))
        {
            Emphasis = fact.Verdict == MeasuredVerdict.Outside ? RowEmphasis.Strong : RowEmphasis.None,
        })]);

    private static string Tone(HandoverSignal signal, MeasuredFact fact, UnitText text) =>
        signal.Channels.FirstOrDefault(row => fact.Name == row.Channel || fact.Name.StartsWith($"{row.Channel}: ", StringComparison.Ordinal)) is { ToneHertz: { } hertz, ToneDecibelsFullScale: { } level }
            ? $"{text.With(hertz, "Hz")}, {text.With(level, "dB")}"
            : "";
}
