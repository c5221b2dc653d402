using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Catalogue;

public sealed class CatalogueDeskTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();

    private CatalogueDesk Desk => _shop.Get<CatalogueDesk>();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Pages_follow_each_other_without_a_gap_or_a_repeat_even_with_equal_names()
    {
        for (var index = 0; index < 23; index++)
        {
            await _shop.AddToCatalogueAsync(new PartFacts { Name = index % 2 == 0 ? "Clip" : $"Clip {index}" });
        }

        var seen = new List<Guid>();
        CatalogueCursor? after = null;
        do
        {
            var page = await Desk.PageAsync(_shop.Technician, "clip", null, after, 5, None);
            Assert.InRange(page.Rows.Count, 1, 5);
            seen.AddRange(page.Rows.Select(row => row.Id));
            after = page.Next;
        }
        while (after is not null);

        Assert.Equal(23, seen.Count);
        Assert.Equal(23, seen.Distinct().Count());
        Assert.Equal(23, await Desk.CountAsync(_shop.Technician, "clip", null, None));
    }

    [Fact]
    public async Task Words_are_found_in_any_order_without_accents_and_by_kind()
    {
        await _shop.AddToCatalogueAsync(PartBuilder.Amplifier(part => part.Name = "Verstärker Größe 4"));
        await _shop.AddToCatalogueAsync(PartBuilder.Cable("4"));

        Assert.Single((await Desk.PageAsync(_shop.Desk, "4 verstarker", null, null, 10, None)).Rows);
        Assert.Single((await Desk.PageAsync(_shop.Desk, "nordhandel", PartKind.Cable, null, 10, None)).Rows);
        Assert.Empty((await Desk.PageAsync(_shop.Desk, "verstarker 77", null, null, 10, None)).Rows);
    }

    [Fact]
    public async Task The_same_number_of_the_same_supplier_is_refused_with_what_is_there()
    {
        await _shop.AddToCatalogueAsync(PartBuilder.Amplifier());

        var outcome = await Desk.AddAsync(_shop.Desk, PartFacts.CopyOf(PartBuilder.Amplifier(part => part.Supplier = "NORDHANDEL")), None);

        Assert.Contains("Four-channel amplifier", Assert.Single(outcome.Problems, problem => problem.Field == nameof(PartFacts.PartNumber)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_part_taken_out_is_not_found_and_comes_back_whole()
    {
        var id = await _shop.AddToCatalogueAsync(PartBuilder.Amplifier());

        (await Desk.RemoveAsync(_shop.Desk, id, None)).Must();
        Assert.Empty((await Desk.PageAsync(_shop.Desk, null, null, null, 10, None)).Rows);

        (await Desk.BringBackAsync(_shop.Desk, id, None)).Must();
        Assert.Equal(id, Assert.Single((await Desk.PageAsync(_shop.Desk, null, null, null, 10, None)).Rows).Id);
    }

    [Fact]
    public async Task The_second_of_two_editors_is_warned_and_the_desk_keeps_the_cost()
    {
        var id = await _shop.AddToCatalogueAsync(PartBuilder.Amplifier());
        var first = (await Desk.ForEditAsync(_shop.Desk, id, None))!;
        var second = (await Desk.ForEditAsync(_shop.Owner, id, None))!;
        Assert.Null(first.Facts.UnitCost);
        first.Facts.Notes = "from the desk";
        (await Desk.EditAsync(_shop.Desk, id, first.Version, first.Facts, None)).Must();
        second.Facts.Notes = "from the owner";

        Assert.NotNull((await Desk.EditAsync(_shop.Owner, id, second.Version, second.Facts, None)).Conflict);
        Assert.Equal(310, Assert.Single(await Desk.CostsAsync(_shop.Owner, [id], None)).UnitCost);
        await Assert.ThrowsAsync<NotAllowedException>(() => Desk.PricesAsync(_shop.Technician, [id], None));
    }
}
