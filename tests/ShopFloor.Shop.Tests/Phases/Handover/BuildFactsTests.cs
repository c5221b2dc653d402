using ShopFloor.Engineering.Fabrication.Laminates;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests.Phases.Handover;

/// <summary>What the handover says of things made by hand.</summary>
public sealed class BuildFactsTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    // Two of 600 × 400 mm of 12 mm at 680 kg/m³: 3.9168 kg.
    [Fact]
    public async Task Panels_are_told_with_their_mass_their_glue_and_how_they_come_off()
    {
        var birch = await _shop.AddToCatalogueAsync(new PartFacts { Kind = PartKind.Material, Name = "Birch 12 mm", Unit = PartUnit.SquareMeter, Data = new MaterialData { ThicknessMillimeters = 12, DensityKilogramsPerCubicMeter = 680 } });
        await AddAsync("False floor", new CutListForm
        {
            Zone = VehicleZones.BootFloorLeft, Parts = [new CutRow { Name = "Side", MaterialId = birch, Quantity = 2, LengthMeters = 0.6, WidthMeters = 0.4 }],
            Made = new MadeNotes { GluedWith = "wood glue", ComesOff = " Lift the hatch. ", Care = "Keep it dry." },
        });

        var made = Assert.Single(await MadeAsync());

        Assert.Equal(("False floor", "Cut panels", "wood glue", "Lift the hatch.", "Keep it dry."), (made.Name, made.Kind, made.GluedWith, made.ComesOff, made.Care));
        var board = Assert.Single(made.Materials);
        Assert.Equal(("Birch 12 mm", "2 parts"), (board.Name, board.Detail));
        Assert.Equal(3.9168, board.Kilograms!.Value, 1e-9);
    }

    // Cloth of 200 g/m² twice on 0.5 m²: 200 g stay; what is lost by cutting is bought and not in the car.
    [Fact]
    public async Task A_laminate_is_told_layer_by_layer_with_what_stays_in_the_part()
    {
        await AddAsync("Trim", new LaminateForm
        {
            SquareMeters = 0.5, Process = LaminateProcess.VacuumBag, Layers = [new LaminateRow { Name = "Glass 200 g", Plies = 2 }], Finish = [new FinishRow { Name = "Contact adhesive", KilogramsPerSquareMeter = 0.1, Coats = 2, StaysPercent = 30 }],
        });

        var made = Assert.Single(await MadeAsync());

        Assert.Equal("Composite, under a vacuum bag", made.Kind);
        Assert.Equal(0.2, made.Materials.Single(row => row.Name == "Glass 200 g").Kilograms!.Value, 1e-9);
        Assert.Equal("layer 1 from the mould, 2×", made.Materials.Single(row => row.Name == "Glass 200 g").Detail);
        // 100 g/m² a coat, two of them on 0.5 m², three tenths stay: 30 g.
        Assert.Equal((0.03, "2 coats"), (Math.Round(made.Materials.Single(row => row.Name == "Contact adhesive").Kilograms!.Value, 9), made.Materials.Single(row => row.Name == "Contact adhesive").Detail));
        Assert.Contains(made.Materials, row => row.Name.Contains("esin", StringComparison.Ordinal));
    }

    // 4 kg/m² on half of 0.8 m²: 1.6 kg.
    [Fact]
    public async Task Where_damping_lies_is_told_panel_by_panel()
    {
        var damping = await _shop.AddToCatalogueAsync(new PartFacts { Kind = PartKind.Treatment, Name = "Butyl 2 mm", Unit = PartUnit.SquareMeter, Data = new TreatmentData { Purpose = "damping", MassPerSquareMeter = 4 } });
        await AddAsync("Doors", new TreatmentForm { Panels = [new TreatedPanelRow { Name = "Door left", SquareMeters = 0.8, Layers = [new TreatmentLayerRow { ProductId = damping, CoveragePercent = 50 }] }] });

        var row = Assert.Single(Assert.Single(await MadeAsync()).Materials);

        Assert.Equal(("Door left: Butyl 2 mm", "damps, on 50 % of the panel"), (row.Name, row.Detail));
        Assert.Equal(1.6, row.Kilograms!.Value, 1e-9);
    }

    [Fact]
    public async Task A_box_that_is_lined_or_has_a_word_for_whoever_opens_it_is_told_and_any_other_is_not()
    {
        var woofer = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Loudspeaker, "Woofer", new LoudspeakerData { NominalOhms = 4, Coils = 1 }));
        await AddAsync("Plain box", new EnclosureForm { LoudspeakerPartId = woofer });
        await AddAsync("Lined box", new EnclosureForm { LoudspeakerPartId = woofer, Alternatives = [new BoxAlternative { Filling = BoxFilling.LinedWalls }] });

        var made = Assert.Single(await MadeAsync());

        Assert.Equal(("Lined box", "Closed enclosure", "on the walls inside"), (made.Name, made.Kind, Assert.Single(made.Materials).Detail));
    }

    private async Task<IReadOnlyList<MadeFact>> MadeAsync() => (await _shop.Get<Handovers>().FactsAsync(_shop.Technician, _job, None)).Made;

    private async Task AddAsync<TForm>(string name, TForm form)
        where TForm : class, IDesignForm => (await _shop.Get<JobDesigns>().AddAsync(_shop.Desk, _job, name, form, None)).Must();
}
