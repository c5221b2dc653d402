using System.Globalization;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class SignalPathsTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private Guid _amplifier;
    private Guid _processor;
    private Guid _source;
    private Guid _tweeters;
    private Guid _woofer;

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        _source = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Source, "Player", new SourceData { OutputVolts = 2, OutputOhms = 100, SignalToNoiseDecibels = 100, SampleRateKilohertz = 192, Bits = 24, DelayMilliseconds = 5 }));
        _processor = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Processor, "Processor", new ProcessorData
        {
            Inputs = 2, Outputs = 4, OutputVolts = 4, OutputOhms = 100, InputMinVolts = 1, InputMaxVolts = 4, InputOhms = 10_000, SampleRateKilohertz = 96, Bits = 24, SignalToNoiseDecibels = 110, DelayMilliseconds = 1,
        }));
        _amplifier = await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => part.Data = new AmplifierData { Channels = 4, WattsAtFourOhms = 100, WattsAtTwoOhms = 150, SensitivityMinVolts = 0.2, SensitivityMaxVolts = 6, InputOhms = 20_000, SignalToNoiseDecibels = 100 }));
        _tweeters = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Loudspeaker, "Tweeter", new LoudspeakerData { NominalOhms = 4, Coils = 1, RatedWatts = 40, LowestHertz = 2_000, HighPassHertz = 3_000 }, part =>
        {
            part.Quantity = 2;
            part.Zone = "pillar-left";
        }));
        _woofer = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Loudspeaker, "Woofer", new LoudspeakerData { NominalOhms = 4, Coils = 2, RatedWatts = 300, LowPassHertz = 80 }, part => part.Zone = VehicleZones.BootFloorRight));
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task A_job_without_links_is_not_judged()
    {
        var view = await ViewAsync();

        Assert.Null(view.Input);
        Assert.Empty(view.Findings);
    }

    [Fact]
    public async Task A_voltage_divides_between_output_and_input_and_the_target_follows_from_power_load_and_cable()
    {
        await WholeAsync();

        var row = (await ViewAsync()).Channels.Single(found => found.Drivers == "Tweeter, left");

        // 4 V of the processor over 100 Ω and 20 kΩ.
        Assert.Equal(4 * 20_000.0 / 20_100, row.Levels.Loudest!.InputVolts!.Value, 6);
        // The driver bears 40 W, the amplifier has some 100 W: √(40 W / 4 Ω) · (4 Ω + cable). ASTM B258: gauge 16 over 5 m and back, copper 0.017241 Ω·mm²/m and 2 % for stranding.
        var across = 0.127 * Math.Pow(92, (36 - 16) / 39.0);
        var loop = 2 * 5 * 0.017241 * 1.02 / (Math.PI / 4 * across * across);
        Assert.Equal(40, row.Levels.Channel.TargetWatts);
        Assert.Equal(Math.Sqrt(40 / 4.0) * (4 + loop), row.Levels.Step!.TargetVolts, 3);
        Assert.Equal(-5, row.Levels.Step.ToneDecibelsFullScale);
        Assert.Equal("Processor, output 1", row.FedBy);
        Assert.Equal("1 coil", row.Coils);
    }

    [Theory]
    [InlineData(CoilUse.AllInParallel, 2, "2 coils in parallel")]
    [InlineData(CoilUse.AllInSeries, 8, "2 coils in series")]
    public async Task Two_coils_of_4_ohms_are_the_load_they_are_joined_to(CoilUse use, double ohms, string words)
    {
        await LinkAsync(_woofer, 0, _amplifier, 2, use);

        var row = Assert.Single((await ViewAsync()).Channels);

        Assert.Equal((ohms, words), (row.Levels.Channel.NominalOhms, row.Coils));
        Assert.Equal([1, 2], Assert.Single(row.Levels.Channel.Drivers).Coils);
    }

    [Fact]
    public async Task Loudspeakers_on_one_output_lie_side_by_side_and_those_behind_a_crossover_do_not()
    {
        await LinkAsync(_tweeters, 0, _amplifier, 0);
        await LinkAsync(_tweeters, 1, _amplifier, 0);
        var beside = Assert.Single((await ViewAsync()).Channels).Levels.Channel;
        // 4 Ω beside 4 Ω; each takes half.
        Assert.Equal(2, beside.NominalOhms, 9);
        Assert.Equal([0.5, 0.5], beside.Drivers.Select(driver => driver.Share));

        foreach (var (unit, version) in (await _shop.Get<SignalLinks>().ListAsync(_shop.Desk, _job, None)).Select(link => (link.ToInput, link.Version)))
        {
            (await _shop.Get<SignalLinks>().LinkAsync(_shop.Desk, _job, SignalKind.Sound, _tweeters, unit, version, new SignalLinkForm { FromPartId = _amplifier, BehindCrossover = true }, None)).Must();
        }

        var view = await ViewAsync();
        Assert.Equal(4, Assert.Single(view.Channels).Levels.Channel.NominalOhms, 9);
        // They sit on both pillars.
        Assert.Contains(view.Findings, finding => finding.Code == "crossover-sides-differ");
        Assert.DoesNotContain(view.Findings, finding => finding.Code == "driver-not-driven" && finding.Subject.StartsWith("Tweeter", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_load_too_low_is_one_stop_at_the_gate_whoever_can_judge_it()
    {
        await LinkAsync(_woofer, 0, _amplifier, 0, CoilUse.AllInParallel);
        await LinkAsync(_tweeters, 0, _amplifier, 0);

        // 2 Ω beside 4 Ω is 1.33 Ω; the amplifier is rated down to 2 Ω.
        Assert.Equal("load-below-rating", Assert.Single(await TooLowAsync()).Code);
        // Without any power there is no path to judge; the part still says 4 Ω.
        await _shop.EditPartAsync(_amplifier, part => part.Data = new AmplifierData { Channels = 4 });
        Assert.Equal("amplifier-load-too-low", Assert.Single(await TooLowAsync()).Code);
    }

    [Fact]
    public async Task A_bridged_pair_takes_two_channels_and_each_sees_half()
    {
        await _shop.EditPartAsync(_amplifier, part => part.Data = new AmplifierData { Channels = 4, WattsBridgedAtFourOhms = 300, Load = ChannelLoading.BridgedFourOhms });
        await LinkAsync(_woofer, 0, _amplifier, 1, CoilUse.AllInSeries);

        var channel = Assert.Single((await ViewAsync()).Channels).Levels.Channel;

        Assert.Equal(["out3", "out4"], channel.Load.Outputs);
        Assert.Equal((8, 4), (channel.NominalOhms, channel.OhmsPerChannel));
    }

    [Fact]
    public async Task A_whole_path_has_no_stop_and_says_what_arrives_and_what_is_free()
    {
        await WholeAsync();

        var view = await ViewAsync();

        Assert.DoesNotContain(view.Findings, finding => finding.Severity == Severity.Stop);
        Assert.Equal(["Four-channel amplifier, output 4"], view.Unused);
        var carried = Assert.Single(view.Result!.Formats).Carried;
        Assert.Equal(96_000, carried.SampleRateHertz);
        Assert.Equal(0.006, carried.DelaySeconds!.Value, 9);
        Assert.Contains(view.Findings, finding => finding is { Code: "format-reduced", Severity: Severity.Note });
        // 80 Hz low-pass: 50 Hz lies less than an octave below it, so half of 80 Hz. 3 kHz high-pass: 5 kHz lies less than an octave above it, so twice 3 kHz.
        Assert.Equal(40, view.Channels.Single(row => row.Drivers == "Woofer").Levels.Step!.ToneHertz);
        Assert.Equal(6_000, view.Channels.Single(row => row.Drivers == "Tweeter, left").Levels.Step!.ToneHertz);
    }

    [Fact]
    public async Task A_tweeter_without_a_high_pass_is_a_stop_that_holds_delivery()
    {
        await WholeAsync();
        await _shop.EditPartAsync(_tweeters, part => part.Data = new LoudspeakerData { NominalOhms = 4, Coils = 1, RatedWatts = 40, LowestHertz = 2_000 });

        var finding = (await ViewAsync()).Findings.First(found => found.Code == "high-pass-missing");

        Assert.Equal((Severity.Stop, "Tweeter, left"), (finding.Severity, finding.Subject));
        Assert.Contains((await _shop.Get<DeliveryGate>().ReportAsync(_shop.Desk, _job, None)).Standing, gated => gated.Finding.Code == "high-pass-missing");
    }

    [Fact]
    public async Task Straight_from_a_source_left_and_right_are_told_apart()
    {
        await LinkAsync(_amplifier, 0, _source, 1);
        await LinkAsync(_tweeters, 0, _amplifier, 0);

        var finding = Assert.Single((await ViewAsync()).Findings, found => found.Code == "side-mixed");

        Assert.Contains("sits on the left and is fed with the right signal", finding.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_digital_source_arrives_at_the_digital_input_and_elsewhere_is_a_stop()
    {
        await _shop.EditPartAsync(_source, part => part.Data = new SourceData { OutputKind = PortKind.Optical, SampleRateKilohertz = 96, Bits = 24 });
        await WholeAsync();
        Assert.Contains((await ViewAsync()).Findings, finding => finding.Code == "connector-mismatch");

        await _shop.EditPartAsync(_processor, part => ((ProcessorData)part.Data).DigitalInput = DigitalInput.Optical);

        var view = await ViewAsync();
        Assert.DoesNotContain(view.Findings, finding => finding.Code == "connector-mismatch");
        Assert.True(Assert.Single(view.Result!.Formats).Carried.IsWhole);
    }

    [Fact]
    public async Task Without_a_source_the_cars_own_sound_is_assumed_and_said()
    {
        await _shop.SaveAsync(db => db.JobParts.Single(part => part.Id == _source).Remove(_shop.Time.GetUtcNow()));
        await _shop.SaveAsync(db => db.JobParts.Single(part => part.Id == _processor).Remove(_shop.Time.GetUtcNow()));
        await LinkAsync(_woofer, 0, _amplifier, 0);

        var view = await ViewAsync();

        Assert.Contains(view.Findings, finding => finding.Code == "car-sound-assumed");
        Assert.DoesNotContain(view.Findings, finding => finding.Code == "no-source");
        Assert.Equal("The car's own sound", Assert.Single(view.Channels).FedBy);
    }

    [Fact]
    public async Task An_amplifier_with_two_cables_for_four_channels_joins_its_inputs()
    {
        await LinkAsync(_amplifier, 0, _source, 0);
        await LinkAsync(_amplifier, 1, _source, 1);
        await LinkAsync(_tweeters, 0, _amplifier, 2);

        var view = await ViewAsync();

        Assert.Equal("Player, left", Assert.Single(view.Channels).FedBy);
        Assert.Contains(view.Findings, finding => finding is { Code: "inputs-joined", Severity: Severity.Note });
    }

    [Fact]
    public async Task What_is_not_known_is_named_and_nothing_is_made_up_for_it()
    {
        await _shop.EditPartAsync(_amplifier, part => part.Data = new AmplifierData { Channels = 4 });
        await LinkAsync(_woofer, 0, _amplifier, 0);

        var view = await ViewAsync();

        Assert.Contains(view.Findings, finding => finding is { Code: "amplifier-rating-missing", Severity: Severity.Warn });
        Assert.Empty(view.Channels);
        Assert.DoesNotContain(view.Findings, finding => finding.Subject == "Woofer");
    }

    [Fact]
    public async Task Where_nobody_said_how_cables_lie_or_where_devices_are_grounded_one_note_each_asks_for_it()
    {
        await WholeAsync();

        var asked = (await ViewAsync()).Findings.Where(finding => finding.Code is "cable-lay-not-said" or "ground-not-said").ToList();

        Assert.Equal([Severity.Note, Severity.Note], asked.Select(finding => finding.Severity));
        Assert.Contains("Player, Processor, Four-channel amplifier", asked.Single(finding => finding.Code == "ground-not-said").Text, StringComparison.Ordinal);
        Assert.Contains("to Processor, Four-channel amplifier", asked.Single(finding => finding.Code == "cable-lay-not-said").Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_return_laid_beside_the_supply_says_where_a_device_is_grounded_and_the_part_goes_before_it()
    {
        await WholeAsync();
        await _shop.SaveAsync(db => db.ElectricalSettings.Add(new ElectricalSettings(_job, new ElectricalSettingsForm { Return = ReturnPath.DedicatedConductor })));

        var view = await ViewAsync();
        Assert.DoesNotContain(view.Findings, finding => finding.Code is "ground-not-said" or "grounds-differ");
        Assert.Equal("the distribution's negative", Assert.Single(view.Input!.Devices.OfType<AmplifierDevice>()).GroundPoint);

        await _shop.EditPartAsync(_source, part => ((SourceData)part.Data).GroundPoint = "Dash bolt");
        Assert.Contains((await ViewAsync()).Findings, finding => finding.Code == "grounds-differ" && finding.Text.Contains("dash bolt and the distribution's negative", StringComparison.Ordinal));
    }

    [Fact]
    public async Task With_parts_of_the_car_taken_out_a_factory_source_is_asked_for_the_load_it_waits_for()
    {
        await WholeAsync();
        await _shop.EditPartAsync(_source, part => ((SourceData)part.Data).Sounds = SourceSounds.MusicAndVehicleSounds);
        Assert.DoesNotContain((await ViewAsync()).Findings, finding => finding.Code == "factory-load-not-said");

        await _shop.AddPartAsync(_job, "Factory amplifier", part => part.Direction = PartDirection.Removed);
        Assert.Contains((await ViewAsync()).Findings, finding => finding is { Code: "factory-load-not-said", Subject: "Player" });

        await _shop.EditPartAsync(_source, part => ((SourceData)part.Data).FactoryLoad = FactoryLoad.NeededAndFitted);
        Assert.DoesNotContain((await ViewAsync()).Findings, finding => finding.Code == "factory-load-not-said");
    }

    [Fact]
    public async Task Technicians_read_the_sheet_and_strangers_to_the_job_get_none()
    {
        await WholeAsync();

        Assert.Equal(3, (await _shop.Get<SignalPaths>().SheetAsync(_shop.Technician, _job, CultureInfo.InvariantCulture, None))!.View.Channels.Count);
        Assert.Null(await _shop.Get<SignalPaths>().SheetAsync(_shop.Desk, Guid.CreateVersion7(), CultureInfo.InvariantCulture, None));
    }

    private async Task WholeAsync()
    {
        await LinkAsync(_processor, 0, _source, 0);
        await LinkAsync(_processor, 1, _source, 1);
        for (var channel = 0; channel < 4; channel++)
        {
            await LinkAsync(_amplifier, channel, _processor, channel);
        }

        await LinkAsync(_tweeters, 0, _amplifier, 0);
        await LinkAsync(_tweeters, 1, _amplifier, 1);
        await LinkAsync(_woofer, 0, _amplifier, 2);
    }

    private async Task LinkAsync(Guid to, int input, Guid from, int output, CoilUse coils = CoilUse.AllInParallel) =>
        (await _shop.Get<SignalLinks>().LinkAsync(
            _shop.Desk, _job, SignalKind.Sound, to, input, Guid.Empty, new SignalLinkForm { FromPartId = from, FromOutput = output, Coils = coils, LengthMeters = 5, Awg = to == _tweeters ? "16" : null }, None)).Must();

    private async Task<List<Finding>> TooLowAsync() =>
        [.. (await _shop.Get<DeliveryGate>().ReportAsync(_shop.Desk, _job, None)).Standing.Select(gated => gated.Finding).Where(finding => finding.Code is "amplifier-load-too-low" or "load-below-rating")];

    private Task<SignalPathView> ViewAsync() => _shop.Get<SignalPaths>().GetAsync(_shop.Desk, _job, UnitText.Invariant, None);
}
