using System.Globalization;
using System.Text;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Tests.Phases.Build;

namespace ShopFloor.Shop.Tests.Phases.Tuning;

/// <summary>What holds the last tick of the tuning and the delivery, and in what words. The shop's limit of left against right is 1.5 dB.</summary>
public sealed class TuningGateTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private Guid _step;

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        var processor = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Processor, "Processor", new ProcessorData { Inputs = 2, Outputs = 2, OutputVolts = 4, SampleRateKilohertz = 96, Bits = 24 }));
        var amplifier = await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => part.Data = new AmplifierData { Channels = 2, WattsAtFourOhms = 100 }));
        var speakers = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Loudspeaker, "Midbass", new LoudspeakerData { SizeMillimeters = 165, NominalOhms = 4, Coils = 1, RatedWatts = 100, LowestHertz = 50 }, part =>
        {
            part.Quantity = 2;
            part.Zone = "front-door-left";
        }));
        for (var channel = 0; channel < 2; channel++)
        {
            await LinkAsync(amplifier, channel, processor, channel);
            await LinkAsync(speakers, channel, amplifier, channel);
        }

        await _shop.PlanAsync(_job, StageBuilder.Stage("Tuning", StageBuilder.Step("Preset typed in")) with { Phase = JobPhase.Tuning });
        _step = (await _shop.SheetAsync(_job)).Stages[0].Steps[0].Id;
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task A_job_without_a_preset_in_the_car_is_not_judged()
    {
        await KeepAsync();

        Assert.DoesNotContain((await GateAsync()).Findings, gated => gated.Finding.SubjectId is "tuning" or "preset");
        (await TickAsync()).Must();
    }

    [Fact]
    public async Task A_preset_nobody_measured_warns_at_delivery_and_holds_no_tick()
    {
        await PutInCarAsync(await KeepAsync());

        var finding = await FindingAsync("tuning-not-verified");

        Assert.Equal("Driver's seat, version 1 is in the car, and was not measured on both sides since.", finding.Text);
        Assert.Equal(Severity.Warn, finding.Severity);
        (await TickAsync()).Must();
    }

    [Fact]
    public async Task One_side_alone_is_no_measurement_of_the_car()
    {
        await PutInCarAsync(await KeepAsync());
        await MeasureAsync("Midbass, left", "Driver's seat, version 1", 80);

        Assert.Contains("not measured on both sides", (await FindingAsync("tuning-not-verified")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_broken_limit_holds_the_last_tick_and_the_delivery_in_the_same_words_until_it_is_mended()
    {
        await PutInCarAsync(await KeepAsync());
        await MeasureAsync("Midbass, left", "Driver's seat, version 1", 84);
        var right = await MeasureAsync("Midbass, right", "Driver's seat, version 1", 80);

        var refused = await TickAsync();

        var finding = await FindingAsync("left-right-differ");
        Assert.Equal(Severity.Stop, finding.Severity);
        Assert.Contains("the left is 4\u00a0dB louder; 1.5\u00a0dB is allowed", finding.Text, StringComparison.Ordinal);
        Assert.StartsWith("Tuning cannot be finished: ", refused.Message, StringComparison.Ordinal);
        Assert.Contains(finding.Text, refused.Message, StringComparison.Ordinal);
        Assert.EndsWith("Tune and measure again under Verification, or the owner signs it off there with a reason.", refused.Message, StringComparison.Ordinal);
        Assert.Contains((await GateAsync()).Standing, gated => gated.Finding.Code == "left-right-differ");
        Assert.False((await _shop.Get<DeliveryGate>().DeliverAsync(_shop.Desk, _job, None)).Succeeded);

        (await _shop.Get<JobDesigns>().RemoveAsync<MeasurementForm>(_shop.Technician, right, None)).Must();
        await MeasureAsync("Midbass, right", "Driver's seat, version 1", 84);
        Assert.DoesNotContain((await GateAsync()).Findings, gated => gated.Finding.Code == "left-right-differ");
        (await TickAsync()).Must();
    }

    [Fact]
    public async Task The_owners_word_lets_a_broken_limit_pass_and_ends_when_it_reads_differently()
    {
        await PutInCarAsync(await KeepAsync());
        await MeasureAsync("Midbass, left", "Driver's seat, version 1", 84);
        var right = await MeasureAsync("Midbass, right", "Driver's seat, version 1", 80);
        var finding = await FindingAsync("left-right-differ");
        (await _shop.Get<TuningBench>().SignOffAsync(_shop.Owner, _job, new ReadFinding(finding.SubjectId, finding.Text), finding.Code, "The client sits on the left alone.", None)).Must();
        Assert.DoesNotContain((await GateAsync()).Standing, gated => gated.Finding.Code == "left-right-differ");

        (await _shop.Get<JobDesigns>().RemoveAsync<MeasurementForm>(_shop.Technician, right, None)).Must();
        await MeasureAsync("Midbass, right", "Driver's seat, version 1", 77);

        Assert.Contains((await GateAsync()).Standing, gated => gated.Finding.Code == "left-right-differ");
        Assert.Contains("7\u00a0dB louder", (await TickAsync()).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_measurement_of_another_version_than_the_one_in_the_car_counts_for_nothing_and_is_named()
    {
        var first = await KeepAsync();
        await PutInCarAsync(first);
        await MeasureAsync("Midbass, left", "Driver's seat, version 1", 80);
        await MeasureAsync("Midbass, right", "Driver's seat, version 1", 80);
        Assert.DoesNotContain((await GateAsync()).Findings, gated => gated.Finding.Code == "tuning-not-verified");

        // A change after the measurement: the old one is stale.
        await PutInCarAsync(await KeepAsync(first));

        Assert.Equal("Driver's seat, version 2 is in the car, and was not measured on both sides since. What was measured last is Driver's seat, version 1.", (await FindingAsync("tuning-not-verified")).Text);
    }

    [Fact]
    public async Task A_version_kept_after_the_one_in_the_car_is_told()
    {
        var first = await KeepAsync();
        await PutInCarAsync(first);
        await KeepAsync(first);

        var finding = await FindingAsync("preset-not-in-car");

        Assert.Equal("Driver's seat, version 2 was kept, but version 1 is in the car.", finding.Text);
        Assert.Equal(Severity.Warn, finding.Severity);
    }

    private async Task<LoadedDesign<PresetForm>> KeepAsync(LoadedDesign<PresetForm>? from = null)
    {
        var channels = await _shop.Get<TuningChannels>().ListAsync(_shop.Technician, _job, None);
        var draft = new PresetDraft
        {
            PresetId = from?.Form.PresetId, BasedOn = from?.Form.Number, Name = "Driver's seat", Profile = ProcessorProfiles.Generic, Target = TargetCurve.BuiltIn[0],
            Channels = [.. channels.Select(channel => new ChannelSetting { Id = channel.Id, Name = channel.Name, GainDecibels = from is null ? 0 : -1 })],
        };
        (await _shop.Get<TuningPresets>().SaveAsync(_shop.Technician, _job, draft, UnitText.Invariant, None)).Must();
        return (await _shop.Get<TuningPresets>().GetAsync(_shop.Technician, _job, None)).Presets[0].Latest;
    }

    private async Task PutInCarAsync(LoadedDesign<PresetForm> version) => (await _shop.Get<TuningPresets>().PutInCarAsync(_shop.Technician, version.Id, None)).Must();

    private async Task<Guid> MeasureAsync(string channel, string preset, double level)
    {
        var text = new StringBuilder();
        for (var hertz = 18.0; hertz < 22_000; hertz *= 1.1)
        {
            text.Append(CultureInfo.InvariantCulture, $"{hertz:0.###}\t{level}\n");
        }

        var file = (await _shop.Get<JobFiles>().AddAsync(_shop.Technician, _job, JobFileKind.MeasurementTable, $"{channel} {level}.txt", new MemoryStream(Encoding.UTF8.GetBytes(text.ToString())), None)).Must();
        var id = (await _shop.Get<TuningChannels>().ListAsync(_shop.Technician, _job, None)).Single(found => found.Name == channel).Id;
        return (await _shop.Get<TuningMeasurements>().AddAsync(
            _shop.Technician, _job, new MeasurementForm { ChannelId = id, FileId = file, Source = MeasurementSource.Table, Layout = new ResponseTableLayout { Separator = ColumnSeparator.Tab }, Preset = preset }, None)).Must();
    }

    private async Task<Finding> FindingAsync(string code) => Assert.Single((await GateAsync()).Findings, gated => gated.Finding.Code == code).Finding;

    private Task<GateReport> GateAsync() => _shop.Get<DeliveryGate>().ReportAsync(_shop.Desk, _job, None);

    private Task<Outcome<Done>> TickAsync() => _shop.Get<StageWork>().TickAsync(_shop.Technician, Guid.CreateVersion7(), new TickStep(_step), null, None);

    private async Task LinkAsync(Guid to, int input, Guid from, int output) =>
        (await _shop.Get<SignalLinks>().LinkAsync(_shop.Desk, _job, SignalKind.Sound, to, input, Guid.Empty, new SignalLinkForm { FromPartId = from, FromOutput = output, LengthMeters = 1, Awg = "16" }, None)).Must();
}
