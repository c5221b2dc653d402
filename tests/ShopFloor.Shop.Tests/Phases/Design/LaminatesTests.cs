using ShopFloor.Engineering.Fabrication.Laminates;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class LaminatesTests : IAsyncLifetime
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

    [Fact]
    public async Task What_a_part_takes_comes_onto_the_list_and_weighs_what_stays()
    {
        var design = await AddAsync();

        (await PutAsync(design)).Must();
        var rows = await RowsAsync();

        // 2 plies on 0.5 m² with 15 % lost: 1.15 m² to get, 2 · 0.5 · 0.2 kg stay.
        var cloth = rows.Single(row => row.Name == "Glass");
        Assert.Equal(1.15m, cloth.Quantity);
        Assert.Equal(0.2, cloth.UnitMassKilograms!.Value * (double)cloth.Quantity, 1e-5);
        // 0.1 kg/m² in two coats with a fifth lost: 0.125 kg to get; 40 % of 0.1 kg stay.
        var primer = rows.Single(row => row.Name == "Primer");
        Assert.Equal(0.13m, primer.Quantity); // rounded up to the hundredth
        Assert.Equal(0.04, primer.UnitMassKilograms!.Value * (double)primer.Quantity, 1e-5);
        Assert.Equal(LaminateView.Of(Form(), UnitText.Invariant).Result!.Kilograms, rows.Sum(row => row.UnitMassKilograms!.Value * (double)row.Quantity), 1e-4);
    }

    [Fact]
    public async Task Doing_it_again_changes_nothing_and_what_is_no_longer_asked_for_goes()
    {
        var design = await AddAsync();
        await PutAsync(design);

        Assert.Equal("The parts list already has it", (await PutAsync(design)).Must().Words);
        var found = (await _shop.Get<JobDesigns>().FindAsync<LaminateForm>(_shop.Desk, design, None))!;
        found.Form.Finish.Clear();
        (await _shop.Get<JobDesigns>().EditAsync(_shop.Desk, design, found.Version, found.Name, found.Form, None)).Must();

        Assert.Equal(1, (await PutAsync(design)).Must().Removed);
        Assert.DoesNotContain(await RowsAsync(), row => row.Name == "Primer");
    }

    [Fact]
    public async Task A_material_of_the_catalogue_with_that_name_and_unit_gives_its_price()
    {
        await _shop.AddToCatalogueAsync(new PartFacts { Kind = PartKind.Material, Name = "Glass", Unit = PartUnit.SquareMeter, UnitPrice = 9, Data = new MaterialData() });

        await PutAsync(await AddAsync());

        var rows = await RowsAsync();
        Assert.Contains(await _shop.Get<PartsList>().PricesAsync(_shop.Desk, _job, None), price => price.PartId == rows.Single(row => row.Name == "Glass").Id && price.UnitPrice == 9);
    }

    [Fact]
    public async Task A_technician_looks_and_changes_nothing()
    {
        var design = await AddAsync();

        Assert.Single((await _shop.Get<Laminates>().GetAsync(_shop.Technician, _job, None)).Designs);
        await Assert.ThrowsAsync<NotAllowedException>(() => _shop.Get<Laminates>().PutOnListAsync(_shop.Technician, _job, design, None));
    }

    [Fact]
    public void Styrene_and_solvent_are_warned_of_where_they_are_chosen()
    {
        var form = Form();
        form.Resin = ResinKind.Polyester;

        var titles = LaminateView.Of(form, UnitText.Invariant).Result!.Cautions.Select(caution => caution.Title).ToList();

        Assert.Contains("styrene", titles);
        Assert.Contains("solvent", titles);
    }

    private static LaminateForm Form() => new()
    {
        SquareMeters = 0.5,
        Layers = [new LaminateRow { Name = "Glass", Plies = 2 }],
        Finish = [new FinishRow { Name = "Primer", KilogramsPerSquareMeter = 0.1, Coats = 2, LostPercent = 20, StaysPercent = 40, Hazard = AreaHazard.Solvent }],
    };

    private async Task<Guid> AddAsync() => (await _shop.Get<JobDesigns>().AddAsync(_shop.Desk, _job, "Trim", Form(), None)).Must();

    private Task<Outcome<MadeLinesResult>> PutAsync(Guid design) => _shop.Get<Laminates>().PutOnListAsync(_shop.Desk, _job, design, None);

    private Task<List<PartRow>> RowsAsync() => _shop.Get<PartsList>().RowsAsync(_shop.Desk, _job, None);
}
