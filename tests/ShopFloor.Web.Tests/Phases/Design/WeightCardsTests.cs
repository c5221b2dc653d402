using Bunit;
using ShopFloor.Engineering.Mass;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;
using ShopFloor.Web.Layout;
using ShopFloor.Web.Phases.Design;
using ShopFloor.Web.Tests.Components;
using UnitSystem = ShopFloor.Engineering.Units.UnitSystem;

namespace ShopFloor.Web.Tests.Phases.Design;

public sealed class WeightCardsTests : ComponentTest
{
    private static readonly Guid _job = Guid.CreateVersion7();

    [Fact]
    public void The_budget_bar_says_what_is_left_and_what_is_too_much()
    {
        // 30 of 40 kg: three quarters; 46 of 40 kg: 6 too much.
        var within = Bar(30);
        Assert.Contains("10\u00A0kg left", within.Markup, StringComparison.Ordinal);
        Assert.Equal("width:75%", within.Find(".mass-budget-bar span").GetAttribute("style"));

        var passed = Bar(46);
        Assert.Contains("6\u00A0kg too much", passed.Markup, StringComparison.Ordinal);
        Assert.Contains("passed", passed.Find(".mass-budget-bar").ClassName, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_wheelbase_the_card_leads_to_where_it_is_entered()
    {
        var card = Render<LoadsCard>(parameters => parameters.Add(shown => shown.JobId, _job).Add(shown => shown.Weight, View(null)).AddCascadingValue(Viewer(ShopRole.Technician)));

        Assert.Empty(card.FindAll("table"));
        Assert.Equal($"/jobs/{_job}/intake", card.Find("section > p a").GetAttribute("href"));
        Assert.Contains(card.FindAll(".missing-facts a"), link => link.TextContent == "Woofer: mass" && link.GetAttribute("href")!.StartsWith($"/jobs/{_job}/parts?part=", StringComparison.Ordinal)); // every link leads somewhere
    }

    [Fact]
    public void Loads_stand_in_a_drawing_and_a_table()
    {
        // 30 · 3/2.5 = 36 kg on the rear axle, −6 kg on the front; by hand.
        var card = Render<LoadsCard>(parameters => parameters.Add(shown => shown.JobId, _job).Add(shown => shown.Weight, View(2.5)).AddCascadingValue(Viewer(ShopRole.Technician)));

        Assert.NotNull(card.Find(".load-plan svg"));
        var rear = card.FindAll("tbody tr").Single(row => row.TextContent.StartsWith("Rear axle", StringComparison.Ordinal));
        Assert.Contains("+36\u00A0kg", rear.TextContent, StringComparison.Ordinal);
        Assert.Contains("735", rear.TextContent, StringComparison.Ordinal); // 699 as it came and 36
    }

    [Fact]
    public void Whoever_stands_at_the_scales_may_type_the_readings()
    {
        var asked = 0;
        var card = Render<ScalesCard>(parameters => parameters.Add(shown => shown.JobId, _job).Add(shown => shown.Weight, View(2.5)).Add(shown => shown.Edit, () => asked++).AddCascadingValue(Viewer(ShopRole.Technician)));

        card.Find("button").Click();

        Assert.Equal(1, asked);
    }

    private static Viewer Viewer(ShopRole role) => new(new Actor(Guid.CreateVersion7(), "Tom Tech", role, ActorVia.Tablet), UnitSystem.Metric, TimeZoneInfo.Utc, "EUR", "Shop");

    private IRenderedComponent<MassBudgetBar> Bar(double kilograms) => Render<MassBudgetBar>(parameters => parameters
        .Add(shown => shown.Target, MassTarget.Compute(new MassTargetInput(40, [new AddedMassItem { Id = "a", Name = "A", Zone = "z", UnitMassKilograms = kilograms }])))
        .AddCascadingValue(Viewer(ShopRole.Technician)));

    private static WeightPlanView View(double? wheelbase)
    {
        PlacedMass[] masses = [new("b", "Battery", 30, 3)];
        var woofer = Guid.CreateVersion7();
        return new WeightPlanView(AddedMass.Compute(new AddedMassInput { Items = [] }), new PayloadLabel(), BodyStyle.Estate, [], [], [])
        {
            Placed = [],
            Measures = new VehicleMeasures { WheelbaseMeters = wheelbase },
            Balance = new MassBalance(
                wheelbase is { } known ? AxleLoads.Compute(new AxleLoadsInput { WheelbaseMeters = known, FrontKilograms = 801, RearKilograms = 699, Masses = masses }) : null,
                false, null, null, null, null, 0, 1, [new MissingFact("Wheelbase", FactPlace.Vehicle), new MissingFact("Woofer: mass", FactPlace.Part, woofer)], []),
        };
    }
}
