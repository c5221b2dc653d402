using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Verification;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Phases.Tuning.Presets;

namespace ShopFloor.Shop.Tests.Phases.Tuning;

public sealed class TuningPresetsTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();
    private Guid _job;

    private TuningPresets Presets => _shop.Get<TuningPresets>();

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task A_version_is_kept_on_the_steps_of_its_processor()
    {
        // 48 kHz: one sample is 20.833 µs; levels go in tenths of a decibel.
        var kept = await KeepAsync(Draft() with { Channels = [Tweeter with { DelaySeconds = 0.001005, GainDecibels = -3.27 }] });

        Assert.Equal(1, kept.Number);
        Assert.Equal(["delay", "level"], kept.Rounded.Select(change => change.Field).Order());
        var channel = (await LatestAsync()).Form.Channels[0];
        Assert.Equal(48 / 48_000.0, channel.DelaySeconds, 1e-9);
        Assert.Equal(-3.3, channel.GainDecibels, 1e-9);
    }

    [Fact]
    public async Task A_version_from_an_old_beginning_is_refused_and_says_who_was_first()
    {
        await KeepAsync(Draft());
        var first = await LatestAsync();
        var draft = Draft() with { PresetId = first.Form.PresetId, BasedOn = 1, Note = "first" };
        await KeepAsync(draft);

        var late = await Presets.SaveAsync(_shop.Owner, _job, draft with { Note = "late" }, UnitText.Invariant, default);

        Assert.False(late.Succeeded);
        Assert.Contains("kept version 2 of this preset meanwhile; yours began from version 1", late.Message, StringComparison.Ordinal);
        Assert.Equal("first", (await LatestAsync()).Form.Note);
    }

    [Fact]
    public async Task An_earlier_version_comes_back_as_a_new_one_and_nothing_is_lost()
    {
        await KeepAsync(Draft());
        var first = await LatestAsync();
        await KeepAsync(Draft() with { PresetId = first.Form.PresetId, BasedOn = 1, Channels = [Tweeter with { GainDecibels = -6 }] });

        Succeeded(await Presets.RestoreAsync(_shop.Technician, first.Id, UnitText.Invariant, default));

        var line = (await Presets.GetAsync(_shop.Technician, _job, default)).Presets.Single();
        Assert.Equal([3, 2, 1], line.Versions.Select(version => version.Form.Number));
        Assert.Empty(TuningPresets.Between(line.Versions[2], line.Versions[0]));
        Assert.Equal("level", Assert.Single(TuningPresets.Between(line.Versions[1], line.Versions[0])).Field);
    }

    [Fact]
    public async Task One_version_of_all_is_in_the_car()
    {
        await KeepAsync(Draft());
        var driver = await LatestAsync();
        await KeepAsync(Draft() with { Name = "Both seats" });
        var both = (await Presets.GetAsync(_shop.Technician, _job, default)).Presets.Single(preset => preset.Name == "Both seats").Latest;

        Succeeded(await Presets.PutInCarAsync(_shop.Technician, driver.Id, default));
        Succeeded(await Presets.PutInCarAsync(_shop.Technician, both.Id, default));

        var list = await Presets.GetAsync(_shop.Technician, _job, default);
        Assert.Equal("Both seats", list.InCar?.Name);
        Assert.Single(list.Presets.SelectMany(preset => preset.Versions), version => version.Form.InCar is not null);
    }

    [Fact]
    public async Task A_preset_in_the_car_that_was_not_measured_warns_and_holds_nothing()
    {
        await KeepAsync(Draft());
        Assert.Empty((await ViewAsync()).Findings);
        Succeeded(await Presets.PutInCarAsync(_shop.Technician, (await LatestAsync()).Id, default));

        var finding = Assert.Single((await ViewAsync()).Findings);

        Assert.Equal(("tuning-not-verified", ShopFloor.Engineering.Explained.Severity.Warn), (finding.Code, finding.Severity));
        Assert.Contains("Driver's seat, version 1", finding.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_was_heard_is_kept_by_name_and_a_bad_answer_says_what_to_look_at()
    {
        await KeepAsync(Draft());
        var version = await LatestAsync();
        Succeeded(await Presets.PutInCarAsync(_shop.Technician, version.Id, default));
        Succeeded(await Presets.HearAsync(_shop.Technician, version.Id, new ListeningAnswer("polarity", false, "two singers"), default));

        var view = await ViewAsync();
        var heard = view.Findings.Single(finding => finding.Code == "heard-not-good");
        Assert.Contains("two singers", heard.Text, StringComparison.Ordinal);
        Assert.Equal(ListeningChecklist.Points.Single(point => point.Id == "polarity").WhenNot, heard.Remedy);

        Succeeded(await Presets.HearAsync(_shop.Technician, version.Id, new ListeningAnswer("polarity", true), default));
        Assert.DoesNotContain((await ViewAsync()).Findings, finding => finding.Code == "heard-not-good");

        var unknown = await Presets.HearAsync(_shop.Technician, version.Id, new ListeningAnswer("colour", true), default);
        Assert.Contains("'colour' is no point of the listening list", unknown.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Settings_a_processor_cannot_hold_are_named_before_anything_is_kept()
    {
        var refused = await Presets.SaveAsync(_shop.Technician, _job, Draft() with { Channels = [Tweeter with { DelaySeconds = -1 }] }, UnitText.Invariant, default);

        Assert.False(refused.Succeeded);
        Assert.Contains("Delay", refused.Message, StringComparison.Ordinal);
        Assert.Empty((await Presets.GetAsync(_shop.Technician, _job, default)).Presets);
    }

    private static ChannelSetting Tweeter { get; } = new() { Id = "t", Name = "Tweeter, left", HighPass = new Crossover(CrossoverShape.LinkwitzRiley, 3_000, 24) };

    private static PresetDraft Draft() => new() { Name = "Driver's seat", Profile = ProcessorProfiles.Generic, Target = TargetCurve.BuiltIn[0], Channels = [Tweeter] };

    private static void Succeeded<TValue>(Outcome<TValue> outcome) => Assert.True(outcome.Succeeded, outcome.Message);

    private async Task<KeptPreset> KeepAsync(PresetDraft draft)
    {
        var outcome = await Presets.SaveAsync(_shop.Technician, _job, draft, UnitText.Invariant, default);
        Assert.True(outcome.Succeeded, outcome.Message);
        return outcome.Value;
    }

    private async Task<ShopFloor.Shop.Jobs.LoadedDesign<PresetForm>> LatestAsync() => (await Presets.GetAsync(_shop.Technician, _job, default)).Presets[0].Latest;

    private Task<VerificationView> ViewAsync() => _shop.Get<TuningBench>().VerifyAsync(_shop.Technician, _job, ListeningSeat.Driver, UnitText.Invariant, default);
}
