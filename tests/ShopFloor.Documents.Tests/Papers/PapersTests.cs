using ShopFloor.Documents.CheckIn;
using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Estimate;
using ShopFloor.Documents.Handover;
using ShopFloor.Documents.Tests.Drawing;
using ShopFloor.Documents.Traveller;

namespace ShopFloor.Documents.Tests.Papers;

/// <summary>Each paper drawn as PDF and read back by a reader that shares nothing with the writer.</summary>
public sealed class PapersTests
{
    [Fact]
    public void Handover_says_everything_the_facts_say()
    {
        using var pdf = DrawnPdf.Of(HandoverDocument.Compose(SampleJob.Handover));
        var text = pdf.Text;

        string[] sections =
        [
            "Using your system", "Take care", "What was fitted", "Fuse map", "Service access", "Settings when it left us", "Added weight", "Factory functions, before and after", "Warranty and care",
        ];
        var places = sections.Select(section => text.IndexOf(section, StringComparison.Ordinal)).ToList();
        Assert.All(places, place => Assert.True(place >= 0));
        Assert.Equal(places.Order(), places);
        Assert.Contains(SampleJob.GreekName, text, StringComparison.Ordinal);
        Assert.Contains("Ксения", text, StringComparison.Ordinal);
        Assert.Contains("orange cables", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_fuse_stands_in_the_map_with_rating_place_and_what_it_protects()
    {
        using var pdf = DrawnPdf.Of(HandoverDocument.Compose(SampleJob.Handover));
        var map = Between(pdf.Text, "Fuse map", "Service access");

        foreach (var fuse in SampleJob.Handover.Fuses)
        {
            Assert.Contains($"{fuse.RatingAmperes} A", map, StringComparison.Ordinal);
            Assert.Contains(fuse.Protects, map, StringComparison.Ordinal);
            Assert.Contains(fuse.Form, map, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Pages_are_numbered_with_how_many_there_are()
    {
        using var pdf = DrawnPdf.Of(HandoverDocument.Compose(SampleJob.Handover));
        Assert.True(pdf.Pages.Count > 1);
        Assert.All(pdf.Pages, page => Assert.Contains($"Page {page.Number} of {pdf.Pages.Count}", DrawnPdf.TextOf(page), StringComparison.Ordinal));
    }

    [Fact]
    public void Preview_says_that_nothing_was_handed_over()
    {
        using var pdf = DrawnPdf.Of(HandoverDocument.Compose(SampleJob.Handover with { DeliveredOn = null, ReleaseNumber = null }));
        Assert.Contains("Preview, not handed over", pdf.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("handover 1", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Function_the_car_never_had_is_no_difference_and_an_explained_one_is()
    {
        var rows = HandoverDocument.Compose(SampleJob.Handover).Sections.SelectMany(section => section.Blocks).OfType<Table>().SelectMany(table => table.Rows).ToList();

        Assert.Equal(["Sunroof", "not fitted", "not fitted", ""], Row(rows, "Sunroof").Cells);
        Assert.Equal(RowEmphasis.None, Row(rows, "Sunroof").Emphasis);
        Assert.Equal(RowEmphasis.Strong, Row(rows, "Rear window heating").Emphasis);
        Assert.Contains("loose plug", Row(rows, "Rear window heating").Cells[3], StringComparison.Ordinal);
    }

    [Fact]
    public void Estimate_shows_lines_tax_and_the_total_and_asks_for_a_signature()
    {
        using var pdf = DrawnPdf.Of(EstimateDocument.Compose(SampleJob.Estimate));

        foreach (var expected in new[] { "Five-channel amplifier", "749.90", "67.93", "637.50", "1,455.33", "Tax 19 %", "276.51", "1,731.84", "Client, agreed", SampleJob.CyrillicName })
        {
            Assert.Contains(expected, pdf.Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Estimate_shows_runs_of_one_cable_as_one_line()
    {
        var first = SampleJob.Estimate.Lines[1];
        var paper = SampleJob.Estimate with { Lines = [.. SampleJob.Estimate.Lines, first with { Quantity = 2, Total = 24.70m, SourceId = Guid.CreateVersion7() }] };
        using var pdf = DrawnPdf.Of(EstimateDocument.Compose(paper));

        // By hand: 5.5 + 2 = 7.5 m; 67.93 + 2 × 12.35 = 92.63.
        foreach (var expected in new[] { "Supply cable 4 AWG (2 runs)", "7.5 m", "92.63" })
        {
            Assert.Contains(expected, pdf.Text, StringComparison.Ordinal);
        }

        Assert.DoesNotContain("67.93", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Answered_estimate_says_who_answered_and_when_by_the_shops_clock()
    {
        var answered = SampleJob.Estimate with { State = Shop.Phases.Estimate.EstimateState.Approved, AnsweredBy = SampleJob.CyrillicName, AnsweredAt = new DateTimeOffset(2031, 7, 4, 22, 30, 0, TimeSpan.Zero) };
        using var pdf = DrawnPdf.Of(EstimateDocument.Compose(answered));

        // Vienna is two hours ahead in July, so it was the fifth there.
        Assert.Contains($"Approved by {SampleJob.CyrillicName} on 5 July 2031, 00:30", pdf.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Client, agreed", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Traveller_carries_cautions_restrictions_proofs_and_no_money()
    {
        using var pdf = DrawnPdf.Of(TravellerDocument.Compose(SampleJob.Traveller, "https://shop.example/work/1"));

        foreach (var expected in new[] { "J-0042", "AB 123", "orange cables", "Nothing of the car is cut", "Photograph every plug", "4 to 6 Nm", "second person", "Left in the car" })
        {
            Assert.Contains(expected, pdf.Text, StringComparison.Ordinal);
        }

        Assert.DoesNotContain("€", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_in_receipt_lists_the_marks_the_belongings_and_the_signer()
    {
        using var pdf = DrawnPdf.Of(CheckInDocument.Compose(SampleJob.CheckIn, new Dictionary<string, ReadOnlyMemory<byte>>()));

        foreach (var expected in new[] { "Left front door", "12 cm, to the primer", "Cap of the towing eye", "Child seat", "12.6 V", "Tyre pressure", "Lower half cold", SampleJob.CyrillicName, "Dora Desk" })
        {
            Assert.Contains(expected, pdf.Text, StringComparison.Ordinal);
        }
    }

    private static TableRow Row(IEnumerable<TableRow> rows, string first) => Assert.Single(rows, row => row.Cells[0] == first);

    private static string Between(string text, string from, string to)
    {
        var start = text.IndexOf(from, StringComparison.Ordinal);
        return text[start..text.IndexOf(to, start, StringComparison.Ordinal)];
    }
}
