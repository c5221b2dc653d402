using ShopFloor.Engineering.Electrical.Accessories;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class LightingPlansTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync(job => job.NewVehicle!.BatteryAmpereHours = 60); // SomeJob has a new vehicle
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task A_strip_takes_its_power_per_metre_and_drops_less_with_more_feed_points()
    {
        LightingData Strip(int feeds) => new() { WattsPerMeter = 12, LengthMeters = 5, StripVolts = 12, Colours = 1, LedsPerMeter = 60, LedsPerSegment = 3, FeedPoints = feeds };
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Lighting, "One end", Strip(1)));
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Lighting, "Both ends", Strip(2), part => part.Quantity = 2));

        var view = await ViewAsync();

        // 12 W/m · 5 m / 12 V = 5 A, from the data sheet; two strips, two zones.
        Assert.Equal(5, view.Strips[0].Result!.FullAmperes, 9);
        Assert.Equal((10.0, 2), (view.Strips[1].Result!.FullAmperes, view.Strips[1].Result!.Zones.Count));
        Assert.True(view.Strips[1].Result!.Zones[0].WorstDropVolts < view.Strips[0].Result!.Zones[0].WorstDropVolts / 2, "fed at both ends it drops less than half");
    }

    [Fact]
    public async Task What_a_strip_lacks_is_listed_and_light_seen_from_outside_is_a_stop()
    {
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Lighting, "Bare", new LightingData { WattsPerMeter = 10, LengthMeters = 2 }));
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Lighting, "Outside", new LightingData { WattsPerMeter = 5, LengthMeters = 1, StripVolts = 12, Colours = 3, LedsPerMeter = 60, LedsPerSegment = 3, View = LightView.FromOutside }));

        var view = await ViewAsync();

        Assert.Equal(["strip voltage", "colours", "LEDs per metre", "LEDs in the shortest piece"], view.Strips[0].Missing);
        Assert.Null(view.Strips[0].Result);
        Assert.Contains(view.Findings, finding => finding is { Code: "led-road-legal", Severity: Severity.Stop });
    }

    [Fact]
    public async Task A_turn_on_output_carries_every_device_on_it_and_asks_for_a_relay_above_its_limit()
    {
        var processor = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Processor, "Processor", new ProcessorData { WorkingAmperes = 1, RemoteInMilliamperes = 5, RemoteOutMilliamperes = 100, SettleSeconds = 2 }));
        var amplifier = await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part =>
        {
            part.Quantity = 3;
            ((AmplifierData)part.Data).RemoteInMilliamperes = 40;
        }));
        (await _shop.Get<SignalLinks>().SuggestAsync(_shop.Desk, _job, SignalKind.TurnOn, None)).Must();

        var view = await ViewAsync();
        var output = view.Outputs.Single(found => found.PartId == processor);

        Assert.Equal(0.12, output.Result.TotalAmperes, 9);
        Assert.True(output.Result.RelayNeeded);
        Assert.Contains(view.Findings, finding => finding is { Code: "turn-on-overload", Severity: Severity.Stop });
        // The processor is not steady for 2 s and the amplifiers come on at once.
        Assert.Contains(view.Findings, finding => finding.Code == "amplifier-on-too-early");

        var link = (await _shop.Get<SignalLinks>().ListAsync(_shop.Desk, _job, None)).Single(found => found.ToPartId == amplifier);
        (await _shop.Get<SignalLinks>().LinkAsync(_shop.Desk, _job, SignalKind.TurnOn, amplifier, 0, link.Version, link.Form with { DelaySeconds = 2.2 }, None)).Must();
        view = await ViewAsync();

        Assert.DoesNotContain(view.Findings, finding => finding.Code == "amplifier-on-too-early");
        Assert.Equal(["Processor", "Four-channel amplifier"], view.Order!.PowerUp.Select(step => step.Name));
        Assert.Equal(["Four-channel amplifier", "Processor"], view.Order.PowerDown.Select(step => step.Name));
    }

    [Fact]
    public async Task A_relay_loads_the_line_by_its_coil_and_one_without_suppression_is_told()
    {
        var relay = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Relay", new AccessoryData { WorkingAmperes = 0.16, RelayCoilOhms = 92, RelayContactAmperes = 30, Suppression = CoilSuppression.None }));
        (await _shop.Get<SignalLinks>().LinkAsync(_shop.Desk, _job, SignalKind.TurnOn, relay, 0, Guid.Empty, new SignalLinkForm(), None)).Must();

        var view = await ViewAsync();

        // 13.8 V / 92 Ω = 150 mA.
        Assert.Equal(0.15, Assert.Single(view.Outputs).Result.TotalAmperes, 9);
        Assert.Contains(view.Triggers, trigger => trigger.PartId == relay);
        Assert.Contains(view.Findings, finding => finding.Code == "coil-not-suppressed");
    }

    [Fact]
    public async Task Relays_of_one_line_load_what_switches_them_together()
    {
        var relays = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Relay", new AccessoryData { WorkingAmperes = 0.16, RelayCoilOhms = 92, RelayContactAmperes = 30 }, part => part.Quantity = 3));
        (await _shop.Get<SignalLinks>().LinkAsync(_shop.Desk, _job, SignalKind.TurnOn, relays, 0, Guid.Empty, new SignalLinkForm(), None)).Must();

        var view = await ViewAsync();

        // Three of 13.8 V / 92 Ω = 150 mA.
        Assert.Equal(0.45, Assert.Single(view.Outputs).Result.TotalAmperes, 9);
        Assert.Equal(450, Assert.Single(view.TurnOn).Milliamperes!.Value, 9);
    }

    [Fact]
    public async Task What_turns_a_device_on_is_missing_until_somebody_decides()
    {
        await _shop.AddPartAsync(_job, PartBuilder.Amplifier());

        var view = await ViewAsync();

        Assert.Null(Assert.Single(view.TurnOn).Link);
        Assert.Contains(view.Findings, finding => finding.Code == "turn-on-not-decided");
        Assert.Empty(view.Outputs);
    }

    [Fact]
    public async Task Detection_and_recording_are_loads_with_the_word_that_local_law_decides()
    {
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Detector", new AccessoryData { WorkingAmperes = 0.3, Use = AccessoryKind.DetectionDevice }));
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Accessory, "Recorder", new AccessoryData { WorkingAmperes = 0.5, Use = AccessoryKind.RecordingCamera, ParkedMilliamperes = 200, CutOffVolts = 12.3 }));

        var view = await ViewAsync();

        Assert.Equal(0.8, view.Accessories!.DrivingAmperes, 9);
        Assert.Equal(0.2, view.Accessories.ParkedAmperes, 9);
        Assert.False(view.CarAsleepKnown);
        Assert.Contains(view.Findings, finding => finding.Code == "detection-device-law");
        Assert.Contains(view.Findings, finding => finding.Code == "recording-camera-law");
    }

    private Task<LightingPlanView> ViewAsync() => _shop.Get<LightingPlans>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None);
}
