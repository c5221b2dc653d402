using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests.Jobs;

public sealed class PartsListTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;

    private PartsList List => _shop.Get<PartsList>();

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Parts_come_back_in_the_order_they_were_added_and_then_as_moved()
    {
        var first = await _shop.AddPartAsync(_job, PartBuilder.Cable("4"));
        var second = await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
        var third = (await List.DuplicateAsync(_shop.Desk, second, None)).Must();
        Assert.Equal([first, second, third], await IdsAsync());

        (await List.MoveBesideAsync(_shop.Desk, _job, third, first, after: false, None)).Must();
        Assert.Equal([third, first, second], await IdsAsync());

        (await List.MoveBesideAsync(_shop.Desk, _job, third, first, after: true, None)).Must();
        Assert.Equal([first, third, second], await IdsAsync());
    }

    [Fact]
    public async Task A_part_is_not_moved_beside_one_that_is_gone()
    {
        var first = await _shop.AddPartAsync(_job, PartBuilder.Cable("4"));
        var second = await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
        (await List.RemoveAsync(_shop.Desk, second, None)).Must();

        var outcome = await List.MoveBesideAsync(_shop.Desk, _job, first, second, after: true, None);

        Assert.StartsWith("One of the two parts is no longer on the list", Assert.Single(outcome.Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_part_from_the_catalogue_brings_its_money_and_data_along_once()
    {
        var known = await _shop.AddToCatalogueAsync(PartBuilder.Amplifier());

        await List.AddFromCatalogueAsync(_shop.Desk, _job, known, 2, VehicleZones.BootFloorLeft, None);

        var row = Assert.Single(await List.RowsAsync(_shop.Technician, _job, None));
        Assert.Equal(2, row.Quantity);
        Assert.Equal(6.4, row.TotalMassKilograms!.Value, 9);
        Assert.Equal(150, ((AmplifierData)row.Data).WattsAtFourOhms);
        Assert.Equal(new PartMoneyRow(row.Id, 480, 960), Assert.Single(await List.PricesAsync(_shop.Desk, _job, None)));
        Assert.Equal(new PartCostRow(row.Id, 310, 620, 35.4m), Assert.Single(await List.CostsAsync(_shop.Owner, _job, None)));
    }

    [Theory]
    [InlineData(-1, nameof(JobPartDetails.Quantity))]
    [InlineData(0, nameof(JobPartDetails.Quantity))]
    [InlineData(1.5, nameof(JobPartDetails.Quantity))]
    [InlineData(10_001, nameof(JobPartDetails.Quantity))]
    public async Task An_impossible_quantity_is_refused_at_its_field(double quantity, string field)
    {
        var outcome = await List.AddAsync(_shop.Desk, _job, PartBuilder.Amplifier(part => part.Quantity = (decimal)quantity), None);

        Assert.Equal(field, Assert.Single(outcome.Problems).Field);
        Assert.Empty(await IdsAsync());
    }

    [Fact]
    public async Task Every_wrong_field_is_named_with_its_value()
    {
        var outcome = await List.AddAsync(
            _shop.Owner,
            _job,
            PartBuilder.Amplifier(part =>
            {
                part.Name = " ";
                part.UnitPrice = -3;
                part.UnitMassKilograms = double.NaN;
                part.Zone = "moon";
                ((AmplifierData)part.Data).EfficiencyPercent = 150;
            }),
            None);

        Assert.Equal(
            [nameof(PartFacts.Name), nameof(PartFacts.UnitPrice), nameof(PartFacts.UnitMassKilograms), nameof(JobPartDetails.Zone), nameof(AmplifierData.EfficiencyPercent)],
            outcome.Problems.Select(problem => problem.Field).OrderBy(field => Array.IndexOf(
                [nameof(PartFacts.Name), nameof(PartFacts.UnitPrice), nameof(PartFacts.UnitMassKilograms), nameof(JobPartDetails.Zone), nameof(AmplifierData.EfficiencyPercent)], field)));
        Assert.Contains("150", outcome.Problems.Single(problem => problem.Field == nameof(AmplifierData.EfficiencyPercent)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Removing_takes_a_part_off_every_sum_and_bringing_back_restores_it()
    {
        var id = await _shop.AddPartAsync(_job, PartBuilder.Amplifier());

        (await List.RemoveAsync(_shop.Desk, id, None)).Must();
        Assert.Empty(await IdsAsync());
        Assert.Equal(0, (await List.PriceAsync(_shop.Desk, _job, None)).Net);

        (await List.BringBackAsync(_shop.Desk, id, None)).Must();
        Assert.Equal([id], await IdsAsync());
        Assert.Equal(480, (await List.PriceAsync(_shop.Desk, _job, None)).Net);
    }

    [Fact]
    public async Task The_second_of_two_editors_is_shown_both_versions_and_nothing_is_lost()
    {
        var id = await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
        var mine = (await List.ForEditAsync(_shop.Desk, id, None))!;
        var theirs = (await List.ForEditAsync(_shop.Owner, id, None))!;
        theirs.Details.Place = "behind the trim";
        (await List.EditAsync(_shop.Owner, id, theirs.Version, theirs.Details, None)).Must();
        mine.Details.Place = "on the left wall";

        var outcome = await List.EditAsync(_shop.Desk, id, mine.Version, mine.Details, None);

        var difference = Assert.Single(outcome.Conflict!.Differences);
        Assert.Equal(("on the left wall", "behind the trim"), (difference.Mine, difference.Theirs));
        Assert.Equal("Odile Owner", outcome.Conflict.ChangedBy);
        Assert.Equal("behind the trim", Assert.Single(await List.RowsAsync(_shop.Desk, _job, None)).Place);
    }

    [Fact]
    public async Task The_front_desk_neither_sees_nor_wipes_the_cost_when_it_saves_a_part()
    {
        var id = await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
        var form = (await List.ForEditAsync(_shop.Desk, id, None))!;
        Assert.Null(form.Details.UnitCost);
        form.Details.UnitCost = 1; // somebody plays with the form
        form.Details.UnitPrice = 500;

        (await List.EditAsync(_shop.Desk, id, form.Version, form.Details, None)).Must();

        var cost = Assert.Single(await List.CostsAsync(_shop.Owner, _job, None));
        Assert.Equal(310, cost.UnitCost);
        Assert.Equal(500, Assert.Single(await List.PricesAsync(_shop.Desk, _job, None)).UnitPrice);
    }

    [Fact]
    public async Task Technicians_may_look_but_neither_change_parts_nor_see_money()
    {
        var id = await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
        Assert.Single(await List.RowsAsync(_shop.Technician, _job, None));

        await Assert.ThrowsAsync<NotAllowedException>(() => List.PricesAsync(_shop.Technician, _job, None));
        await Assert.ThrowsAsync<NotAllowedException>(() => List.PriceAsync(_shop.Technician, _job, None));
        await Assert.ThrowsAsync<NotAllowedException>(() => List.CostsAsync(_shop.Technician, _job, None));
        await Assert.ThrowsAsync<NotAllowedException>(() => List.ForEditAsync(_shop.Technician, id, None));
        await Assert.ThrowsAsync<NotAllowedException>(() => List.RemoveAsync(_shop.Technician, id, None));
        await Assert.ThrowsAsync<NotAllowedException>(() => List.CostsAsync(_shop.Desk, _job, None));
    }

    [Fact]
    public async Task A_delivered_job_keeps_its_parts_as_they_were()
    {
        var id = await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
        await _shop.Store.WriteAsync<Done>(
            _shop.Owner,
            async db =>
            {
                (await db.Jobs.FindAsync(_job))!.Deliver(_shop.Time.GetUtcNow());
                return Done.Value;
            },
            None);

        var outcome = await List.RemoveAsync(_shop.Owner, id, None);

        Assert.Contains("delivered", outcome.Message, StringComparison.Ordinal);
        Assert.Equal([id], await IdsAsync());
        Assert.NotNull(_shop.Get<JobDesk>());
    }

    private async Task<List<Guid>> IdsAsync() => (await List.RowsAsync(_shop.Desk, _job, None)).ConvertAll(row => row.Id);
}
