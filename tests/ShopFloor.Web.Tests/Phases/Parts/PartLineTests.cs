using System.Globalization;
using Bunit;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Layout;
using ShopFloor.Web.Phases.Parts;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Phases.Parts;

public sealed class PartLineTests : ComponentTest
{
    private PartState? _moved;
    private int? _shifted;

    [Fact]
    public void The_desk_sees_the_price_and_orders_next()
    {
        var line = Line(ShopRole.FrontDesk, PartState.Needed);

        Assert.Contains("€480.00", line.Markup, StringComparison.Ordinal);
        line.Find(".part-next button").Click();
        Assert.Equal(PartState.Ordered, _moved);
    }

    [Fact]
    public void A_technician_sees_no_money_and_receives_next()
    {
        var line = Line(ShopRole.Technician, PartState.Needed);

        Assert.DoesNotContain("480", line.Markup, StringComparison.Ordinal);
        Assert.Empty(line.FindAll(".part-price"));
        line.Find(".part-next button").Click();
        Assert.Equal(PartState.Received, _moved);
    }

    [Theory]
    [InlineData(9, "late since 9 Mar 2031")]
    [InlineData(10, "for 10 Mar 2031")]
    public void An_order_says_for_when_it_is_and_when_it_is_late(int day, string expected)
    {
        var line = Line(ShopRole.Technician, PartState.Ordered, new DateOnly(2031, 3, day));

        Assert.Contains(expected, line.Find(".part-state").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void What_comes_out_of_the_car_is_not_bought()
    {
        var line = Line(ShopRole.FrontDesk, PartState.Needed, direction: PartDirection.Removed);

        Assert.Empty(line.FindAll(".part-next button"));
        Assert.Contains("Comes out", line.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void The_open_part_moves_among_its_like_and_stops_at_the_ends()
    {
        var line = Line(ShopRole.FrontDesk, PartState.Needed, selected: true);

        Assert.True(line.Find("[aria-label^='Move up']").HasAttribute("disabled"));
        line.Find("[aria-label^='Move down']").Click();

        Assert.Equal(1, _shifted);
        Assert.Empty(Line(ShopRole.FrontDesk, PartState.Needed).FindAll("[aria-label^='Move down']"));
        Assert.Empty(Line(ShopRole.Technician, PartState.Needed, selected: true).FindAll("[aria-label^='Move down']"));
    }

    private IRenderedComponent<PartLine> Line(ShopRole role, PartState state, DateOnly? expected = null, PartDirection direction = PartDirection.Installed, bool selected = false)
    {
        CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("en-US");
        var row = new PartRow
        {
            Id = Guid.CreateVersion7(),
            Version = Guid.CreateVersion7(),
            Kind = PartKind.Amplifier,
            Name = "Four-channel amplifier",
            Supplier = "Nordhandel",
            PartNumber = "A-4150",
            Direction = direction,
            Quantity = 1,
            Unit = PartUnit.Piece,
            Zone = "dash",
            Place = "",
            Access = "",
            State = state,
            OrderReference = "",
            ExpectedOn = expected,
            PlanRunId = "",
            UnitMassKilograms = 3.2,
            Data = new AmplifierData { Channels = 4 },
            Notes = "",
        };
        var actor = new Actor(Guid.CreateVersion7(), "Somebody", role, ActorVia.Desk);
        return Render<PartLine>(parameters => parameters
            .AddCascadingValue(new Viewer(actor, ShopFloor.Engineering.Units.UnitSystem.Metric, TimeZoneInfo.Utc, "EUR", "Shop"))
            .Add(line => line.Row, row)
            .Add(line => line.Price, 480)
            .Add(line => line.Today, new DateOnly(2031, 3, 10))
            .Add(line => line.MayEdit, role != ShopRole.Technician)
            .Add(line => line.Selected, selected)
            .Add(line => line.IsFirst, true)
            .Add(line => line.Shift, by => _shifted = by)
            .Add(line => line.Move, to => _moved = to));
    }
}
