using Bunit;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Web.Phases.Estimate;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Phases.Estimate;

public sealed class LinesTableTests : ComponentTest
{
    private static readonly EstimateLine Front = Run(5.5m, 67.93m);
    private static readonly EstimateLine Rear = Run(2, 24.70m);

    [Fact]
    public void Runs_of_one_cable_are_one_row_that_opens_into_its_runs()
    {
        var table = Table([]);
        Assert.Equal(["Cable 4 AWG 2 runs", "7.5 m", "€12.35", "€92.63"], Cells(table.Find("tbody tr:nth-child(2)")));

        table.Find("[aria-expanded=false]").Click();

        Assert.Equal(["Battery to boot", "5.5 m", "", "€67.93"], Cells(table.FindAll(".line-run")[0]));
        Assert.Equal(["Cable 4 AWG", "2 m", "", "€24.70"], Cells(table.FindAll(".line-run")[1]));
        table.Find("[aria-expanded=true]").Click();
        Assert.Empty(table.FindAll(".line-run"));
    }

    [Fact]
    public void A_run_that_is_not_as_approved_marks_its_row_and_itself_alone()
    {
        var table = Table([Rear.SourceId]);

        Assert.Contains("not as approved", table.Find("button").TextContent, StringComparison.Ordinal);
        table.Find("button").Click();
        Assert.Equal([false, true], table.FindAll(".line-run").Select(row => row.ClassList.Contains("line-changed")));
    }

    private static EstimateLine Run(decimal meters, decimal total) =>
        new(PartKinds.Of(PartKind.Cable).Plural, "Cable 4 AWG", meters, "m", 12.35m, total, IsLabour: false, Guid.CreateVersion7());

    private static string[] Cells(AngleSharp.Dom.IElement row) =>
        [.. row.Children.Select(cell => string.Join(' ', cell.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)))];

    private IRenderedComponent<LinesTable> Table(HashSet<Guid> changed) => Render<LinesTable>(parameters => parameters
        .Add(table => table.Lines, [Front, Rear])
        .Add(table => table.Currency, "EUR")
        .Add(table => table.Changed, changed)
        .Add(table => table.Places, new Dictionary<Guid, string> { [Front.SourceId] = "Battery to boot", [Rear.SourceId] = "" }));
}
