using ShopFloor.Engineering.Fabrication.Service;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Phases.Parts;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class ServiceAndLighterTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task The_list_is_made_from_the_parts_with_fuses_first()
    {
        var job = await _shop.OpenJobAsync();
        await _shop.AddPartAsync(job, PartBuilder.Amplifier());
        await _shop.AddPartAsync(job, PartBuilder.Of(PartKind.Fuse, "Main fuse", new FuseData { RatingAmperes = 80 }));
        await _shop.AddPartAsync(job, PartBuilder.Cable("4"));

        var view = await _shop.Get<ServicePlans>().GetAsync(_shop.Technician, job, None);

        Assert.Equal([("Main fuse", ServiceKind.Fuse), ("Four-channel amplifier", ServiceKind.Adjustment)], view.Rows.Select(row => (row.Name, row.Kind)));
        Assert.Equal(2, view.Unsaid);
    }

    [Fact]
    public async Task The_way_stands_on_the_part_and_with_its_tools_in_the_handover()
    {
        var job = await _shop.OpenJobAsync();
        var fuse = await _shop.AddPartAsync(job, PartBuilder.Of(PartKind.Fuse, "Main fuse", new FuseData { RatingAmperes = 80 }));
        var row = Assert.Single((await _shop.Get<ServicePlans>().GetAsync(_shop.Desk, job, None)).Rows);

        (await _shop.Get<ServicePlans>().SaveAsync(_shop.Desk, fuse, row.Version, "Open the bonnet; take the trim off; lift the cap", new ReachForm { Tools = "T20 driver" }, None)).Must();

        Assert.Equal("Open the bonnet; take the trim off; lift the cap", (await _shop.Get<PartsList>().ForEditAsync(_shop.Desk, fuse, None))!.Details.Access); // just added
        var access = Assert.Single((await _shop.Get<Handovers>().FactsAsync(_shop.Desk, job, None)).Access);
        Assert.Equal(("Main fuse", "T20 driver"), (access.Part, access.Tools));
        // Three steps and one tool, where two and none are the limit for a fuse.
        Assert.Contains((await _shop.Get<ServicePlans>().GetAsync(_shop.Desk, job, None)).Findings, finding => finding.Code == "service-far");
    }

    [Fact]
    public async Task A_fuse_that_is_reached_by_breaking_something_stops_the_delivery()
    {
        var job = await _shop.OpenJobAsync();
        var fuse = await _shop.AddPartAsync(job, PartBuilder.Of(PartKind.Fuse, "Main fuse", new FuseData { RatingAmperes = 80 }));
        var row = Assert.Single((await _shop.Get<ServicePlans>().GetAsync(_shop.Desk, job, None)).Rows);
        (await _shop.Get<ServicePlans>().SaveAsync(_shop.Desk, fuse, row.Version, "Cut the seam", new ReachForm { Destroys = true }, None)).Must();

        Assert.Contains((await _shop.Get<DeliveryGate>().ReportAsync(_shop.Owner, job, None)).Standing, gated => gated.Finding.Code == "service-destroys");
    }

    [Fact]
    public async Task Somebody_elses_edit_of_the_way_is_not_covered()
    {
        var job = await _shop.OpenJobAsync();
        var amplifier = await _shop.AddPartAsync(job, PartBuilder.Amplifier());
        var row = Assert.Single((await _shop.Get<ServicePlans>().GetAsync(_shop.Desk, job, None)).Rows);
        var form = (await _shop.Get<PartsList>().ForEditAsync(_shop.Owner, amplifier, None))!; // just added
        form.Details.Access = "Lift the floor";
        (await _shop.Get<PartsList>().EditAsync(_shop.Owner, amplifier, form.Version, form.Details, None)).Must();

        var late = await _shop.Get<ServicePlans>().SaveAsync(_shop.Desk, amplifier, row.Version, "Fold the seat", new ReachForm(), None);

        Assert.NotNull(late.Conflict);
        Assert.Null((await _shop.Get<ServicePlans>().GetAsync(_shop.Desk, job, None)).Rows[0].Reach);
    }

    [Fact]
    public async Task A_lighter_panel_keeps_the_stiffness_and_is_taken_in_place()
    {
        var (job, part) = await PanelAsync();
        // E·t³: 6.8 × 12³ = 11 750; 4 × 15³ = 13 500 keeps it at 1.149; 4 × 12³ = 6 912 does not.
        var light = await _shop.AddToCatalogueAsync(Panel("Light 15", 15, 420, 4, 6.3, 52));
        await _shop.AddToCatalogueAsync(Panel("Light 12", 12, 420, 4, 5.04, 40));

        var choice = Assert.Single(await _shop.Get<LighterParts>().GetAsync(_shop.Desk, job, None));

        // 2 m² × (8.2 − 6.3) kg/m² = 3.8 kg for 2 × (52 − 44) = 16: 237.5 g for one.
        Assert.Equal(("Light 15", 3.8, 1.149), (choice.Name, Math.Round(choice.SavedKilograms, 9), Math.Round(choice.Ratio, 3)));
        Assert.Equal((16m, 237.5), (choice.AddedPrice!.Value, Math.Round(choice.GramsPerMoney!.Value, 9)));

        (await _shop.Get<LighterParts>().TakeAsync(_shop.Desk, part, choice.Version, light, None)).Must();
        var row = Assert.Single(await _shop.Get<PartsList>().RowsAsync(_shop.Desk, job, None));
        Assert.Equal(("Light 15", 2m, "spare-well"), (row.Name, row.Quantity, row.Zone));
    }

    [Fact]
    public async Task Technicians_see_grams_and_no_money_and_take_nothing()
    {
        var (job, part) = await PanelAsync();
        var light = await _shop.AddToCatalogueAsync(Panel("Light 15", 15, 420, 4, 6.3, 52));

        var choice = Assert.Single(await _shop.Get<LighterParts>().GetAsync(_shop.Technician, job, None));

        Assert.Null(choice.AddedPrice);
        await Assert.ThrowsAsync<NotAllowedException>(() => _shop.Get<LighterParts>().TakeAsync(_shop.Technician, part, choice.Version, light, None));
    }

    [Fact]
    public async Task What_is_ordered_is_not_replaced()
    {
        var (job, part) = await PanelAsync();
        await _shop.AddToCatalogueAsync(Panel("Light 15", 15, 420, 4, 6.3, 52));
        (await _shop.Get<Purchasing>().OrderAsync(_shop.Desk, [part], "PO-1", null, None)).Must();

        Assert.Empty(await _shop.Get<LighterParts>().GetAsync(_shop.Desk, job, None));
    }

    [Fact]
    public async Task A_lighter_cable_has_at_least_the_conductor_and_the_same_metal()
    {
        var job = await _shop.OpenJobAsync();
        await _shop.AddPartAsync(job, PartBuilder.Cable("4", part => part.Quantity = 5));
        await _shop.AddToCatalogueAsync(PartBuilder.Cable("4", part => (part.Name, part.PartNumber, part.UnitMassKilograms) = ("Thin wall 4", "T-4", 0.22)));
        await _shop.AddToCatalogueAsync(PartBuilder.Cable("8", part => (part.Name, part.PartNumber, part.UnitMassKilograms) = ("Thin wall 8", "T-8", 0.1)));
        await _shop.AddToCatalogueAsync(PartBuilder.Cable("4", part =>
        {
            (part.Name, part.PartNumber, part.UnitMassKilograms) = ("Clad 4", "A-4", 0.12);
            ((CableData)part.Data).Metal = CableMetal.CopperCladAluminium;
        }));

        var choice = Assert.Single(await _shop.Get<LighterParts>().GetAsync(_shop.Desk, job, None));

        // 5 m × (0.30 − 0.22) kg/m.
        Assert.Equal(("Thin wall 4", 0.4), (choice.Name, Math.Round(choice.SavedKilograms, 9)));
    }

    private static JobPartDetails Panel(string name, double millimeters, double density, double gigapascals, double kilograms, decimal price) => PartBuilder.Of(
        PartKind.Material, name,
        new MaterialData { ThicknessMillimeters = millimeters, DensityKilogramsPerCubicMeter = density, BendingGigapascals = gigapascals },
        part => (part.PartNumber, part.UnitMassKilograms, part.UnitPrice, part.Quantity, part.Zone) = (name, kilograms, price, 2, "spare-well"));

    private async Task<(Guid Job, Guid Part)> PanelAsync()
    {
        var job = await _shop.OpenJobAsync();
        return (job, await _shop.AddPartAsync(job, Panel("Birch 12", 12, 680, 6.8, 8.2, 44)));
    }
}
