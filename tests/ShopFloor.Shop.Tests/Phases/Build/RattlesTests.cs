using ShopFloor.Engineering.Fabrication.Treatment;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Shop.Tests.Phases.Build;

public sealed class RattlesTests : IAsyncLifetime
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
    public async Task A_rattle_goes_from_found_over_treated_to_gone_with_who_did_it()
    {
        (await FindAsync("Shelf clip", 63)).Must();
        Assert.Equal(RattleState.Found, (await OnlyAsync()).State);

        (await TreatAsync("Felt tape")).Must();
        Assert.Equal(RattleState.Treated, (await OnlyAsync()).State);

        (await PlayedAsync(stillHeard: false)).Must();
        var row = await OnlyAsync();
        Assert.Equal((RattleState.Gone, _shop.Technician.Name, _shop.Technician.Name), (row.State, row.FoundBy, row.Last!.PlayedBy));
    }

    [Fact]
    public async Task One_that_comes_back_keeps_what_was_tried_and_waits_for_something_else()
    {
        (await FindAsync("Shelf clip", 63)).Must();
        (await TreatAsync("Felt tape")).Must();
        (await PlayedAsync(stillHeard: true)).Must();
        Assert.Equal(RattleState.Returned, (await OnlyAsync()).State);

        (await TreatAsync("Second clip")).Must();

        var row = await OnlyAsync();
        Assert.Equal(RattleState.Treated, row.State);
        Assert.Equal(["Felt tape", "Second clip"], row.Remedies.Select(remedy => remedy.Text));
    }

    [Fact]
    public async Task It_is_not_played_again_before_something_was_done()
    {
        (await FindAsync("Shelf clip", 63)).Must();

        Assert.Equal("Say first what was done, then play the tone again.", (await PlayedAsync(stillHeard: false)).Message);
    }

    [Theory]
    [InlineData("Shelf", 2_500d, "2500")]
    [InlineData("Shelf", null, "frequency")]
    [InlineData("", 63d, "Place of the rattle")]
    public async Task What_cannot_be_is_refused_by_name_and_nothing_is_kept(string place, double? hertz, string told)
    {
        var outcome = await FindAsync(place, hertz);

        Assert.Contains(told, outcome.Message, StringComparison.Ordinal);
        Assert.Empty((await SheetAsync()).Rows);
    }

    [Fact]
    public async Task A_press_sent_twice_counts_once()
    {
        var press = Guid.CreateVersion7();
        await _shop.Get<Rattles>().FindAsync(_shop.Technician, press, new FoundRattle(_job, "Shelf", 63, null), null, None);
        await _shop.Get<Rattles>().FindAsync(_shop.Technician, press, new FoundRattle(_job, "Shelf", 63, null), null, None);

        Assert.Single((await SheetAsync()).Rows);
    }

    [Fact]
    public async Task One_struck_off_no_longer_counts_and_can_be_brought_back()
    {
        (await FindAsync("Shelf clip", 63)).Must();
        var id = (await OnlyAsync()).Id;

        (await _shop.Get<Rattles>().StrikeOffAsync(_shop.Technician, Guid.CreateVersion7(), _job, id, isOff: true, None)).Must();
        Assert.Equal((0, 1), ((await SheetAsync()).OpenCount, (await SheetAsync()).StruckOff.Count));

        (await _shop.Get<Rattles>().StrikeOffAsync(_shop.Technician, Guid.CreateVersion7(), _job, id, isOff: false, None)).Must();
        Assert.Equal(1, (await SheetAsync()).OpenCount);
    }

    private Task<Outcome<Done>> FindAsync(string place, double? hertz) => _shop.Get<Rattles>().FindAsync(_shop.Technician, Guid.CreateVersion7(), new FoundRattle(_job, place, hertz, null), null, None);

    private async Task<Outcome<Done>> TreatAsync(string remedy) => await _shop.Get<Rattles>().TreatAsync(_shop.Technician, Guid.CreateVersion7(), _job, (await OnlyAsync()).Id, remedy, null, None);

    private async Task<Outcome<Done>> PlayedAsync(bool stillHeard) => await _shop.Get<Rattles>().PlayedAsync(_shop.Technician, Guid.CreateVersion7(), _job, (await OnlyAsync()).Id, stillHeard, null, None);

    private async Task<RattleRow> OnlyAsync() => Assert.Single((await SheetAsync()).Rows);

    private Task<RattleSheet> SheetAsync() => _shop.Get<Rattles>().SheetAsync(_shop.Technician, _job, None);
}
