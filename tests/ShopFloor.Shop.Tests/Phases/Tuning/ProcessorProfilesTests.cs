using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Phases.Tuning;

public sealed class ProcessorProfilesTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    private ProcessorProfiles Processors => _shop.Get<ProcessorProfiles>();

    private static ProcessorProfile Eight { get; } = ProcessorProfiles.Generic with { Name = "Eight outputs", Channels = 8, SlopesDecibelsPerOctave = [12, 24] };

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task A_processor_is_kept_changed_removed_and_brought_back_and_the_generic_one_is_always_there()
    {
        Assert.Equal(["Generic processor"], await NamesAsync());

        await KeepAsync(null, Eight);
        await KeepAsync((await ListAsync())[1], Eight with { Channels = 10 });
        var changed = (await ListAsync())[1];
        Assert.Equal(("Eight outputs", 10), (changed.Name, changed.Channels));

        Assert.True((await Processors.RemoveAsync(_shop.Owner, changed, default)).Succeeded);
        Assert.Equal(["Generic processor"], await NamesAsync());
        await KeepAsync(null, changed);
        Assert.Equal([12, 24], (await ListAsync())[1].SlopesDecibelsPerOctave);
    }

    [Fact]
    public async Task Two_processors_never_have_one_name_and_a_bad_number_is_told_at_its_field()
    {
        await KeepAsync(null, Eight);

        Assert.Equal("Name", (await SaveAsync(null, Eight with { Name = "eight OUTPUTS " })).Problems.Single().Field);
        Assert.Equal("Name", (await SaveAsync(null, Eight with { Name = "Generic processor" })).Problems.Single().Field);
        // 96 kHz and more are made; 4 kHz is below what any filter here is computed for, and the highest frequency cannot be kept with it.
        var refused = await SaveAsync(null, Eight with { Name = "Slow", SampleRateHertz = 4_000 });
        Assert.Contains(refused.Problems, problem => problem.Field == "SampleRateHertz");
        Assert.Equal(2, (await ListAsync()).Count);
    }

    [Fact]
    public async Task The_second_of_two_who_change_a_processor_sees_what_the_first_kept()
    {
        await KeepAsync(null, Eight);
        var both = (await ListAsync())[1];
        await KeepAsync(both, both with { Channels = 10 });

        var late = await SaveAsync(both, both with { FiltersPerChannel = 31 });

        Assert.Equal(
            [("Channels", "8", "10"), ("FiltersPerChannel", "31", "10")],
            late.Conflict!.Differences.Select(difference => (difference.Field, difference.Mine, difference.Theirs))); // a conflict is what is tested
        Assert.Equal(_shop.Owner.Name, late.Conflict.ChangedBy);
        Assert.Equal(10, (await ListAsync())[1].Channels);
    }

    [Fact]
    public async Task A_processor_removed_meanwhile_is_told_and_not_made_again_in_silence()
    {
        await KeepAsync(null, Eight);
        var loaded = (await ListAsync())[1];
        Assert.True((await Processors.RemoveAsync(_shop.Owner, loaded, default)).Succeeded);

        var late = await SaveAsync(loaded, loaded with { Channels = 10 });

        Assert.Contains("removed or renamed 'Eight outputs'", late.Message, StringComparison.Ordinal);
        Assert.Single(await ListAsync());
    }

    [Fact]
    public async Task Limits_are_kept_for_the_verification_and_a_second_editor_is_asked()
    {
        var draft = await Processors.LimitsAsync(_shop.Owner, default);
        Assert.True((await Processors.SetLimitsAsync(_shop.Owner, draft.Version, draft.Limits with { LeftRightDecibels = 1 }, default)).Succeeded);
        var first = await Processors.LimitsAsync(_shop.Technician, default);
        Assert.Equal(1, first.Limits.LeftRightDecibels);
        Assert.True((await Processors.SetLimitsAsync(_shop.Owner, first.Version, first.Limits with { ArrivalSeconds = 0.0001 }, default)).Succeeded);

        var late = await Processors.SetLimitsAsync(_shop.Owner, first.Version, first.Limits with { FromHertz = 80 }, default);
        Assert.Equal(["ArrivalSeconds", "FromHertz"], late.Conflict!.Differences.Select(difference => difference.Field)); // a conflict is what is tested

        var refused = await Processors.SetLimitsAsync(_shop.Owner, first.Version, first.Limits with { ToHertz = 50 }, default);
        Assert.Equal(("ToHertz", "The highest frequency must lie above the lowest."), (refused.Problems.Single().Field, refused.Message));
    }

    [Fact]
    public async Task Editing_the_shop_leaves_processors_and_limits_alone()
    {
        var desk = _shop.Get<ShopSettingsDesk>();
        var draft = await desk.GetAsync(_shop.Owner, default);
        var saved = await desk.EditAsync(_shop.Owner, draft.Version, draft.Form with { Name = "The shop" }, default);
        Assert.True(saved.Succeeded, saved.Message);
        var open = await desk.GetAsync(_shop.Owner, default);
        await KeepAsync(null, Eight);

        var late = await desk.EditAsync(_shop.Owner, open.Version, open.Form with { Phone = "555 0100" }, default);
        Assert.Equal(["Phone"], late.Conflict!.Differences.Select(difference => difference.Field)); // saved against the older version
        Assert.True((await desk.EditAsync(_shop.Owner, late.Conflict.CurrentVersion, open.Form with { Phone = "555 0100" }, default)).Succeeded);

        Assert.Equal(2, (await ListAsync()).Count);
    }

    [Fact]
    public async Task Only_who_manages_the_shop_changes_them()
    {
        await Assert.ThrowsAsync<NotAllowedException>(() => Processors.SaveAsync(_shop.Desk, null, Eight, UnitText.Invariant, default));
        await Assert.ThrowsAsync<NotAllowedException>(() => Processors.RemoveAsync(_shop.Technician, Eight, default));
        await Assert.ThrowsAsync<NotAllowedException>(() => Processors.SetLimitsAsync(_shop.Technician, Guid.Empty, new TuningLimits(), default));
    }

    private Task<Outcome<Done>> SaveAsync(ProcessorProfile? was, ProcessorProfile profile) => Processors.SaveAsync(_shop.Owner, was, profile, UnitText.Invariant, default);

    private async Task KeepAsync(ProcessorProfile? was, ProcessorProfile profile)
    {
        var outcome = await SaveAsync(was, profile);
        Assert.True(outcome.Succeeded, outcome.Message);
    }

    private Task<IReadOnlyList<ProcessorProfile>> ListAsync() => Processors.ListAsync(_shop.Technician, default);

    private async Task<IEnumerable<string>> NamesAsync() => (await ListAsync()).Select(profile => profile.Name);
}
