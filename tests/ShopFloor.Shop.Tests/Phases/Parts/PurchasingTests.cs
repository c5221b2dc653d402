using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Parts;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Phases.Parts;

public sealed class PurchasingTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private Guid _part;

    private Purchasing Buying => _shop.Get<Purchasing>();

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        _part = await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task A_part_goes_from_needed_to_fitted_and_back()
    {
        foreach (var (from, to) in new[]
        {
            (PartState.Needed, PartState.Ordered), (PartState.Ordered, PartState.Received), (PartState.Received, PartState.Fitted),
            (PartState.Fitted, PartState.Received), (PartState.Received, PartState.Ordered), (PartState.Ordered, PartState.Needed),
        })
        {
            (await Buying.MoveAsync(_shop.Desk, Guid.CreateVersion7(), _part, from, to, None)).Must();
            Assert.Equal(to, await StateAsync());
        }
    }

    [Fact]
    public async Task A_move_sent_twice_is_made_once()
    {
        var command = Guid.CreateVersion7();
        (await Buying.MoveAsync(_shop.Technician, command, _part, PartState.Needed, PartState.Received, None)).Must();
        (await Buying.MoveAsync(_shop.Technician, Guid.CreateVersion7(), _part, PartState.Received, PartState.Fitted, None)).Must();

        (await Buying.MoveAsync(_shop.Technician, command, _part, PartState.Needed, PartState.Received, None)).Must();

        Assert.Equal(PartState.Fitted, await StateAsync());
    }

    [Fact]
    public async Task A_move_from_a_state_somebody_already_left_is_refused_with_where_the_part_is()
    {
        (await Buying.MoveAsync(_shop.Technician, Guid.CreateVersion7(), _part, PartState.Needed, PartState.Fitted, None)).Must();

        var outcome = await Buying.MoveAsync(_shop.Desk, Guid.CreateVersion7(), _part, PartState.Needed, PartState.Ordered, None);

        Assert.Contains("is fitted by now", outcome.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Technicians_take_in_and_fit_but_do_not_order()
    {
        await Assert.ThrowsAsync<NotAllowedException>(() => Buying.MoveAsync(_shop.Technician, Guid.CreateVersion7(), _part, PartState.Needed, PartState.Ordered, None));
        await Assert.ThrowsAsync<NotAllowedException>(() => Buying.OrderAsync(_shop.Technician, [_part], "", null, None));
        await Assert.ThrowsAsync<NotAllowedException>(() => Buying.ToOrderAsync(_shop.Technician, None));

        (await Buying.MoveAsync(_shop.Technician, Guid.CreateVersion7(), _part, PartState.Needed, PartState.Received, None)).Must();
    }

    [Fact]
    public async Task What_is_needed_is_grouped_by_supplier_over_all_open_jobs()
    {
        var other = await _shop.OpenJobAsync();
        await _shop.AddPartAsync(other, PartBuilder.Cable("4", part => part.Supplier = "NORDHANDEL"));
        await _shop.AddPartAsync(other, PartBuilder.Cable("8", part => part.Supplier = ""));
        await _shop.AddPartAsync(other, PartBuilder.Cable("2", part => part.Direction = PartDirection.Removed));

        var groups = await Buying.ToOrderAsync(_shop.Desk, None);

        Assert.Equal(["Nordhandel", ""], groups.Select(group => group.Supplier));
        Assert.Equal(["J-0001", "J-0002"], groups[0].Parts.Select(part => part.JobReference));
    }

    [Fact]
    public async Task Ordering_keeps_reference_and_day_and_what_is_overdue_is_listed_longest_first()
    {
        var second = await _shop.AddPartAsync(_job, PartBuilder.Cable("4"));
        // The shop's clock stands at 2031-03-03.
        (await Buying.OrderAsync(_shop.Desk, [_part], "NH-77", new DateOnly(2031, 3, 2), None)).Must();
        (await Buying.OrderAsync(_shop.Desk, [second], "NH-78", new DateOnly(2031, 2, 20), None)).Must();

        var late = await Buying.LateAsync(_shop.Technician, None);

        Assert.Equal([(11, "NH-78"), (1, "NH-77")], late.Select(item => (item.DaysLate, item.Part.OrderReference)));
    }

    [Fact]
    public async Task An_order_is_placed_for_all_chosen_parts_or_for_none()
    {
        var second = await _shop.AddPartAsync(_job, PartBuilder.Cable("4"));
        (await Buying.MoveAsync(_shop.Desk, Guid.CreateVersion7(), second, PartState.Needed, PartState.Received, None)).Must();

        var outcome = await Buying.OrderAsync(_shop.Desk, [_part, second], "NH-79", null, None);

        Assert.Contains("Cable 4 (received)", outcome.Message, StringComparison.Ordinal);
        Assert.Equal(PartState.Needed, await StateAsync());
    }

    private async Task<PartState> StateAsync() =>
        (await _shop.Get<PartsList>().RowsAsync(_shop.Desk, _job, None)).Single(row => row.Id == _part).State;
}
