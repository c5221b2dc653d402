using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class CutListsTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private Guid _birch;

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        _birch = await _shop.AddToCatalogueAsync(new PartFacts
        {
            Kind = PartKind.Material, Name = "Birch 12 mm", Unit = PartUnit.SquareMeter, UnitCost = 26, UnitPrice = 44, UnitMassKilograms = 8.2,
            Data = new MaterialData { ThicknessMillimeters = 12, DensityKilogramsPerCubicMeter = 680 },
        });
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Thickness_and_density_are_read_from_the_material_and_the_parts_weigh_their_net_area()
    {
        var view = await LayOutAsync(Form());

        // Two of 600 × 400 mm of 12 mm at 680 kg/m³: 2 · 0.24 m² · 8.16 kg/m² = 3.9168 kg, all on one sheet of 1250 × 1250 mm.
        Assert.Equal(3.9168, view.Kilograms!.Value, 1e-9);
        Assert.Equal("1 sheet, proven least", Assert.Single(view.Materials).SheetWords);
    }

    [Fact]
    public async Task The_list_buys_whole_sheets_and_the_car_carries_the_parts()
    {
        var design = await AddAsync(Form());

        var done = (await PutAsync(design)).Must();
        var line = Assert.Single(await RowsAsync());

        Assert.Equal((1, 0, 0), (done.Added, done.Updated, done.Removed));
        Assert.Equal(1.563m, line.Quantity); // 1.25 · 1.25 m² to the square decimetre and a tenth
        Assert.Equal(3.9168, line.UnitMassKilograms!.Value * (double)line.Quantity, 1e-3);
        Assert.Equal(VehicleZones.BootFloorLeft, line.Zone);
        var money = Assert.Single(await _shop.Get<PartsList>().CostsAsync(_shop.Owner, _job, None));
        Assert.Equal(1.563m * 26, money.TotalCost);
    }

    [Fact]
    public async Task Putting_it_there_again_changes_nothing_and_more_parts_bring_the_same_line_up_to_date()
    {
        var design = await AddAsync(Form());
        await PutAsync(design);

        Assert.Equal((0, 0, 0), Counts((await PutAsync(design)).Must()));
        await EditAsync(design, form => form.Parts[0].Quantity = 8);

        // Eight of 600 × 400 mm are 1.92 m² and need a second sheet of 1.5625 m².
        Assert.Equal((0, 1, 0), Counts((await PutAsync(design)).Must()));
        Assert.Equal(3.125m, Assert.Single(await RowsAsync()).Quantity);
    }

    [Fact]
    public async Task A_line_typed_by_hand_is_taken_over_so_nothing_is_bought_twice_and_its_price_stays()
    {
        var typed = (await _shop.Get<PartsList>().AddFromCatalogueAsync(_shop.Owner, _job, _birch, 1.9m, VehicleZones.Dash, None)).Must();
        await _shop.EditPartAsync(typed, part => part.UnitPrice = 51);
        var design = await AddAsync(Form());

        Assert.Equal((0, 1, 0), Counts((await PutAsync(design)).Must()));
        var line = Assert.Single(await RowsAsync());

        Assert.Equal((typed, 1.563m), (line.Id, line.Quantity));
        Assert.Equal(51, Assert.Single(await _shop.Get<PartsList>().PricesAsync(_shop.Desk, _job, None)).UnitPrice);
        // Its mass per square metre bought is now less than the board's, which must not come back as the board's.
        Assert.Equal(8.16, Assert.Single((await PageAsync()).Materials).KilogramsPerSquareMeter!.Value, 1e-9);
    }

    [Fact]
    public async Task The_electrical_plan_leaves_the_sheets_alone()
    {
        await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
        await PutAsync(await AddAsync(Form()));

        (await _shop.Get<ElectricalPlans>().AddPlannedPartsAsync(_shop.Desk, _job, None)).Must();

        Assert.Contains(await RowsAsync(), row => row.Kind == PartKind.Material);
    }

    [Fact]
    public async Task Offcuts_are_used_first_and_cost_nothing()
    {
        var form = Form();
        form.Stock.Add(new SheetRow { MaterialId = _birch, LengthMeters = 0.9, WidthMeters = 0.65, IsOffcut = true });
        form.Parts[0].Quantity = 1;

        await PutAsync(await AddAsync(form));

        Assert.Equal(0, Assert.Single(await _shop.Get<PartsList>().CostsAsync(_shop.Owner, _job, None)).TotalCost);
        Assert.Equal("from offcuts alone", Assert.Single((await LayOutAsync(form)).Materials).SheetWords);
    }

    [Fact]
    public async Task What_is_missing_is_named_with_its_line()
    {
        var form = Form();
        form.Parts.Add(new CutRow { Name = "Lid", MaterialId = _birch, LengthMeters = 0.3 });
        form.Parts.Add(new CutRow { Name = "Foot", LengthMeters = 0.3, WidthMeters = 0.3 });

        var basis = CutListMapping.Map(form, (await PageAsync()).Materials, UnitText.Invariant);

        Assert.Equal(["2 Lid: length and width are needed.", "3 Foot: choose its material."], basis.Problems.Select(problem => problem.Message));
        Assert.False((await PutAsync(await AddAsync(form))).Succeeded);
    }

    [Fact]
    public async Task A_search_nobody_wants_any_more_ends()
    {
        using var gone = new CancellationTokenSource();
        await gone.CancelAsync();
        var basis = CutListMapping.Map(Form(), (await PageAsync()).Materials, UnitText.Invariant);

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => _shop.Get<CutLists>().LayOutAsync(_shop.Technician, basis, UnitText.Invariant, null, gone.Token));
    }

    [Fact]
    public async Task A_technician_sees_the_sheets_and_neither_price_nor_cost()
    {
        var view = await LayOutAsync(Form());

        await Assert.ThrowsAsync<NotAllowedException>(() => _shop.Get<CutLists>().PricesAsync(_shop.Technician, _job, view, None));
        await Assert.ThrowsAsync<NotAllowedException>(() => _shop.Get<CutLists>().CostsAsync(_shop.Desk, _job, view, None));
        Assert.Equal(1.5625m * 44, Assert.Single(await _shop.Get<CutLists>().PricesAsync(_shop.Desk, _job, view, None)).Amount);
    }

    // Corners in millimetres: a triangle of 300 × 150 mm has half the area of its rectangle.
    [Fact]
    public async Task A_polygon_weighs_its_own_area()
    {
        var form = Form();
        form.Parts = [new CutRow { Name = "Gusset", MaterialId = _birch, Shape = CutShape.Polygon, Corners = "0,0; 300,0; 300,150" }];

        Assert.Equal(0.0225 * 8.16, (await LayOutAsync(form)).Kilograms!.Value, 1e-9);
    }

    [Fact]
    public void A_template_takes_from_its_loudspeaker_what_is_not_typed()
    {
        var driver = new LoudspeakerData { CutOutMillimeters = 231, OutsideMillimeters = 260, BoltCircleMillimeters = 246, Bolts = 8, BoltHoleMillimeters = 5 };

        var own = TemplateView.Of("Ring", new TemplateForm(), driver, UnitText.Invariant).Result!;
        var typed = TemplateView.Of("Ring", new TemplateForm { Bolts = 4, OutsideMeters = 0.3 }, driver, UnitText.Invariant).Result!;

        // Basket and 15 mm all round: 290 mm.
        Assert.Equal((0.231, 8, 0.29), (own.Input.CutOutMeters, own.Holes.Count, own.LengthMeters));
        Assert.Equal((4, 0.3), (typed.Holes.Count, typed.LengthMeters));
        Assert.Contains("cut-out diameter", Assert.Single(TemplateView.Of("Ring", new TemplateForm(), null, UnitText.Invariant).Problems), StringComparison.Ordinal);
    }

    private CutListForm Form() => new()
    {
        Zone = VehicleZones.BootFloorLeft,
        Parts = [new CutRow { Name = "Side", MaterialId = _birch, Quantity = 2, LengthMeters = 0.6, WidthMeters = 0.4 }],
        Stock = [new SheetRow { MaterialId = _birch, LengthMeters = 1.25, WidthMeters = 1.25 }],
    };

    private static (int, int, int) Counts(MadeLinesResult done) => (done.Added, done.Updated, done.Removed);

    private Task<CutListPage> PageAsync() => _shop.Get<CutLists>().GetAsync(_shop.Desk, _job, None);

    private Task<List<PartRow>> RowsAsync() => _shop.Get<PartsList>().RowsAsync(_shop.Desk, _job, None);

    private async Task<Guid> AddAsync(CutListForm form) => (await _shop.Get<JobDesigns>().AddAsync(_shop.Desk, _job, "Boot floor", form, None)).Must();

    private async Task EditAsync(Guid design, Action<CutListForm> change)
    {
        var found = (await _shop.Get<JobDesigns>().FindAsync<CutListForm>(_shop.Desk, design, None))!;
        change(found.Form);
        (await _shop.Get<JobDesigns>().EditAsync(_shop.Desk, design, found.Version, found.Name, found.Form, None)).Must();
    }

    private Task<Outcome<MadeLinesResult>> PutAsync(Guid design) => _shop.Get<CutLists>().PutOnListAsync(_shop.Desk, _job, design, None);

    private async Task<CutListView> LayOutAsync(CutListForm form) =>
        await _shop.Get<CutLists>().LayOutAsync(_shop.Desk, CutListMapping.Map(form, (await PageAsync()).Materials, UnitText.Invariant), UnitText.Invariant, null, None);
}
