using Bunit;
using ShopFloor.Engineering.Electrical.Fusing;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Web.Phases.Design;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Phases.Design;

public sealed class FuseOrderTableTests : ComponentTest
{
    [Fact]
    public void A_small_fuse_far_below_the_one_before_it_opens_first_and_its_times_are_written()
    {
        // Blade at 600 %: 0.02 to 0.1 s. Bolt-in at 30 A of 125 A: holds. Bands of ISO 8820, from memory.
        var row = Row(new FuseAtFault("F2", "Clock", 5, 30, FuseCurves.Blade), new FuseAtFault("F1", "Main run", 125, 30, FuseCurves.BoltIn));

        Assert.Contains("F2, at every current", row, StringComparison.Ordinal);
        Assert.Contains("F2 20\u00A0ms to 0.1 s".Replace('\u00A0', ' '), row.Replace('\u00A0', ' '), StringComparison.Ordinal);
        Assert.Contains("F1 holds", row, StringComparison.Ordinal);
        Assert.DoesNotContain("Warn", row, StringComparison.Ordinal);
    }

    [Fact]
    public void Bands_that_overlap_are_not_sure_and_warned_of_in_words()
    {
        // Both far above six times their rating: the 60 A one may take 1 s, the 80 A one may open after a few hundredths of one.
        var row = Row(new FuseAtFault("F2", "Amplifier", 60, 1200, FuseCurves.BoltIn), new FuseAtFault("F1", "Main run", 80, 1200, FuseCurves.BoltIn));

        Assert.Contains("Warn", row, StringComparison.Ordinal);
        Assert.Contains("not sure", row, StringComparison.Ordinal);
    }

    [Fact]
    public void A_form_without_a_band_sends_to_the_maker()
    {
        var row = Row(new FuseAtFault("F2", "Amplifier", 60, 1200, null), new FuseAtFault("F1", "Main run", 80, 1200, FuseCurves.BoltIn));

        Assert.Contains("ask the maker", row, StringComparison.Ordinal);
        Assert.Contains("F2 not known", row, StringComparison.Ordinal);
    }

    private string Row(FuseAtFault own, FuseAtFault before)
    {
        var result = own.Curve is { } down && before.Curve is { } up
            ? FuseSelectivity.Compare(new FuseInSeries(own.Mark, own.RatingAmperes, down), new FuseInSeries(before.Mark, before.RatingAmperes, up), own.Amperes)
            : null;
        var table = Render<FuseOrderTable>(parameters => parameters.Add(shown => shown.Orders, [new FuseOrder("run", own, before, result)]).Add(shown => shown.Text, UnitText.Invariant));
        Assert.Contains("from memory", table.Find(".muted").TextContent, StringComparison.Ordinal);
        Assert.Equal(result is null ? 0 : 1, table.FindAll("button").Count);
        return table.Find("tbody tr").TextContent;
    }
}
