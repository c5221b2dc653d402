using ShopFloor.Documents.Handover;
using ShopFloor.Documents.Tests.Drawing;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Handover;

namespace ShopFloor.Documents.Tests.Papers;

/// <summary>How things are built, in the handover drawn as PDF and read back.</summary>
public sealed class HandoverBuildPaperTests
{
    private static readonly MadeFact Trim = new("Trim over the box", "Composite, under a vacuum bag", "Boot, right side", [new("Glass twill 200 g", 0.252, "layer 1, 3 from the mould, 3×"), new("Epoxy", 1.2345, "")], "Four clips", "Pull at the lower edge, clip by clip.", "No solvent.");

    [Fact]
    public void The_next_technician_reads_layers_grams_glue_and_how_it_comes_off()
    {
        using var pdf = DrawnPdf.Of(HandoverDocument.Compose(SampleJob.Handover with { Made = [Trim] }, null));

        foreach (var expected in new[] { "How it is built", "Trim over the box", "Composite, under a vacuum bag, Boot, right side.", "Glass twill 200 g", "252", "layer 1, 3 from the mould", "1235", "Held together with: Four clips", "Comes off: Pull at the lower edge", "Care: No solvent." })
            Assert.Contains(expected, pdf.Text.Replace('\u00a0', ' ').Replace("1,235", "1235", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    // 252 g are 8.889 oz (28.349523125 g, NIST SP 811).
    [Fact]
    public void A_shop_with_us_units_reads_ounces()
    {
        using var pdf = DrawnPdf.Of(HandoverDocument.Compose(SampleJob.Handover with { Letterhead = SampleJob.Letterhead with { Units = UnitSystem.Us }, Made = [Trim] }, null));

        Assert.Contains("8.89 oz", pdf.Text.Replace('\u00a0', ' '), StringComparison.Ordinal);
    }

    [Fact]
    public void A_car_with_nothing_made_by_hand_has_no_such_section()
    {
        using var pdf = DrawnPdf.Of(HandoverDocument.Compose(SampleJob.Handover with { Made = [] }, null));

        Assert.DoesNotContain("How it is built", pdf.Text, StringComparison.Ordinal);
    }
}
