using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Fabrication.Nesting;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Fabrication;

/// <summary>The cut list for the saw: parts, every sheet drawn, its cuts to tick off. Nothing of money.</summary>
public static class CutListDocument
{
    public static PrintedDocument Compose(CutListSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var text = new UnitText(sheet.Letterhead.Units, CultureInfo.CurrentCulture);
        var head = Paper.Head(sheet.Letterhead, $"{sheet.JobReference}   Cut list", $"{sheet.Vehicle}: {sheet.JobTitle}", "Cut list") with
        {
            ShopContact = [],
            FooterText = $"Cut list · {sheet.JobReference} · {sheet.Vehicle}",
        };
        return new PrintedDocument(head, sheet.Lists.Count == 0
            ? [new Section("", new Paragraph("There is no cut list for this job."))]
            : [.. sheet.Lists.SelectMany((each, index) => Sections(each.Name, each.Form, each.Basis, each.View, index > 0, text))]);
    }

    private static IEnumerable<Section> Sections(string name, CutListForm form, CutListInput basis, CutListView? view, bool later, UnitText text)
    {
        List<Block> front = later ? [new PageBreak()] : [];
        front.AddRange(CutListMapping.Cautions.Select(caution => new Caution(caution.IsDanger ? CautionKind.Danger : CautionKind.Caution, caution.Text)));
        front.AddRange(basis.MaterialIds.Values.Where(material => material.Caution.Length > 0 && form.Parts.Exists(row => row.MaterialId == material.Id)).Select(material => new Caution(CautionKind.Caution, $"{material.Name}: {material.Caution}")));
        if (view is null)
        {
            front.Add(new Caution(CautionKind.Danger, $"Not laid out yet. {string.Join(" ", basis.Problems.Select(problem => problem.Message))}"));
            yield return new Section(name, front);
            yield break;
        }

        front.AddRange(view.Result.Findings.Select(finding => new Caution(finding.Severity == Severity.Stop ? CautionKind.Danger : CautionKind.Caution, $"{finding.Subject}: {finding.Text} {finding.Remedy}")));
        front.Add(Paper.Facts(
            2,
            ("Width of the cut", text.Millimeters(form.KerfMeters)),
            ("Trimmed off each edge", text.Millimeters(form.TrimMeters)),
            ("Parts weigh", view.Kilograms is { } mass ? text.Kilograms(mass) : "not known"),
            ("Remarks", form.Remarks)));
        front.Add(new Table(
            [new Column("Material", Width: 2.4), new Column("Sheets", Width: 2), Column.Number("Waste"), Column.Number("Parts")],
            [.. view.Materials.Select(material => new TableRow(material.Material.Name, material.SheetWords, text.Percent(100 * material.Nesting.WasteShare), material.PartsKilograms is { } kilograms ? text.Kilograms(kilograms) : "–"))]));
        front.Add(new Table(
            [new Column("Part", Width: 3), Column.Number("Pieces", 0.8), new Column("Size", Width: 2), new Column("Grain", Width: 1.4), new Column("Material", Width: 2)],
            [.. basis.Input.Parts.Select(part => new TableRow(part.Name, part.Quantity.ToString(CultureInfo.CurrentCulture), Size(part, text), part.Grain switch { PartGrain.Along => "along", PartGrain.Across => "across", _ => part.MayTurn ? "any" : "not turned" }, part.MaterialId))]));
        yield return new Section(name, front);
        foreach (var (nested, number) in view.Result.Materials.SelectMany(material => material.Sheets).Select((nested, index) => (nested, index + 1)))
        {
            yield return new Section(
                string.Create(CultureInfo.CurrentCulture, $"Sheet {number}: {nested.Name}"),
                new Figure(SheetDrawing.Svg(nested, text), $"{text.Percent(100 * nested.WasteShare)} waste.", 105),
                new Checklist([.. nested.Cuts.Select(cut => new ChecklistItem(string.Create(CultureInfo.CurrentCulture, $"{cut.Step}. {CutWords.Of(cut, text)}")))]))
            { StartsNewPage = true };
        }
    }

    private static string Size(CutPart part, UnitText text) => part.Outline switch
    {
        DiscOutline disc => $"Ø {Length(disc.DiameterMeters, text)}",
        RingOutline ring => $"Ø {Length(ring.OuterMeters, text)} / {Length(ring.InnerMeters, text)}",
        PolygonOutline polygon => string.Create(CultureInfo.CurrentCulture, $"{polygon.Corners.Count} corners"),
        _ => $"{Length(part.LengthMeters ?? 0, text)} × {Length(part.WidthMeters ?? 0, text)}",
    };

    private static string Length(double meters, UnitText text) => text.Of(meters, QuantityKind.SmallLength, 5);
}
