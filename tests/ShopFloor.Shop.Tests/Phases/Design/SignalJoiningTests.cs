using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class SignalJoiningTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private Guid _player;
    private Guid _processor;
    private Guid _amplifier;
    private Guid _tweeters;

    private SignalJoining Connections => _shop.Get<SignalJoining>();

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        _player = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Source, "Player", new SourceData { OutputVolts = 2, OtherOutput = OtherOutput.Optical, Sounds = SourceSounds.VehicleSoundsApart }));
        _processor = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Processor, "Processor", new ProcessorData { Inputs = 2, Outputs = 4, DigitalInput = DigitalInput.Optical, OutputVolts = 4 }));
        _amplifier = await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
        _tweeters = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Loudspeaker, "Tweeter", new LoudspeakerData { NominalOhms = 4, Coils = 1 }, part =>
        {
            part.Quantity = 2;
            part.Zone = "pillar-left";
        }));
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Every_connector_is_named_and_typed_free_ones_too()
    {
        var view = await ViewAsync();

        Assert.Equal(
            ["Player, left", "Player, right", "Player, optical (IEC 60958), left", "Player, optical (IEC 60958), right", "Player, vehicle sounds"],
            view.Units[0].Outputs.Select(output => output.Name));
        Assert.Equal([PortKind.UnbalancedLine, PortKind.UnbalancedLine, PortKind.Optical, PortKind.Optical], view.Units[1].Inputs.Select(input => input.Kind));
        Assert.Equal(["Tweeter, left", "Tweeter, right"], view.Units.Where(unit => unit.Kind == PartKind.Loudspeaker).SelectMany(unit => unit.Inputs).Select(input => input.Name));
        Assert.All(view.Units.SelectMany(unit => unit.Inputs), input => Assert.Null(input.Link));
    }

    [Fact]
    public async Task An_output_is_joined_to_an_input_and_taken_back_under_the_version_it_left()
    {
        var step = await ConnectAsync(_player, 0, _processor, 1);
        Assert.Equal("Player, left to Processor, input 2", step.Words);
        Assert.Equal((_player, 0), Fed((await ViewAsync()).Input(_processor, 1)!));
        var second = await ConnectAsync(_player, 1, _processor, 1);

        (await Connections.UndoAsync(_shop.Desk, _job, second, None)).Must();
        Assert.Equal((_player, 0), Fed((await ViewAsync()).Input(_processor, 1)!));

        // Somebody else changed it since: the older step no longer fits.
        Assert.False((await Connections.UndoAsync(_shop.Desk, _job, step, None)).Succeeded);
        Assert.Equal((_player, 0), Fed((await ViewAsync()).Input(_processor, 1)!));
    }

    [Fact]
    public async Task One_digital_cable_carries_both_channels_and_leaves_both_open()
    {
        var step = await ConnectAsync(_player, 3, _processor, 2);

        var view = await ViewAsync();
        // The right channel was put on the left input: inside one fibre left stays left.
        Assert.Equal((_player, 2), Fed(view.Input(_processor, 2)!));
        Assert.Equal((_player, 3), Fed(view.Input(_processor, 3)!));
        Assert.Equal(2, step.Changes.Count);

        var apart = (await Connections.DisconnectAsync(_shop.Desk, _job, view.Input(_processor, 3)!, None)).Must();
        Assert.All((await ViewAsync()).Units[1].Inputs, input => Assert.Null(input.Link));
        (await Connections.UndoAsync(_shop.Desk, _job, apart, None)).Must();
        Assert.Equal(2, (await ViewAsync()).Units[1].Inputs.Count(input => input.Link is not null));
    }

    [Fact]
    public async Task What_does_not_fit_is_marked_and_found()
    {
        await ConnectAsync(_player, 0, _processor, 2);
        await ConnectAsync(_processor, 0, _amplifier, 0);
        await ConnectAsync(_amplifier, 0, _tweeters, 0);

        Assert.False((await ViewAsync()).Input(_processor, 2)!.Fits);
        Assert.True((await ViewAsync()).Input(_amplifier, 0)!.Fits);
        Assert.Contains((await _shop.Get<SignalPaths>().GetAsync(_shop.Desk, _job, UnitText.Invariant, None)).Findings, finding => finding.Code == "connector-mismatch");
    }

    [Fact]
    public async Task Another_output_keeps_what_was_decided_about_the_loudspeaker_and_lets_the_cable_go()
    {
        var other = await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => part.Name = "Second amplifier"));
        (await _shop.Get<SignalLinks>().LinkAsync(
            _shop.Desk, _job, SignalKind.Sound, _tweeters, 0, Guid.Empty, new SignalLinkForm { FromPartId = _amplifier, Inverted = true, LengthMeters = 3, Lies = LinkLay.Free, Awg = "16" }, None)).Must();

        await ConnectAsync(other, 1, _tweeters, 0);

        var form = (await ViewAsync()).Input(_tweeters, 0)!.Link!;
        Assert.Equal((other, 1, true, null, LinkLay.NotSaid, "16"), (form.FromPartId, form.FromOutput, form.Inverted, form.LengthMeters, form.Lies, form.Awg));
    }

    [Fact]
    public async Task The_sounds_of_the_car_at_a_connector_of_their_own_are_a_source_that_must_be_heard()
    {
        await ConnectAsync(_player, 0, _processor, 0);
        await ConnectAsync(_processor, 0, _amplifier, 0);
        await ConnectAsync(_amplifier, 0, _tweeters, 0);
        Assert.Contains((await PathAsync()).Findings, finding => finding is { Code: "vehicle-sounds-lost", Subject: "Player, vehicle sounds" });

        await ConnectAsync(_player, 4, _processor, 1);

        Assert.DoesNotContain((await PathAsync()).Findings, finding => finding.Code == "vehicle-sounds-lost");
    }

    [Fact]
    public async Task What_is_free_is_joined_the_usual_way_in_one_step_and_taken_back_in_one()
    {
        var low = await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => (part.Name, ((AmplifierData)part.Data).Channels) = ("Bass amplifier", 1)));
        var woofer = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Loudspeaker, "Woofer", new LoudspeakerData { NominalOhms = 4, Coils = 2, SizeMillimeters = 250 }, part => part.Zone = "boot-floor-left"));
        // Decided before, and kept: the right tweeter on the fourth channel.
        await ConnectAsync(_amplifier, 3, _tweeters, 1);

        var step = (await Connections.ConnectUsualAsync(_shop.Desk, _job, None)).Must();

        var view = await ViewAsync();
        Assert.Equal((_amplifier, 0), Fed(view.Input(_tweeters, 0)!));
        Assert.Equal((_amplifier, 3), Fed(view.Input(_tweeters, 1)!));
        Assert.Equal((low, 0), Fed(view.Input(woofer, 0)!));
        // Only channels that play something are fed, in the order of the amplifiers.
        Assert.Equal((_processor, 0), Fed(view.Input(_amplifier, 0)!));
        Assert.Equal((_processor, 1), Fed(view.Input(_amplifier, 3)!));
        Assert.Equal((_processor, 2), Fed(view.Input(low, 0)!));
        Assert.Null(view.Input(_amplifier, 1)!.Link);
        // Numbers stay numbers: the player's fibre, both its sides.
        Assert.Equal([(_player, 2), (_player, 3)], new[] { 2, 3 }.Select(input => Fed(view.Input(_processor, input)!)));
        Assert.Equal(7, step.Changes.Count);
        Assert.Equal("7 inputs joined", step.Words);
        Assert.All(view.Units.SelectMany(unit => unit.Inputs), input => Assert.True(input.Fits));

        (await Connections.UndoAsync(_shop.Desk, _job, step, None)).Must();
        Assert.Equal([(_tweeters, 1)], (await ViewAsync()).Units.SelectMany(unit => unit.Inputs).Where(input => input.Link is not null).Select(input => (input.PartId, input.Number)));
    }

    [Fact]
    public async Task Without_a_processor_sides_go_straight_into_the_amplifier()
    {
        var job = await _shop.OpenJobAsync();
        var player = await _shop.AddPartAsync(job, PartBuilder.Of(PartKind.Source, "Player", new SourceData { OutputVolts = 2 }));
        var amplifier = await _shop.AddPartAsync(job, PartBuilder.Amplifier());
        var speakers = await _shop.AddPartAsync(job, PartBuilder.Of(PartKind.Loudspeaker, "Midbass", new LoudspeakerData { NominalOhms = 4, Coils = 1, SizeMillimeters = 165 }, part => (part.Quantity, part.Zone) = (2, "front-door-left")));

        (await Connections.ConnectUsualAsync(_shop.Desk, job, None)).Must();

        var view = await Connections.GetAsync(_shop.Desk, job, None);
        Assert.Equal([(player, 0), (player, 1)], new[] { 0, 1 }.Select(input => Fed(view.Input(amplifier, input)!)));
        Assert.Equal([(amplifier, 0), (amplifier, 1)], new[] { 0, 1 }.Select(input => Fed(view.Input(speakers, input)!)));
        Assert.Contains("Nothing free fits together", (await Connections.ConnectUsualAsync(_shop.Desk, job, None)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_interface_passes_sides_straight_through_to_the_processor()
    {
        var bus = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Processor, "Bus interface", new ProcessorData { Use = ProcessorUse.VehicleInterface, Inputs = 2, Outputs = 2, OutputVolts = 4 }));
        foreach (var side in new[] { 0, 1 })
        {
            await ConnectAsync(_player, side, bus, side);
            // Changed over between interface and processor.
            await ConnectAsync(bus, side, _processor, 1 - side);
            await ConnectAsync(_processor, side, _amplifier, side);
            await ConnectAsync(_amplifier, side, _tweeters, side);
        }

        await RouteAsync((0, OutputMix.Left), (1, OutputMix.Right));
        var left = (await PathAsync()).Channels.Single(row => row.Drivers == "Tweeter, left");

        // Output 1 is made of left, which now arrives at input 2.
        Assert.Equal(["in2"], left.Levels.Routes.Select(way => way.Route.Hops.First(hop => hop.Device.Name == "Processor").Input!.Id));
        Assert.DoesNotContain((await PathAsync()).Findings, finding => finding.Code == "side-mixed");
    }

    [Fact]
    public async Task A_side_nothing_brings_is_silent()
    {
        await ConnectAsync(_player, 0, _processor, 0);
        await ConnectAsync(_processor, 1, _amplifier, 1);
        await ConnectAsync(_amplifier, 1, _tweeters, 1);
        await RouteAsync((1, OutputMix.Right));

        Assert.Contains((await PathAsync()).Findings, finding => finding.Code == "no-source");
    }

    [Fact]
    public async Task Routing_names_outputs_that_exist_and_is_for_designers()
    {
        var row = Assert.Single((await ViewAsync()).Processors);

        var beyond = await Connections.RouteAsync(_shop.Desk, _job, row.Version, row.Form with { Outputs = [new OutputRouteForm { Output = 4, Takes = OutputMix.Sum }] }, None);
        Assert.Equal("Processor has 4 outputs; output 5 is not one of them.", Assert.Single(beyond.Problems).Message);
        await Assert.ThrowsAsync<NotAllowedException>(() => Connections.RouteAsync(_shop.Technician, _job, row.Version, row.Form, None));

        await RouteAsync((0, OutputMix.Left));
        Assert.NotNull((await Connections.RouteAsync(_shop.Desk, _job, row.Version, row.Form with { Outputs = [new OutputRouteForm { Takes = OutputMix.Right }] }, None)).Conflict);
    }

    [Fact]
    public async Task Feeding_a_whole_device_takes_the_digital_way_where_there_is_one()
    {
        (await _shop.Get<SignalLinks>().FeedAsync(_shop.Desk, _job, _processor, [], _player, 2, LinkLay.CrossesSupply, None)).Must();

        var inputs = (await ViewAsync()).Units[1].Inputs;
        Assert.Equal([(_player, 2), (_player, 3)], inputs.Where(input => !input.Kind.IsAnalog()).Select(Fed));
        Assert.All(inputs.Where(input => input.Link is not null), input => Assert.Equal(LinkLay.CrossesSupply, input.Link!.Lies));
        var cable = Assert.Single((await _shop.Get<SignalPlans>().GetAsync(_shop.Desk, _job, UnitText.Invariant, None)).Cables, cable => cable.Name == "Player to Processor" && cable.SizeLabel == "Optical fibre");
        Assert.Equal(1, cable.Pieces);
    }

    [Fact]
    public async Task A_loudspeaker_hangs_on_an_amplifier_and_an_amplifier_on_nothing_it_feeds()
    {
        var view = await ViewAsync();

        var refused = await Connections.ConnectAsync(_shop.Desk, _job, view.Output(_player, 0)!, view.Input(_tweeters, 0)!, None);

        Assert.Equal("A loudspeaker is fed by an output of an amplifier.", Assert.Single(refused.Problems).Message);
        Assert.False((await Connections.ConnectAsync(_shop.Desk, _job, view.Output(_amplifier, 0)!, view.Input(_processor, 0)!, None)).Succeeded);
    }

    private static (Guid?, int) Fed(ConnectedInput input) => (input.Link?.FromPartId, input.Link?.FromOutput ?? -1);

    private async Task<ConnectionStep> ConnectAsync(Guid from, int output, Guid to, int input)
    {
        var view = await ViewAsync();
        return (await Connections.ConnectAsync(_shop.Desk, _job, view.Output(from, output)!, view.Input(to, input)!, None)).Must();
    }

    private async Task RouteAsync(params (int Output, OutputMix Takes)[] routes)
    {
        var row = (await ViewAsync()).Processors.Single(found => found.PartId == _processor);
        (await Connections.RouteAsync(_shop.Desk, _job, row.Version, row.Form with { Outputs = [.. routes.Select(route => new OutputRouteForm { Output = route.Output, Takes = route.Takes })] }, None)).Must();
    }

    private Task<ConnectionsView> ViewAsync() => Connections.GetAsync(_shop.Desk, _job, None);

    private Task<SignalPathView> PathAsync() => _shop.Get<SignalPaths>().GetAsync(_shop.Desk, _job, UnitText.Invariant, None);
}
