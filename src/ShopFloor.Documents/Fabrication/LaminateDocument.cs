using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Fabrication;

/// <summary>Composite parts for the bench: cautions first, layers, cups and what to get. Nothing of money.</summary>
public static class LaminateDocument
{
    public static PrintedDocument Compose(LaminateSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var text = new UnitText(sheet.Letterhead.Units, CultureInfo.CurrentCulture);
        var head = Paper.Head(sheet.Letterhead, $"{sheet.JobReference}   Composites and finish", $"{sheet.Vehicle}: {sheet.JobTitle}", "Composites") with
        {
            ShopContact = [],
            FooterText = $"Composites · {sheet.JobReference} · {sheet.Vehicle}",
        };
        return new PrintedDocument(head, sheet.Parts.Count == 0
            ? [new Section("", new Paragraph("There is no composite part for this job."))]
            : [.. sheet.Parts.Select(each => PartOf(each.Name, each.View, text))]);
    }

    private static Section PartOf(string name, LaminateView view, UnitText text)
    {
        if (view.Result is not { } result)
        {
            return new Section(name, new Caution(CautionKind.Danger, $"Not worked out yet. {string.Join(" ", view.Problems.Select(problem => problem.Message))}"));
        }

        List<Block> blocks = [.. result.Cautions.Select(caution => new Caution(caution.IsDanger ? CautionKind.Danger : CautionKind.Caution, FormattedText.Strong(char.ToUpper(caution.Title[0], CultureInfo.CurrentCulture) + caution.Title[1..] + ". ") + caution.Text))];
        blocks.AddRange(result.Findings.Select(finding => new Caution(finding.Severity == Severity.Stop ? CautionKind.Danger : CautionKind.Caution, $"{finding.Subject}: {finding.Text} {finding.Remedy}")));
        blocks.Add(Paper.Facts(
            2,
            ("Area", text.With(result.SquareMeters, "m²")),
            ("Thickness", text.Millimeters(result.ThicknessMeters)),
            ("The part weighs", text.Kilograms(result.Kilograms)),
            ("Resin to mix", text.Kilograms(result.MixedKilograms)),
            ("Cups", result.Batches is { } cups ? string.Create(CultureInfo.CurrentCulture, $"{cups.Batches} of {text.With(1000 * cups.ResinKilograms, "g")} resin and {text.With(1000 * cups.HardenerKilograms, "g")} hardener, {text.With(cups.Minutes, "min")} each") : "")));
        blocks.Add(new Table(
            [new Column("Layer, from the mould outward", Width: 3), Column.Number("Plies"), Column.Number("Thickness"), Column.Number("Mass")],
            [.. result.Layers.Select(layer => new TableRow(layer.Name, layer.Plies.ToString(CultureInfo.CurrentCulture), text.Millimeters(layer.Plies * layer.PlyMeters), text.With(layer.KilogramsPerSquareMeter, "kg/m²")))]));
        blocks.Add(new Table(
            [new Column("To get", Width: 3), Column.Number("Quantity"), Column.Number("Stays in the car")],
            [.. result.Materials.Select(row => new TableRow(row.Name, text.With(row.Quantity, row.Unit), row.StayingKilograms > 0 ? text.Kilograms(row.StayingKilograms) : "–"))]));
        return new Section(name, blocks);
    }
}
