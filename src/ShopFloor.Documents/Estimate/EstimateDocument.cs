using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Shop.Phases.Estimate;

namespace ShopFloor.Documents.Estimate;

/// <summary>The estimate as the client reads it, frozen as it was issued.</summary>
public static class EstimateDocument
{
    public static PrintedDocument Compose(EstimatePaper paper) => Compose(paper, forScreen: false);

    /// <summary>The same without places to sign by hand: on a screen the answer is given below it.</summary>
    public static PrintedDocument ForScreen(EstimatePaper paper) => Compose(paper, forScreen: true);

    private static PrintedDocument Compose(EstimatePaper paper, bool forScreen)
    {
        ArgumentNullException.ThrowIfNull(paper);
        var title = string.Create(CultureInfo.CurrentCulture, $"Estimate {paper.Number}");
        var head = Paper.Head(paper.Letterhead, title, paper.JobTitle, paper.JobReference) with
        {
            DateText = Paper.Day(paper.Letterhead, paper.IssuedAt),
            CreatedAt = paper.IssuedAt,
            FooterText = $"{paper.Letterhead.ShopName} · {paper.JobReference} · {title.ToLower(CultureInfo.CurrentCulture)}",
        };
        var opening = new List<Block>
        {
            Paper.Facts(2, ("For", paper.ClientName), ("Vehicle", paper.Vehicle), ("Address", paper.ClientAddress), ("Plate", paper.Plate)),
        };
        opening.AddRange(Paper.Lines(paper.Note).Select(line => new Paragraph(line)));
        return new PrintedDocument(head, new Section("", opening), new Section("", Lines(paper), new KeepTogether([Totals(paper), .. Answer(paper, forScreen)]))) { NumberSections = false };
    }

    private static Table Lines(EstimatePaper paper)
    {
        string Money(decimal amount) => Paper.Money(amount, paper.Currency);
        var rows = new List<TableRow>();
        foreach (var group in FoldedLine.Fold(paper.Lines).GroupBy(line => line.Group))
        {
            rows.Add(TableRow.Group(group.Key));
            rows.AddRange(group.Select(line => new TableRow(
                line.IsFolded ? string.Create(CultureInfo.CurrentCulture, $"{line.Text} ({line.Lines.Count} runs)") : line.Text,
                string.Create(CultureInfo.CurrentCulture, $"{line.Quantity:0.###} {line.Unit}"),
                Money(line.UnitPrice),
                Money(line.Total))));
            if (group.Count() > 1)
            {
                rows.Add(new TableRow("", "", "", Money(group.Sum(line => line.Total))) { Emphasis = RowEmphasis.Strong });
            }
        }

        return new Table(
            [new Column("What", Width: 4.4), Column.Number("Quantity", 1.3), Column.Number("Each, net", 1.6), Column.Number("Net", 1.6)],
            rows);
    }

    private static Table Totals(EstimatePaper paper) => new(
        [new Column("", Width: 4.4), Column.Number("", 1.6)],
        [
            new TableRow("Net", Paper.Money(paper.Net, paper.Currency)),
            new TableRow(string.Create(CultureInfo.CurrentCulture, $"Tax {paper.TaxPercent:0.###} %"), Paper.Money(paper.Tax, paper.Currency)),
            TableRow.Total("To pay", Paper.Money(paper.Gross, paper.Currency)),
        ]);

    private static List<Block> Answer(EstimatePaper paper, bool forScreen)
    {
        if (paper.AnsweredAt is not { } at)
        {
            var promise = new Paragraph("Work that turns out to be needed besides is agreed with you first.") { Secondary = true };
            return forScreen ? [promise] : [promise, new Signatures(new Signature("Client, agreed"), new Signature($"For {paper.Letterhead.ShopName}"))];
        }

        var word = paper.State == EstimateState.Declined ? "Declined" : "Approved";
        return [new Paragraph(FormattedText.Strong($"{word} by {paper.AnsweredBy}") + $" on {Paper.Moment(paper.Letterhead, at)}.")];
    }
}
