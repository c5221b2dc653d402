using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Tuning;

namespace ShopFloor.Shop.Tests.Phases.Tuning;

public sealed class SettingsSheetTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    private SettingsSheet Sheet => _shop.Get<SettingsSheet>();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Devices_to_choose_from_come_from_the_parts_list()
    {
        var jobId = await _shop.OpenJobAsync();
        await _shop.AddPartAsync(jobId, "Eight-channel processor", part => part.Kind = PartKind.Processor);
        await _shop.AddPartAsync(jobId, "Door loudspeakers", part => part.Kind = PartKind.Loudspeaker);
        await _shop.AddPartAsync(jobId, "Factory amplifier", part => (part.Kind, part.Direction) = (PartKind.Amplifier, PartDirection.Removed));

        Assert.Equal(["Eight-channel processor"], (await Sheet.ReadAsync(_shop.Technician, jobId, CancellationToken.None)).Devices);
    }

    [Theory]
    [InlineData("High-pass", "Linkwitz-Riley 18 dB/oct at 80 Hz", 18)]
    [InlineData("Low-pass", "80 Hz, Linkwitz-Riley, 30 dB per octave", 30)]
    [InlineData("High-pass LR", "6 dB/oct", 6)]
    [InlineData("Low-pass", "Linkwitz-Riley 24 dB/oct at 80 Hz", null)]
    [InlineData("Low-pass", "Butterworth 18 dB/oct at 80 Hz", null)]
    [InlineData("Level LR", "-3 dB", null)]
    public void A_crossover_that_does_not_exist_is_refused_with_the_slopes_that_do(string setting, string value, int? refused)
    {
        var problems = new SettingRowForm { Device = "Processor", Setting = setting, Value = value }.Problems();

        Assert.Equal(
            refused is { } slope ? [$"Slope: a Linkwitz-Riley of {slope} dB per octave does not exist, as it is two equal halves; enter 12, 24, 36, 48, or another shape."] : [],
            problems.Select(problem => problem.Message));
    }

    [Fact]
    public async Task New_row_of_a_known_device_goes_behind_its_last_row()
    {
        var jobId = await _shop.OpenJobAsync();
        await AddAsync(jobId, "A", "1");
        await AddAsync(jobId, "B", "2");
        await AddAsync(jobId, "a", "3");

        Assert.Equal(["1", "3", "2"], await ValuesAsync(jobId));
    }

    [Fact]
    public async Task Rows_move_up_and_down_and_stay_at_the_ends()
    {
        var jobId = await _shop.OpenJobAsync();
        await AddAsync(jobId, "A", "1");
        await AddAsync(jobId, "B", "2");
        var third = await AddAsync(jobId, "C", "3");

        await Sheet.MoveAsync(_shop.Technician, third, up: true, CancellationToken.None);
        Assert.Equal(["1", "3", "2"], await ValuesAsync(jobId));

        await Sheet.MoveAsync(_shop.Technician, third, up: true, CancellationToken.None);
        await Sheet.MoveAsync(_shop.Technician, third, up: true, CancellationToken.None);
        Assert.Equal(["3", "1", "2"], await ValuesAsync(jobId));

        await Sheet.MoveAsync(_shop.Technician, third, up: false, CancellationToken.None);
        Assert.Equal(["1", "3", "2"], await ValuesAsync(jobId));
    }

    [Fact]
    public async Task Removed_row_comes_back_and_can_be_moved_again()
    {
        var jobId = await _shop.OpenJobAsync();
        var first = await AddAsync(jobId, "A", "1");
        await AddAsync(jobId, "B", "2");
        await Sheet.RemoveAsync(_shop.Technician, first, CancellationToken.None);
        Assert.Equal(["2"], await ValuesAsync(jobId));
        await AddAsync(jobId, "C", "3");

        await Sheet.BringBackAsync(_shop.Technician, first, CancellationToken.None);
        await Sheet.MoveAsync(_shop.Technician, first, up: false, CancellationToken.None);

        Assert.Equal(["2", "1", "3"], await ValuesAsync(jobId));
    }

    [Fact]
    public async Task Second_editor_of_a_row_is_shown_both_values()
    {
        var jobId = await _shop.OpenJobAsync();
        var id = await AddAsync(jobId, "Amplifier", "80 Hz");
        var row = (await Sheet.ReadAsync(_shop.Technician, jobId, CancellationToken.None)).Rows[0];
        var theirs = row.ToForm();
        theirs.Value = "90 Hz";
        Assert.True((await Sheet.EditAsync(_shop.SecondTechnician, id, row.Version, theirs, CancellationToken.None)).Succeeded);
        var mine = row.ToForm();
        mine.Value = "70 Hz";

        var outcome = await Sheet.EditAsync(_shop.Technician, id, row.Version, mine, CancellationToken.None);

        var difference = Assert.Single(outcome.Conflict!.Differences); // the version is old
        Assert.Equal(("70 Hz", "90 Hz"), (difference.Mine, difference.Theirs));
    }

    private async Task<Guid> AddAsync(Guid jobId, string device, string value)
    {
        var outcome = await Sheet.AddAsync(_shop.Technician, jobId, new SettingRowForm { Device = device, Setting = "High-pass", Value = value }, CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
        return outcome.Value;
    }

    private async Task<IEnumerable<string>> ValuesAsync(Guid jobId) => (await Sheet.ReadAsync(_shop.Technician, jobId, CancellationToken.None)).Rows.Select(row => row.Value);
}
