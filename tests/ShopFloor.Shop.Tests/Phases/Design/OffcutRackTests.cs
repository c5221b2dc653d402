using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Phases.Design;

/// <summary>Offcuts go from one job to another, each once.</summary>
public sealed class OffcutRackTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _first;
    private Guid _second;
    private Guid _birch;

    private OffcutRack Rack => _shop.Get<OffcutRack>();

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _first = await _shop.OpenJobAsync();
        _second = await _shop.OpenJobAsync();
        _birch = await _shop.AddToCatalogueAsync(new PartFacts { Kind = PartKind.Material, Name = "Birch 12 mm", Unit = PartUnit.SquareMeter, Data = new MaterialData { ThicknessMillimeters = 12, DensityKilogramsPerCubicMeter = 680 } });
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    // One part of 600 × 400 mm from a sheet of 1250 × 1250 mm leaves a strip of 1250 mm or 646.8 mm, kerf of 3.2 mm taken.
    [Fact]
    public async Task What_a_cut_list_leaves_lies_on_the_rack_and_is_offered_to_another_job()
    {
        var design = await AddListAsync(_first);

        var put = (await Rack.KeepAsync(_shop.Technician, _first, design, None)).Must();

        var rack = await Rack.ListAsync(_shop.Technician, None);
        Assert.Equal(put, rack.Count);
        Assert.InRange(put, 1, 3);
        Assert.All(rack, row => Assert.Equal(("Birch 12 mm", 0.012, "J-0001"), (row.Form.Material, row.Form.ThicknessMeters!.Value, row.FromJob)));
        Assert.Contains(rack, row => row.Form.LengthMeters!.Value * row.Form.WidthMeters!.Value > 0.5);
        var other = await AddListAsync(_second);
        Assert.Equal(rack.Count, (await PageAsync(_second)).OfferedTo(Form(), other).Count());
        // What a list leaves it cannot be cut from.
        Assert.Empty((await PageAsync(_first)).OfferedTo(Form(), design));
        Assert.False((await Rack.TakeAsync(_shop.Desk, _first, design, rack[0].Id, None)).Succeeded);
    }

    [Fact]
    public async Task Asked_again_the_rack_has_them_already_and_a_list_laid_out_anew_takes_back_what_nobody_took()
    {
        var design = await AddListAsync(_first);
        var put = (await Rack.KeepAsync(_shop.Technician, _first, design, None)).Must();
        Assert.Equal(0, (await Rack.KeepAsync(_shop.Technician, _first, design, None)).Must());

        // Thrown away, it is not put there again.
        await Rack.ThrowAwayAsync(_shop.Technician, (await Rack.ListAsync(_shop.Desk, None))[0].Id, None);
        Assert.Equal(0, (await Rack.KeepAsync(_shop.Technician, _first, design, None)).Must());
        Assert.Equal(put - 1, (await Rack.ListAsync(_shop.Desk, None)).Count);

        await EditAsync(design, form => form.Parts[0].LengthMeters = 1.25);
        await Rack.KeepAsync(_shop.Technician, _first, design, None);
        Assert.All(await Rack.ListAsync(_shop.Desk, None), row => Assert.True(row.Form.WidthMeters < 0.9 || row.Form.LengthMeters < 0.9, row.Form.ToString()));
    }

    [Fact]
    public async Task An_offcut_is_taken_once_whoever_asks_and_says_for_whom()
    {
        var offcut = (await Rack.AddAsync(_shop.Technician, Piece(), None)).Must();
        var (mine, theirs, own) = (await AddListAsync(_first), await AddListAsync(_second), await AddListAsync(_first));

        Assert.Equal("J-0001", (await Rack.TakeAsync(_shop.Desk, _first, mine, offcut, None)).Must().ForJob);

        foreach (var (job, design) in new[] { (_second, theirs), (_first, own) })
        {
            var refused = await Rack.TakeAsync(_shop.Owner, job, design, offcut, None);
            Assert.Contains("is kept for J-0001 already", refused.Message, StringComparison.Ordinal);
        }

        Assert.Empty((await PageAsync(_second)).OfferedTo(Form(), theirs));
        // Taking it again for the same list is no second one.
        Assert.True((await Rack.TakeAsync(_shop.Desk, _first, mine, offcut, None)).Succeeded);
        (await Rack.GiveBackAsync(_shop.Technician, offcut, None)).Must();
        Assert.True((await Rack.TakeAsync(_shop.Desk, _second, theirs, offcut, None)).Succeeded);
    }

    [Fact]
    public async Task Two_who_take_at_the_same_moment_get_one_offcut_between_them()
    {
        var offcut = (await Rack.AddAsync(_shop.Technician, Piece(), None)).Must();
        var (mine, theirs) = (await AddListAsync(_first), await AddListAsync(_second));

        var outcomes = await Task.WhenAll(Rack.TakeAsync(_shop.Desk, _first, mine, offcut, None), Rack.TakeAsync(_shop.Owner, _second, theirs, offcut, None));

        Assert.Single(outcomes, outcome => outcome.Succeeded);
    }

    [Fact]
    public async Task A_list_whose_offcut_is_gone_is_not_laid_out()
    {
        var offcut = (await Rack.AddAsync(_shop.Technician, Piece(), None)).Must();
        var design = await AddListAsync(_first);
        await Rack.TakeAsync(_shop.Desk, _first, design, offcut, None);
        await EditAsync(design, form => form.Stock.Add(Row(offcut)));
        async Task<CutListInput> MapAsync() => await PageAsync(_first) is var page ? CutListMapping.Map(page.Designs.Single().Form, page.Materials, UnitText.Invariant, page.KeptFor(design)) : null!;
        Assert.Empty((await MapAsync()).Problems);

        await Rack.ThrowAwayAsync(_shop.Technician, offcut, None);

        Assert.Contains("no longer kept for this list", Assert.Single((await MapAsync()).Problems).Message, StringComparison.Ordinal);
        Assert.False((await _shop.Get<CutLists>().PutOnListAsync(_shop.Desk, _first, design, None)).Succeeded);
    }

    [Fact]
    public async Task After_the_saw_a_taken_offcut_is_used_up_and_its_rest_lies_there()
    {
        var offcut = (await Rack.AddAsync(_shop.Technician, Piece(), None)).Must();
        var design = await AddListAsync(_second);
        await Rack.TakeAsync(_shop.Desk, _second, design, offcut, None);
        await EditAsync(design, form => form.Stock.Add(Row(offcut)));

        (await Rack.KeepAsync(_shop.Technician, _second, design, None)).Must();

        var left = await Rack.ListAsync(_shop.Desk, None);
        Assert.DoesNotContain(left, row => row.Id == offcut);
        Assert.All(left, row => Assert.Equal("J-0002", row.FromJob));
        Assert.Equal(OffcutEnd.UsedUp, Assert.Single(await Rack.RemovedAsync(_shop.Desk, None)).End);
    }

    [Fact]
    public async Task Another_thickness_or_material_is_not_offered()
    {
        (await Rack.AddAsync(_shop.Technician, Piece() with { ThicknessMeters = 0.015 }, None)).Must();
        (await Rack.AddAsync(_shop.Technician, Piece() with { Material = "Fibreboard" }, None)).Must();

        Assert.Empty((await PageAsync(_first)).OfferedTo(Form(), await AddListAsync(_first)));
    }

    [Fact]
    public async Task What_is_typed_wrong_names_field_value_and_range()
    {
        var refused = await Rack.AddAsync(_shop.Technician, Piece() with { LengthMeters = 12 }, None);

        Assert.Equal(nameof(OffcutForm.LengthMeters), Assert.Single(refused.Problems).Field);
        Assert.Contains("10", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_second_who_corrects_an_offcut_gets_both_versions()
    {
        var offcut = (await Rack.AddAsync(_shop.Technician, Piece(), None)).Must();
        var seen = Assert.Single(await Rack.ListAsync(_shop.Desk, None)).Version;
        (await Rack.EditAsync(_shop.Technician, offcut, seen, Piece() with { Note = "corner chipped" }, None)).Must();

        var late = await Rack.EditAsync(_shop.Desk, offcut, seen, Piece() with { LengthMeters = 0.7 }, None);

        Assert.NotNull(late.Conflict);
    }

    [Fact]
    public async Task A_technician_measures_and_throws_away_but_does_not_take_for_a_design_and_all_of_it_is_in_the_record()
    {
        var offcut = (await Rack.AddAsync(_shop.Technician, Piece(), None)).Must();
        var design = await AddListAsync(_first);

        await Assert.ThrowsAsync<NotAllowedException>(() => Rack.TakeAsync(_shop.Technician, _first, design, offcut, None));
        await Rack.TakeAsync(_shop.Desk, _first, design, offcut, None);
        await Rack.ThrowAwayAsync(_shop.Technician, offcut, None);
        await Rack.BringBackAsync(_shop.Technician, offcut, None);

        var trail = await _shop.ReadAsync(db => db.AuditEntries.Where(entry => entry.SubjectId == offcut).OrderBy(entry => entry.Sequence).ToListAsync());
        Assert.Equal(4, trail.Count);
        Assert.Equal((_shop.Desk.Name, _first), (trail[1].ActorName, trail[1].JobId!.Value));
        // Brought back it is free: nobody knows whether the list still wants it.
        Assert.Null(Assert.Single(await Rack.ListAsync(_shop.Desk, None)).ForJobId);
    }

    private static OffcutForm Piece() => new() { Material = "Birch 12 mm", ThicknessMeters = 0.012, LengthMeters = 0.9, WidthMeters = 0.65 };

    private SheetRow Row(Guid offcut) => new() { MaterialId = _birch, LengthMeters = 0.9, WidthMeters = 0.65, Quantity = 1, IsOffcut = true, OffcutId = offcut };

    private CutListForm Form() => new()
    {
        Parts = [new CutRow { Name = "Side", MaterialId = _birch, LengthMeters = 0.6, WidthMeters = 0.4 }],
        Stock = [new SheetRow { MaterialId = _birch, LengthMeters = 1.25, WidthMeters = 1.25 }],
    };

    private Task<CutListPage> PageAsync(Guid job) => _shop.Get<CutLists>().GetAsync(_shop.Desk, job, None);

    private async Task<Guid> AddListAsync(Guid job) => (await _shop.Get<JobDesigns>().AddAsync(_shop.Desk, job, $"List {Guid.CreateVersion7()}", Form(), None)).Must();

    private async Task EditAsync(Guid design, Action<CutListForm> change)
    {
        var found = (await _shop.Get<JobDesigns>().FindAsync<CutListForm>(_shop.Desk, design, None))!;
        change(found.Form);
        (await _shop.Get<JobDesigns>().EditAsync(_shop.Desk, design, found.Version, found.Name, found.Form, None)).Must();
    }
}
