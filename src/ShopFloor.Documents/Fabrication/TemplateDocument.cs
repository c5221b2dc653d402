using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Fabrication.Templates;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Fabrication;

/// <summary>A template to print at true size: sizes and holes first, then the drawing, on several pages where it is larger than one.</summary>
public static class TemplateDocument
{
    /// <summary>What the reader does before cutting.</summary>
    public const string ScaleCheck = "Print at 100 %, with no fitting to the page. Measure both bars on every page before you cut: 100 mm and 4 in.";

    public static PrintedDocument Compose(TemplateResult template, Letterhead letterhead, string reference)
    {
        ArgumentNullException.ThrowIfNull(template);
        ArgumentNullException.ThrowIfNull(letterhead);
        var text = new UnitText(letterhead.Units, CultureInfo.CurrentCulture);
        var head = Paper.Head(letterhead, $"{template.Input.Name}   Template", "Printed at true size", reference) with { ShopContact = [] };
        return new PrintedDocument(head, [Facts(template, text), .. Pages(template)]) { NumberSections = false };
    }

    /// <summary>All templates of a job, one after the other.</summary>
    public static PrintedDocument Compose(TemplateSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var text = new UnitText(sheet.Letterhead.Units, CultureInfo.CurrentCulture);
        var head = Paper.Head(sheet.Letterhead, $"{sheet.JobReference}   Templates", "Printed at true size", sheet.JobReference) with { ShopContact = [] };
        return new PrintedDocument(head, sheet.Templates.Count == 0
            ? [new Section("", new Paragraph("There is no template for this job."))]
            : [.. sheet.Templates.SelectMany((each, index) => Sections(each.Name, each.View, index > 0, text))]) { NumberSections = false };
    }

    private static IEnumerable<Section> Sections(string name, TemplateView view, bool later, UnitText text) => view.Result is { } result
        ? [Facts(result, text) with { Title = name, StartsNewPage = later }, .. Pages(result)]
        : [new Section(name, new Caution(CautionKind.Danger, $"Not drawn yet. {string.Join(" ", view.Problems)}")) { StartsNewPage = later }];

    private static Section Facts(TemplateResult template, UnitText text)
    {
        var input = template.Input;
        List<Block> blocks = [new Caution(CautionKind.Caution, ScaleCheck)];
        blocks.AddRange(template.Findings.Select(finding => new Caution(
            finding.Severity == Severity.Stop ? CautionKind.Danger : finding.Severity == Severity.Warn ? CautionKind.Caution : CautionKind.Note, $"{finding.Text} {finding.Remedy}")));
        blocks.Add(Paper.Facts(2,
            ("Cut-out", $"Ø {Size(input.CutOutMeters)}"),
            ("Outside", input.Outside switch
            {
                RoundOutside round => $"Ø {Size(round.DiameterMeters)}",
                RectangularOutside flat => $"{Size(flat.LengthMeters)} × {Size(flat.WidthMeters)}, corners {Size(flat.CornerMeters)}",
                _ => "",
            }),
            ("Board", Size(input.ThicknessMeters)),
            ("Bolt circle", template.Holes.Count == 0 ? "" : $"{template.Holes.Count} holes of {Size(input.HoleMeters!.Value)} on Ø {Size(input.BoltCircleMeters!.Value)}"),
            ("Hole to hole", template.BetweenHolesMeters is { } between ? Size(between) : "")));
        if (input.Rings.Count > 0)
        {
            blocks.Add(new Table([new Column("Step", Width: 2), Column.Number("Diameter"), Column.Number("Depth"), "Kind"],
                [.. input.Rings.Select(ring => new TableRow(ring.Name, Size(ring.DiameterMeters), Size(ring.DepthMeters), ring.IsChamfer ? "chamfer" : "step"))]));
        }

        if (template.Holes.Count > 0)
        {
            blocks.Add(new Table([Column.Number("Hole"), Column.Number("To the right"), Column.Number("Up"), Column.Number("Diameter")],
                [.. template.Holes.Select(hole => new TableRow(hole.Number.ToString(CultureInfo.CurrentCulture), Size(hole.Center.X), Size(hole.Center.Y), Size(hole.DiameterMeters)))])
            {
                Caption = "From the middle of the cut-out",
            });
        }

        return new Section("", blocks);

        string Size(double meters) => text.Of(meters, QuantityKind.SmallLength, 5);
    }

    private static IEnumerable<Section> Pages(TemplateResult template)
    {
        var pages = TemplateDrawing.Pages(template);
        return pages.Select(page => new Section(pages.Count == 1 ? "Drawing 1:1" : $"Drawing 1:1, row {page.Row}, column {page.Column}",
            new Figure(page.Svg, pages.Count == 1 ? "" : "Cut along the dashed lines and lay the pages edge to edge.") { TrueSize = true }) { StartsNewPage = true });
    }
}
