using ShopFloor.Documents.CheckIn;
using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Estimate;
using ShopFloor.Documents.Handover;
using ShopFloor.Documents.Tests.Diagrams;
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
            "Using your system", "Take care", "What was fitted", "Fuse map", "As measured when it left us", "Service access", "Settings when it left us", "Added weight", "Factory functions, before and after", "Warranty and care",
        ];
        var places = sections.Select(section => text.IndexOf(section, StringComparison.Ordinal)).ToList();
        Assert.All(places, place => Assert.True(place >= 0));
        Assert.Equal(places.Order(), places);
        Assert.Contains(SampleJob.GreekName, text, StringComparison.Ordinal);
        Assert.Contains("Ксения", text, StringComparison.Ordinal);
        Assert.Contains("orange cables", text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_client_reads_what_was_measured_beside_what_was_expected_and_what_is_good()
    {
        using var pdf = DrawnPdf.Of(HandoverDocument.Compose(SampleJob.Handover));
        var table = Between(pdf.Text, "As measured when it left us", "Service access");

        foreach (var expected in new[] { "13.52", "13.61", "13.1 to 15.0", "good", "61", "at most 50", "outside" })
            Assert.Contains(expected, table, StringComparison.Ordinal);
        using var before = DrawnPdf.Of(HandoverDocument.Compose(SampleJob.Handover with { Measured = [] }));
        Assert.DoesNotContain("As measured", before.Text, StringComparison.Ordinal);
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
    public void Preview_is_marked_as_one_on_every_page_and_a_release_on_none()
    {
        using var preview = DrawnPdf.Of(HandoverDocument.Compose(SampleJob.Handover with { DeliveredOn = null, ReleaseNumber = null }));
        Assert.All(preview.Pages, page => Assert.Contains(page.Letters, letter => letter.PointSize > 100));
        Assert.All(preview.Pages, page => Assert.StartsWith("Preview", DrawnPdf.TextOf(page), StringComparison.Ordinal));

        using var release = DrawnPdf.Of(HandoverDocument.Compose(SampleJob.Handover));
        Assert.All(release.Pages, page => Assert.DoesNotContain("Preview", DrawnPdf.TextOf(page), StringComparison.Ordinal));
    }

    [Fact]
    public void Every_fuse_is_drawn_in_its_zone_of_the_car_with_its_rating()
    {
        var plan = SvgGeometry.Parse(Figures("Fuse map")[0].Svg);

        Assert.Equal("F1 80 A", Words(Assert.Single(SvgGeometry.Groups(plan, "engine-bay-left"))));
        Assert.Equal("F2 60 A F3 7.5 A", Words(Assert.Single(SvgGeometry.Groups(plan, "boot-floor-left"))));
    }

    [Fact]
    public void Chain_runs_from_the_battery_over_main_fuse_and_distribution_to_each_load()
    {
        var chain = Words(SvgGeometry.Parse(Figures("Fuse map")[1].Svg));

        foreach (var word in new[] { "Battery", "F1 80 A", "Distribution", "F2 60 A", "Five-channel", "F3 7.5 A", "Eight-channel" })
        {
            Assert.Contains(word, chain, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Numbers_of_parts_are_the_same_on_the_plan_and_in_the_table()
    {
        var document = HandoverDocument.Compose(SampleJob.Handover);
        var fitted = document.Sections.Single(section => section.Title == "What was fitted");
        var plan = SvgGeometry.Parse(fitted.Blocks.OfType<Figure>().Single().Svg);
        var rows = fitted.Blocks.OfType<Table>().Single().Rows.Where(row => row.Emphasis != RowEmphasis.Group).ToList();

        Assert.Equal("1", Words(Assert.Single(SvgGeometry.Groups(plan, "boot-side-left"))));
        Assert.Equal(("1", "Five-channel amplifier"), (Plain(rows[0].Cells[0]), Plain(rows[0].Cells[1])));
        Assert.Equal("3", Words(Assert.Single(SvgGeometry.Groups(plan, "spare-well"))));
        Assert.Equal(("3", "Subwoofer 250 mm"), (Plain(rows[2].Cells[0]), Plain(rows[2].Cells[1])));
        Assert.Equal("", Plain(rows[3].Cells[0]));
    }

    [Fact]
    public void Spare_fuses_left_in_the_car_stand_under_the_fuse_map_and_nothing_does_where_there_are_none()
    {
        var spares = SampleJob.Handover with { Spares = [new Shop.Phases.Design.SpareFuse(7.5, "blade"), new Shop.Phases.Design.SpareFuse(60, "high-current blade")] };

        using var with = DrawnPdf.Of(HandoverDocument.Compose(spares));
        using var without = DrawnPdf.Of(HandoverDocument.Compose(SampleJob.Handover));

        Assert.Contains("Spare fuses in the car: 7.5", with.Text, StringComparison.Ordinal);
        Assert.Contains("high-current blade", with.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Spare fuses in the car", without.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Release_from_before_places_were_kept_has_its_tables_and_no_empty_drawing()
    {
        var old = SampleJob.Handover with
        {
            Vehicle = SampleJob.Handover.Vehicle with { Body = null },
            Fuses = [.. SampleJob.Handover.Fuses.Select(fuse => new Shop.Phases.Handover.FuseMapRow(fuse.Fuse, fuse.RatingAmperes, fuse.Form, fuse.Place, fuse.Protects))],
        };

        Assert.Empty(HandoverDocument.Compose(old).Sections.SelectMany(section => section.Blocks).OfType<Figure>());
        using var pdf = DrawnPdf.Of(HandoverDocument.Compose(old));
        Assert.Contains("Five-channel amplifier", pdf.Text, StringComparison.Ordinal);
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

    private static List<Figure> Figures(string section) =>
        [.. HandoverDocument.Compose(SampleJob.Handover).Sections.Single(found => found.Title == section).Blocks.OfType<Figure>()];

    private static string Words(System.Xml.Linq.XElement drawing) =>
        string.Join(' ', drawing.Descendants().Where(element => element.Name.LocalName == "text").Select(element => element.Value));

    private static string Plain(FormattedText text) => string.Concat(text.Runs.Select(run => run.Text));

    private static TableRow Row(IEnumerable<TableRow> rows, string first) => Assert.Single(rows, row => row.Cells[0] == first);

    private static string Between(string text, string from, string to)
    {
        var start = text.IndexOf(from, StringComparison.Ordinal);
        return text[start..text.IndexOf(to, start, StringComparison.Ordinal)];
    }
}
