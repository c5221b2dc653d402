using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Fabrication.Treatment;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Fabrication;

/// <summary>What panels get, and the rattles found by tones, for the bay. Nothing of money.</summary>
public static class TreatmentDocument
{
    public static PrintedDocument Compose(TreatmentSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var text = new UnitText(sheet.Letterhead.Units, CultureInfo.CurrentCulture);
        var head = Paper.Head(sheet.Letterhead, $"{sheet.JobReference}   Treatment and rattles", $"{sheet.Vehicle}: {sheet.JobTitle}", "Treatment") with
        {
            ShopContact = [],
            FooterText = $"Treatment · {sheet.JobReference} · {sheet.Vehicle}",
        };
        List<Section> sections =
        [
            .. sheet.Treatments.Count == 0
                ? [new Section("", new Paragraph("There is no treatment for this job."))]
                : sheet.Treatments.Select((each, index) => TreatmentOf(each.Name, each.Form, each.View, sheet.Products, text, isFirst: index == 0)),
        ];
        if (sheet.Rattles.Count > 0)
        {
            sections.Add(new Section("Rattles", new Table(
                [Column.Number("Tone"), new Column("Where", Width: 2), new Column("What was done", Width: 3), new Column("Played again", Width: 2)],
                [.. sheet.Rattles.Select(row => new TableRow(text.With(row.Hertz, "Hz"), row.Place, row.Last?.Text ?? "nothing yet", PlayedWords(row)))])));
        }

        return new PrintedDocument(head, sections);
    }

    private static string PlayedWords(RattleRow row) => row.State switch
    {
        RattleState.Gone => $"gone, {row.Last!.PlayedBy}", // gone only after a remedy was played
        RattleState.Returned => "still heard",
        RattleState.Treated => "not yet",
        _ => "",
    };

    private static Section TreatmentOf(string name, TreatmentForm form, TreatmentView view, IReadOnlyList<TreatmentProduct> products, UnitText text, bool isFirst)
    {
        if (view.Result is not { } result)
        {
            return new Section(name, new Caution(CautionKind.Danger, $"Not worked out yet. {string.Join(" ", view.Problems.Select(problem => problem.Message))}"));
        }

        var names = products.ToDictionary(product => product.Id, product => product.Name);
        List<Block> blocks = [];
        if (isFirst)
        {
            blocks.AddRange(TreatmentView.Cautions.Select(caution => new Caution(caution.IsDanger ? CautionKind.Danger : CautionKind.Caution, FormattedText.Strong(char.ToUpper(caution.Title[0], CultureInfo.CurrentCulture) + caution.Title[1..] + ". ") + caution.Text)));
        }

        blocks.AddRange(result.Findings.Select(finding => new Caution(finding.Severity == Severity.Stop ? CautionKind.Danger : CautionKind.Caution, $"{finding.Subject}: {finding.Text} {finding.Remedy}")));
        blocks.Add(new Table(
            [new Column("Panel", Width: 2), Column.Number("Area"), new Column("Gets", Width: 3), Column.Number("Added")],
            [.. form.Panels.Zip(result.Panels).Select(pair => new TableRow(
                pair.First.Name,
                text.With(pair.First.SquareMeters ?? 0, "m²", 2),
                string.Join(", ", pair.First.Layers.Select(layer => $"{text.Percent(layer.CoveragePercent)} {(layer.ProductId is { } id ? names.GetValueOrDefault(id, "") : "")}")),
                text.Kilograms(pair.Second.Kilograms)))]));
        blocks.Add(new Table(
            [new Column("To get", Width: 3), Column.Number("On the panels"), Column.Number("Quantity"), Column.Number("On the car")],
            [.. view.Rows.Select(row => new TableRow(row.Product.Name, text.With(row.SquareMeters, "m²", 2), row.Sheets is { } sheets ? string.Create(CultureInfo.CurrentCulture, $"{sheets} {(sheets == 1 ? "sheet" : "sheets")}") : text.With((double)row.Quantity, "m²", 2), text.Kilograms(row.Kilograms)))]));
        return new Section(name, blocks);
    }
}
