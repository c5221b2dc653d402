using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Plots;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.TestSignals;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Enclosures;

/// <summary>The sheet a box is built by: its driver, its alternatives with plots and limits, and why.</summary>
public static class EnclosureDocument
{
    private const string Dust = "Dust of boards and fillers harms lungs: saw outside or with extraction, and wear a mask of class P2 or N95 and eye protection. The maker's instructions of material and tool come first.";

    public static PrintedDocument Compose(EnclosureSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var units = sheet.Letterhead.Units;
        var text = new UnitText(units, CultureInfo.CurrentCulture);
        var head = Paper.Head(sheet.Letterhead, $"{sheet.JobReference}   Enclosures", $"{sheet.Vehicle}: {sheet.JobTitle}", "Enclosure sheet") with
        {
            ShopContact = [],
            FooterText = $"Enclosures · {sheet.JobReference} · {sheet.Vehicle}",
        };
        return new PrintedDocument(head, sheet.Enclosures.Count == 0
            ? [new Section("", new Paragraph("No enclosure is designed for this job."))]
            : [.. sheet.Enclosures.SelectMany((each, index) => Sections(each.Name, each.View, index > 0, text, units))]);
    }

    private static IEnumerable<Section> Sections(string name, EnclosureView view, bool later, UnitText text, UnitSystem units)
    {
        List<Block> front = later ? [new PageBreak()] : [];
        var stops = view.Findings.Where(finding => finding.Severity == Severity.Stop).ToList();
        if (stops.Count > 0)
        {
            front.Add(new Caution(CautionKind.Danger, FormattedText.Strong("Not to be played like this. ") + string.Join(" ", stops.Select(finding => $"{finding.Subject}: {finding.Text} {finding.Remedy}"))));
        }

        front.Add(Paper.Facts(
            2,
            ("Loudspeaker", view.Driver is { } driver ? view.Form.Count > 1 ? string.Create(CultureInfo.CurrentCulture, $"{view.Form.Count} × {driver.Name}{(view.Form.Isobaric ? ", isobaric pairs" : "")}") : driver.Name : "not chosen"),
            ("To be built", $"{view.Built.Letter}: {EnclosureWords.Box(view.Built.Alternative, text, units)}"),
            ("Power for the box", view.Power.Watts is { } watts ? $"{text.Watts(watts)} ({view.Power.Origin})" : "not known"),
            ("High-pass to keep", EnclosureWords.HighPass(view.Built, text)),
            ("Port", view.Built.Alternative.HasPort ? EnclosureWords.PortFacts(view.Built, text) : ""),
            ("Inside as measured", EnclosureWords.Chambers(view, text, units)),
            ("Cut-out", view.Driver?.Data.CutOutMillimeters is { } cut ? text.Millimeters(cut / 1000) : ""),
            ("Low-pass to keep", EnclosureWords.LowPass(view.Built, text)),
            ("Other filters", view.Built.Alternative.Tuned is null && view.Built.Alternative.Filters.Count > 0 ? string.Join("; ", view.Built.Alternative.Filters) : ""),
            ("Filters of the tuning", view.Built.Alternative.Tuned?.ToString() ?? ""),
            ("Cabin", view is { Cabin.Measured: not null, Transfer: { } measured } ? $"measured in the car: {measured.FileName}" : view.CabinCornerHertz is { } zone ? $"gain from {text.With(zone, "Hz")} down" : "not measured; levels are in free air"),
            ("Remarks", view.Form.Remarks)));
        front.Add(new Caution(CautionKind.Caution, SoundExposure.Caution));
        front.Add(new Caution(CautionKind.Caution, Dust));
        yield return new Section(name, front);
        yield return new Section(
            "Alternatives",
            new Table(
                ["", new Column("Box", Width: 2.6), new Column("Port", Width: 2), Column.Number("3 dB down"), Column.Number("Qtc"), Column.Number("Excursion", 1.4), Column.Number("Port air", 1.4), new Column("Largest level at 40 Hz ends by", Width: 1.6)],
                [.. view.Alternatives.Select(each => Row(each, view, text, units))]));
        if (view.Built.Result is not null)
        {
            foreach (var (key, _) in EnclosurePlots.Kinds(view))
            {
                var plot = EnclosurePlots.Of(view, key, view.Form.Chosen, text, units);
                yield return new Section("", new KeepTogether(new Figure(PlotDrawing.Draw(plot), plot.Title + ".", 72)));
            }

            var why = view.Built.Result.Explanation;
            yield return new Section(
                $"Why: {view.Built.Letter}",
                new Table([new Column("Step", Width: 1.4), new Column("Formula", Width: 2), new Column("With numbers", Width: 2), new Column("Result", Width: 1.2), new Column("Source", Width: 2)], [.. why.Steps.Select(step => new TableRow(step.Title, step.Formula, step.Substituted, step.Result, step.Source))]),
                new Table([new Column("Limit", Width: 2), Column.Number("Reached"), Column.Number("Allowed"), new Column("Kept"), new Column("Source", Width: 2)], [.. why.Limits.Select(limit => new TableRow(limit.Name, text.With(limit.Actual, limit.Unit), text.With(limit.Limit, limit.Unit), limit.Passed ? "yes" : "NO", limit.Source))]) { WhenEmpty = "No limit is known." });
        }

        if (view is { Driver: { } known, Completed: { } completed })
        {
            yield return new Section(
                "Driver data",
                new Table(
                    [new Column("Datum", Width: 2), new Column("Sign", Width: 0.7), Column.Number("Value"), new Column("Is", Width: 1.2), new Column("By", Width: 2)],
                    [.. DriverData.Rows(known.Data, completed).Where(row => row.State != DriverDatumState.Missing).Select(row => new TableRow(
                        row.Name, row.Symbol, (row.Entered ?? row.Worked) is { } value ? row.Unit.Length > 0 ? text.With(value, row.Unit) : text.Number(value) : "–", EnclosureWords.State(row.State), row.State == DriverDatumState.Entered ? row.Source ?? "" : row.Why))]));
        }

        var said = view.Findings.Where(finding => finding.Severity != Severity.Stop).ToList();
        if (said.Count > 0)
        {
            yield return new Section("Worth knowing", Bullets.From(said.Select(finding => $"{finding.Subject}: {finding.Text} {finding.Remedy}")));
        }
    }

    private static TableRow Row(StudiedAlternative each, EnclosureView view, UnitText text, UnitSystem units)
    {
        var built = each.Letter == view.Built.Letter;
        if (each.Result is not { } result)
        {
            return new TableRow(each.Letter, EnclosureWords.Box(each.Alternative, text, units), "", "–", "–", "–", "–", "not worked out");
        }

        var at = result.Largest.MinBy(point => Math.Abs(Math.Log(point.Hertz / 40)));
        return new TableRow(
            built ? each.Letter + " ✓" : each.Letter,
            EnclosureWords.Box(each.Alternative, text, units),
            EnclosureWords.Port(each, text),
            result.CornerHertz is { } corner ? text.With(corner, "Hz") : "–",
            result.Qtc is { } q ? text.Number(q) : "–",
            $"{text.Millimeters(result.WorstExcursion.ExcursionMeters)} at {text.With(result.WorstExcursion.Hertz, "Hz")}",
            each.Alternative.HasPort && result.WorstPort?.PortMetersPerSecond is { } speed ? text.With(speed, "m/s") : "–",
            at is { LevelDecibels: { } level, Limit: { } limit } ? $"{text.With(level, "dB")}, {EnclosurePlots.Words(limit)}" : "–") { Emphasis = built ? RowEmphasis.Strong : RowEmphasis.None };
    }
}
