using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class TreatmentsTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private Guid _damping;

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        _damping = await AddProductAsync("Butyl", new TreatmentData { Purpose = "Damps panels", MassPerSquareMeter = 3.3, SheetLengthMillimeters = 500, SheetWidthMillimeters = 375 });
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Whole_sheets_are_bought_and_the_car_carries_what_is_glued()
    {
        var done = await PutAsync(await AddAsync(Form()));

        // 0.8 m² half covered are 0.4 m²; a tenth is lost: 0.444 m², three sheets of 0.1875 m². On the car 0.4 m² of 3.3 kg/m².
        var line = Assert.Single(await RowsAsync());
        Assert.Equal(1, done.Must().Added);
        Assert.Equal(0.57m, line.Quantity); // 3 · 0.1875 = 0.5625, rounded up
        Assert.Equal(1.32, line.UnitMassKilograms!.Value * (double)line.Quantity, 1e-4);
    }

    [Fact]
    public async Task What_is_sold_by_area_is_bought_by_area_with_what_is_lost()
    {
        var foam = await AddProductAsync("Foam", new TreatmentData { Purpose = "Absorbs", MassPerSquareMeter = 0.45 });

        await PutAsync(await AddAsync(Form(foam)));

        Assert.Equal(0.45m, Assert.Single(await RowsAsync()).Quantity); // 0.4 / 0.9 = 0.444
    }

    [Fact]
    public async Task Doing_it_again_changes_nothing_and_a_panel_more_brings_the_same_line_up_to_date()
    {
        var design = await AddAsync(Form());
        await PutAsync(design);

        Assert.Equal("The parts list already has it", (await PutAsync(design)).Must().Words);
        var found = (await _shop.Get<JobDesigns>().FindAsync<TreatmentForm>(_shop.Desk, design, None))!;
        found.Form.Panels.Add(found.Form.Panels[0] with { Id = "other", Name = "Right door" });
        (await _shop.Get<JobDesigns>().EditAsync(_shop.Desk, design, found.Version, found.Name, found.Form, None)).Must();

        Assert.Equal(1, (await PutAsync(design)).Must().Updated);
        Assert.Equal(0.94m, Assert.Single(await RowsAsync()).Quantity); // 0.889 m²: five sheets, 0.9375 m²
    }

    [Fact]
    public void A_product_without_its_mass_or_an_area_left_out_is_named()
    {
        var product = new TreatmentProduct(Guid.CreateVersion7(), "Butyl", TreatmentProduct.KindOf("Damps"), null, null, null, PartUnit.SquareMeter);
        var form = Form(product.Id);
        form.Panels[0].SquareMeters = null;

        var problems = TreatmentView.Of(form, [product], UnitText.Invariant).Problems.Select(problem => problem.Message).ToList();

        Assert.Contains("Left door: the area is needed.", problems);
        Assert.Contains("Butyl has no mass per area; enter it at the part.", problems);
    }

    [Fact]
    public async Task Damping_of_most_of_a_panel_is_told_to_be_too_much()
    {
        var form = Form();
        form.Panels[0].Layers[0].CoveragePercent = 90;
        var products = (await _shop.Get<Treatments>().GetAsync(_shop.Technician, _job, None)).Products;

        Assert.Equal("damping-much", Assert.Single(TreatmentView.Of(form, products, UnitText.Invariant).Result!.Findings).Code);
    }

    [Fact]
    public async Task A_technician_looks_and_changes_nothing()
    {
        var design = await AddAsync(Form());

        Assert.Single((await _shop.Get<Treatments>().GetAsync(_shop.Technician, _job, None)).Designs);
        await Assert.ThrowsAsync<NotAllowedException>(() => _shop.Get<Treatments>().PutOnListAsync(_shop.Technician, _job, design, None));
    }

    [Fact]
    public async Task Materials_and_hours_of_what_is_made_by_hand_stand_on_the_estimate()
    {
        var form = Form();
        form.Hours = 2.5;
        await PutAsync(await AddAsync(form));
        var laminate = new LaminateForm { SquareMeters = 0.5, Hours = 4, Layers = [new LaminateRow { Name = "Butyl cloth", Plies = 2 }] };
        var trim = (await _shop.Get<JobDesigns>().AddAsync(_shop.Desk, _job, "Trim", laminate, None)).Must();
        (await _shop.Get<Laminates>().PutOnListAsync(_shop.Desk, _job, trim, None)).Must();
        var board = await _shop.AddToCatalogueAsync(new PartFacts { Kind = PartKind.Material, Name = "Birch", Unit = PartUnit.SquareMeter, UnitPrice = 44, Data = new MaterialData { ThicknessMillimeters = 12, DensityKilogramsPerCubicMeter = 680 } });
        var cuts = new CutListForm { Hours = 1.5, Parts = [new CutRow { Name = "Side", MaterialId = board, LengthMeters = 0.6, WidthMeters = 0.4 }], Stock = [new SheetRow { MaterialId = board, LengthMeters = 1.25, WidthMeters = 1.25 }] };
        var list = (await _shop.Get<JobDesigns>().AddAsync(_shop.Desk, _job, "Boot floor", cuts, None)).Must();
        (await _shop.Get<CutLists>().PutOnListAsync(_shop.Desk, _job, list, None)).Must();

        var draft = (await _shop.Get<Estimates>().SheetAsync(_shop.Owner, _job, None)).Draft;

        Assert.Equal((0.57m, 27m), OnEstimate(draft, "Butyl"));
        Assert.Equal((1.563m, 44m), OnEstimate(draft, "Birch")); // the whole sheet of 1.25 · 1.25 m²
        Assert.Contains(draft.Gaps, gap => gap.Subject == "Butyl cloth"); // nobody has given it a price yet
        Assert.Equal([("Boot floor", 1.5m), ("Trim", 4m), ("Doors", 2.5m)], draft.Lines.Where(line => line.IsLabour).Select(line => (line.Text, line.Quantity)));
    }

    private static (decimal Quantity, decimal Price) OnEstimate(EstimateDraft draft, string name)
    {
        var line = draft.Lines.Single(line => line.Text == name);
        return (line.Quantity, line.UnitPrice);
    }

    private TreatmentForm Form() => Form(_damping);

    private static TreatmentForm Form(Guid product) => new()
    {
        Panels = [new TreatedPanelRow { Id = "left", Name = "Left door", SquareMeters = 0.8, Layers = [new TreatmentLayerRow { ProductId = product }] }],
    };

    private Task<Guid> AddProductAsync(string name, TreatmentData data) => _shop.AddToCatalogueAsync(new PartFacts { Kind = PartKind.Treatment, Name = name, Unit = PartUnit.SquareMeter, UnitCost = 14, UnitPrice = 27, Data = data });

    private async Task<Guid> AddAsync(TreatmentForm form) => (await _shop.Get<JobDesigns>().AddAsync(_shop.Desk, _job, "Doors", form, None)).Must();

    private Task<Outcome<MadeLinesResult>> PutAsync(Guid design) => _shop.Get<Treatments>().PutOnListAsync(_shop.Desk, _job, design, None);

    private Task<List<PartRow>> RowsAsync() => _shop.Get<PartsList>().RowsAsync(_shop.Desk, _job, None);
}
