using ShopFloor.Documents.Composition;

namespace ShopFloor.Documents.Tests.Drawing;

public sealed class TableDrawingTests
{
    [Fact]
    public void Five_hundred_rows_are_each_drawn_once_in_order_with_the_header_on_every_page()
    {
        var rows = Enumerable.Range(0, 500)
            .Select(i => new TableRow($"[{i}]",
            i % 9 == 0 ? "A longer text that will not fit on one line of this column and so needs at least two" : "Short", $"{i}.25"));
        using var pdf = DrawnPdf.OfBlocks(new Table(["Position", new Column("What", Width: 2), Column.Number("Amount")], [.. rows]));

        Assert.True(pdf.Pages.Count > 8);
        var at = -1;
        for (var i = 0; i < 500; i++)
        {
            Assert.Equal(1, PdfDrawingTests.Occurrences(pdf.Text, $"[{i}]"));
            var next = pdf.Text.IndexOf($"[{i}]", StringComparison.Ordinal);
            Assert.True(next > at);
            at = next;
        }
        Assert.All(pdf.Pages, page => Assert.Equal(1, PdfDrawingTests.Occurrences(page.Text, "Position")));
    }

    [Fact]
    public void Row_is_not_cut_by_a_page_break()
    {
        var rows = Enumerable.Range(0, 120)
            .Select(i => new TableRow($"[{i}]", string.Concat(Enumerable.Repeat($"begin{i} middle words of this row ", 4)) + $"end{i}."));
        using var pdf = DrawnPdf.OfBlocks(new Table([new Column("A", Width: 1), new Column("B", Width: 3)], [.. rows]));

        for (var i = 0; i < 120; i++)
        {
            var page = pdf.Pages.Single(page => page.Text.Contains($"[{i}]", StringComparison.Ordinal));
            Assert.Contains($"end{i}.", page.Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Row_taller_than_a_page_runs_on_instead_of_being_lost()
    {
        var lines = string.Join('\n', Enumerable.Range(0, 200).Select(i => $"<{i}>"));
        using var pdf = DrawnPdf.OfBlocks(new Table(["A", "B"], [new TableRow("x", lines), new TableRow("y", "after")]));

        for (var i = 0; i < 200; i++)
            Assert.Equal(1, PdfDrawingTests.Occurrences(pdf.Text, $"<{i}>"));
        Assert.Contains("after", pdf.Text, StringComparison.Ordinal);
        Assert.All(pdf.Pages.SelectMany(page => page.Letters), letter => Assert.True(letter.BoundingBox.Bottom > 20));
    }

    [Fact]
    public void Numbers_end_at_one_edge_and_their_digits_are_equally_wide()
    {
        string[] numbers = ["1.11", "1,117.71", "88.88", "0.14"];
        using var pdf = DrawnPdf.OfBlocks(new Table(["A", Column.Number("N"), "C"], [.. numbers.Select(number =>
            new TableRow("x", number, "y"))]));

        var words = pdf.Pages[0].GetWords().Where(word => numbers.Contains(word.Text)).ToList();
        Assert.Equal(4, words.Count);
        Assert.True(words.Max(word => word.Letters[^1].EndBaseLine.X) - words.Min(word => word.Letters[^1].EndBaseLine.X) < 0.05);
        var widths = words.SelectMany(word => word.Letters.Zip(word.Letters.Skip(1)))
            .Where(pair => char.IsDigit(pair.First.Value[0]) && char.IsDigit(pair.Second.Value[0]))
            .Select(pair => pair.Second.StartBaseLine.X - pair.First.StartBaseLine.X).ToList();
        Assert.True(widths.Max() - widths.Min() < 0.05);
    }

    [Fact]
    public void Column_widens_for_its_longest_word()
    {
        using var pdf = DrawnPdf.OfBlocks(new Table(
            [new Column("A", Width: 0.2), new Column("B", Width: 5)], [new TableRow("Lautsprecherkabel", "short")]));

        var word = pdf.Pages[0].GetWords().Single(word => word.Text.Contains("kabel", StringComparison.Ordinal));
        Assert.Equal("Lautsprecherkabel", word.Text);
    }

    [Fact]
    public void Total_is_never_alone_on_a_page_and_a_group_name_is_never_last()
    {
        for (var count = 28; count < 48; count++)
        {
            using var pdf = DrawnPdf.OfBlocks(new Table(
                ["A"],
                [.. Enumerable.Range(0, count)
                    .Select(i => new TableRow($"[{i}]")), TableRow.Group("Group name"), new TableRow("Member"), TableRow.Total("Sum")]));

            int PageOf(string text) => pdf.Pages.Single(page => page.Text.Contains(text, StringComparison.Ordinal)).Number;
            Assert.Equal(PageOf("Group name"), PageOf("Member"));
            Assert.Equal(PageOf("Member"), PageOf("Sum"));
        }
    }

    [Fact]
    public void Table_without_rows_says_what_it_was_told_to_say()
    {
        using var pdf = DrawnPdf.OfBlocks(new Table(["A"], []) { WhenEmpty = "No fuses." }, new Table(["B"], []), new Paragraph("After"));

        Assert.Contains("No fuses.", pdf.Text, StringComparison.Ordinal);
        Assert.Contains("After", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Row_with_fewer_cells_is_filled_up()
    {
        using var pdf = DrawnPdf.OfBlocks(new Table(["A", "B"], [new TableRow("only"), new TableRow()]));

        Assert.Contains("only", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Row_with_more_cells_than_columns_is_refused_by_number()
    {
        var error = Assert.Throws<ArgumentException>(() =>
            DrawnPdf.OfBlocks(new Table(["A"], [new TableRow("1"), new TableRow("1", "2")])));

        Assert.Contains("Row 2 has 2 cells", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(-1.0)]
    [InlineData(double.NaN)]
    public void Column_without_a_width_is_refused(double width)
    {
        Assert.Throws<ArgumentException>(() => DrawnPdf.OfBlocks(new Table([new Column("A", Width: width)], [])));
    }
}
