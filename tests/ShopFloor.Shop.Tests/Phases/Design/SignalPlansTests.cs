using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Parts;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class SignalPlansTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private Guid _amplifier;
    private Guid _tweeters;
    private Guid _woofer;

    private SignalLinks Links => _shop.Get<SignalLinks>();

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        _amplifier = await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => part.Data = new AmplifierData { Channels = 4, WattsAtFourOhms = 100, WattsAtTwoOhms = 150, DampingFactor = 200, RemoteInMilliamperes = 10 }));
        _tweeters = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Loudspeaker, "Tweeter", new LoudspeakerData { NominalOhms = 4, Coils = 1, SizeMillimeters = 25 }, part =>
        {
            part.Quantity = 2;
            part.Zone = "pillar-left";
        }));
        _woofer = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Loudspeaker, "Woofer", new LoudspeakerData { NominalOhms = 4, Coils = 2, SizeMillimeters = 250 }, part => part.Zone = VehicleZones.BootFloorRight));
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task A_loudspeakers_loss_and_damping_follow_from_length_gauge_and_impedance()
    {
        await FeedAsync(_tweeters, 0, 0, length: 5, awg: "16");

        var row = Speaker(await ViewAsync(), "Tweeter, left");

        // ASTM B258: a gauge n is 0.127 mm · 92^((36 − n)/39) across; copper 0.017241 Ω·mm²/m at 20 °C (IACS), 2 % for stranding.
        var across = 0.127 * Math.Pow(92, (36 - 16) / 39.0);
        var loop = 2 * 5 * 0.017241 * 1.02 / (Math.PI / 4 * across * across);
        Assert.Equal(loop, row.Figures!.LoopOhms, 4);
        Assert.Equal(20 * Math.Log10((4 + loop) / 4), row.Figures.LossDecibels, 3);
        // Output impedance 4 Ω / 200 = 0.02 Ω.
        Assert.Equal(4 / (0.02 + loop), row.Figures.DampingFactor, 1);
    }

    [Fact]
    public async Task The_second_of_a_pair_is_taken_on_the_other_side_until_it_is_measured()
    {
        await FeedAsync(_tweeters, 0, 0);
        await FeedAsync(_tweeters, 1, 1);

        var view = await ViewAsync();

        Assert.Equal(VehicleZones.SuggestedRunMeters(VehicleZones.BootFloorRight, "pillar-left"), Speaker(view, "Tweeter, left").LengthMeters);
        Assert.Equal(VehicleZones.SuggestedRunMeters(VehicleZones.BootFloorRight, "pillar-right"), Speaker(view, "Tweeter, right").LengthMeters);
        Assert.Contains(view.Findings, finding => finding.Code == "link-length-suggested");
    }

    [Theory]
    [InlineData(CoilUse.AllInParallel, 2, "amplifier-loading-differs")]
    [InlineData(CoilUse.AllInSeries, 8, null)]
    public async Task Two_coils_of_4_ohms_load_the_output_as_they_are_joined(CoilUse use, double ohms, string? finding)
    {
        (await Links.LinkAsync(_shop.Desk, _job, SignalKind.Sound, _woofer, 0, Guid.Empty, new SignalLinkForm { FromPartId = _amplifier, FromOutput = 2, Coils = use }, None)).Must();

        var view = await ViewAsync();

        Assert.Equal(ohms, Speaker(view, "Woofer").LoadOhms);
        Assert.Equal(finding, view.Findings.FirstOrDefault(found => found.Code.StartsWith("amplifier-load", StringComparison.Ordinal))?.Code);
    }

    [Fact]
    public async Task A_load_below_every_rating_of_the_amplifier_is_a_stop()
    {
        (await Links.LinkAsync(_shop.Desk, _job, SignalKind.Sound, _woofer, 0, Guid.Empty, new SignalLinkForm { FromPartId = _amplifier, FromOutput = 0 }, None)).Must();
        await FeedAsync(_tweeters, 0, 0);

        // 2 Ω beside 4 Ω is 1.33 Ω; the amplifier is rated down to 2 Ω.
        var finding = Assert.Single((await ViewAsync()).Findings, found => found.Code == "amplifier-load-too-low");
        Assert.Equal(Severity.Stop, finding.Severity);
        Assert.Contains("1.33", finding.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Coils_fed_one_by_one_are_rows_of_their_own_and_are_not_fed_twice()
    {
        (await Links.LinkAsync(_shop.Desk, _job, SignalKind.Sound, _woofer, 0, Guid.Empty, new SignalLinkForm { FromPartId = _amplifier, FromOutput = 0, Coils = CoilUse.OneCoil }, None)).Must();
        (await Links.LinkAsync(_shop.Desk, _job, SignalKind.Sound, _woofer, 1, Guid.Empty, new SignalLinkForm { FromPartId = _amplifier, FromOutput = 1, Coils = CoilUse.OneCoil }, None)).Must();

        Assert.Equal(["Woofer, coil 1", "Woofer, coil 2"], (await ViewAsync()).Speakers.Where(row => row.PartId == _woofer).Select(row => row.Name));
        var refused = await Links.LinkAsync(_shop.Desk, _job, SignalKind.Sound, _woofer, 0, Guid.Empty, new SignalLinkForm { FromPartId = _amplifier, FromOutput = 0, Coils = CoilUse.AllInParallel }, None);
        Assert.Equal(nameof(SignalLinkForm.Coils), Assert.Single(refused.Problems).Field);
    }

    [Fact]
    public async Task A_link_that_makes_no_sense_is_refused_at_its_field()
    {
        var output = await Links.LinkAsync(_shop.Desk, _job, SignalKind.Sound, _tweeters, 0, Guid.Empty, new SignalLinkForm { FromPartId = _amplifier, FromOutput = 4 }, None);
        Assert.Equal(nameof(SignalLinkForm.FromOutput), Assert.Single(output.Problems).Field);
        var input = await Links.LinkAsync(_shop.Desk, _job, SignalKind.Sound, _tweeters, 2, Guid.Empty, new SignalLinkForm { FromPartId = _amplifier }, None);
        Assert.Contains("has 2 inputs", input.Message, StringComparison.Ordinal);
        var length = await Links.LinkAsync(_shop.Desk, _job, SignalKind.Sound, _tweeters, 0, Guid.Empty, new SignalLinkForm { FromPartId = _amplifier, LengthMeters = 200 }, None);
        Assert.Contains("0.05 to 30", Assert.Single(length.Problems).Message, StringComparison.Ordinal);
        await Assert.ThrowsAsync<NotAllowedException>(() => Links.SuggestAsync(_shop.Technician, _job, SignalKind.Sound, None));
    }

    [Fact]
    public async Task The_second_editor_of_a_link_is_warned()
    {
        await FeedAsync(_tweeters, 0, 0, length: 4);

        var outcome = await Links.LinkAsync(_shop.Owner, _job, SignalKind.Sound, _tweeters, 0, Guid.Empty, new SignalLinkForm { FromPartId = _amplifier, LengthMeters = 6 }, None);

        Assert.Equal(("6", "4"), (Assert.Single(outcome.Conflict!.Differences).Mine, outcome.Conflict.Differences[0].Theirs));
    }

    [Fact]
    public async Task The_suggestion_gives_the_largest_loudspeaker_the_first_output_and_leaves_what_was_decided()
    {
        await FeedAsync(_tweeters, 1, 3);
        Assert.Equal(2, (await Links.SuggestAsync(_shop.Desk, _job, SignalKind.Sound, None)).Must());

        var view = await ViewAsync();

        Assert.Equal("Four-channel amplifier, output 1", Speaker(view, "Woofer").From);
        Assert.Equal("Four-channel amplifier, output 2", Speaker(view, "Tweeter, left").From);
        Assert.Equal("Four-channel amplifier, output 4", Speaker(view, "Tweeter, right").From);
        Assert.Equal(0, (await Links.SuggestAsync(_shop.Desk, _job, SignalKind.Sound, None)).Must());
    }

    [Fact]
    public async Task Cables_go_on_the_parts_list_once_and_the_electrical_plan_leaves_them_there()
    {
        await _shop.AddToCatalogueAsync(new PartFacts { Kind = PartKind.Cable, Name = "Loudspeaker cable 4 mm²", Unit = PartUnit.Meter, UnitPrice = 3, Data = new CableData { Purpose = CablePurpose.Loudspeaker, AreaSquareMillimeters = 4 } });
        await FeedAsync(_tweeters, 0, 0, length: 5);
        var plans = _shop.Get<SignalPlans>();
        Assert.Equal(1, (await plans.PutCablesOnListAsync(_shop.Desk, _job, None)).Must().Added);

        (await _shop.Get<ElectricalPlans>().AddPlannedPartsAsync(_shop.Desk, _job, None)).Must();
        var again = (await plans.PutCablesOnListAsync(_shop.Desk, _job, None)).Must();

        Assert.Equal((0, 0, 0), (again.Added, again.Updated, again.Removed));
        var line = Assert.Single(await _shop.Get<PartsList>().RowsAsync(_shop.Owner, _job, None), row => row.PlanRunId.StartsWith(SignalLink.CablePrefix, StringComparison.Ordinal));
        // 5 m and 0.3 m for the ends, up to the half metre.
        Assert.Equal(("Loudspeaker cable 4 mm²", 5.5m), (line.Name, line.Quantity));
        var row = Speaker(await ViewAsync(), "Tweeter, left");
        Assert.True(row.OnList);
        Assert.Equal(4, row.Conductor!.AreaSquareMillimeters);
        Assert.Equal(5.3, Assert.Single((await ViewAsync()).Cuts.Pieces).CutMeters, 9);
    }

    [Fact]
    public async Task A_link_taken_away_takes_its_cable_off_unless_it_is_on_order()
    {
        await FeedAsync(_tweeters, 0, 0, length: 5);
        await FeedAsync(_tweeters, 1, 1, length: 5);
        var plans = _shop.Get<SignalPlans>();
        (await plans.PutCablesOnListAsync(_shop.Desk, _job, None)).Must();
        var first = (await _shop.Get<PartsList>().RowsAsync(_shop.Owner, _job, None)).First(row => row.PlanRunId.StartsWith(SignalLink.CablePrefix, StringComparison.Ordinal));
        (await _shop.Get<Purchasing>().OrderAsync(_shop.Desk, [first.Id], "PO-1", null, None)).Must();
        foreach (var link in await LinksToAsync(_tweeters))
        {
            (await Links.UnlinkAsync(_shop.Desk, _job, SignalKind.Sound, _tweeters, link.ToInput, link.Version, None)).Must();
        }

        var done = (await plans.PutCablesOnListAsync(_shop.Desk, _job, None)).Must();

        Assert.Equal((1, 1), (done.Removed, done.Kept.Count));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_cable_stays_on_the_list_while_its_length_or_the_impedance_is_not_known(bool length)
    {
        await FeedAsync(_tweeters, 0, 0, length: 5);
        await FeedAsync(_tweeters, 1, 1, length: 5);
        var (plans, list) = (_shop.Get<SignalPlans>(), _shop.Get<PartsList>());
        (await plans.PutCablesOnListAsync(_shop.Desk, _job, None)).Must();
        var before = await CablesAsync();
        (await _shop.Get<Purchasing>().OrderAsync(_shop.Desk, [before[0].Id], "PO-1", null, None)).Must();
        var form = (await list.ForEditAsync(_shop.Desk, _tweeters, None))!;
        if (length)
        {
            form.Details.Zone = "";
            foreach (var link in await LinksToAsync(_tweeters))
            {
                (await Links.LinkAsync(_shop.Desk, _job, SignalKind.Sound, _tweeters, link.ToInput, link.Version, link.Form with { LengthMeters = null }, None)).Must();
            }
        }
        else
        {
            form.Details.Data = new LoudspeakerData { Coils = 1 };
        }

        (await list.EditAsync(_shop.Desk, _tweeters, form.Version, form.Details, None)).Must();

        var done = (await plans.PutCablesOnListAsync(_shop.Desk, _job, None)).Must();

        Assert.Equal((0, 0, 0, 0), (done.Added, done.Updated, done.Removed, done.Kept.Count));
        Assert.Equal(before.Select(line => (line.Id, line.Quantity)), (await CablesAsync()).Select(line => (line.Id, line.Quantity)));
    }

    [Fact]
    public async Task A_device_is_fed_channel_by_channel_and_twin_cables_carry_two()
    {
        var processor = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Processor, "Processor", new ProcessorData { Inputs = 2, Outputs = 6, WorkingAmperes = 1, OutputOhms = 100 }));
        (await Links.FeedAsync(_shop.Desk, _job, _amplifier, [], processor, 5, None)).Must();

        var view = await ViewAsync();
        var row = view.Signals.Single(signal => signal.ToPartId == _amplifier);

        Assert.Equal((4, 4, 5.0), (row.Channels, row.Inputs, row.LengthMeters));
        Assert.Equal(2, Assert.Single(view.Cables, cable => cable.Purpose == CablePurpose.Signal).Pieces);
        // 100 Ω beside 10 kΩ into 5 · 150 pF: f = 1 / (2π · 99.0099 · 750e-12) = 2.143 MHz, by hand.
        Assert.Equal(2.143e6, row.Result!.CornerHertz, 1e3);
        var circle = await Links.LinkAsync(_shop.Desk, _job, SignalKind.Sound, processor, 0, Guid.Empty, new SignalLinkForm { FromPartId = _amplifier }, None);
        Assert.Contains("circle", Assert.Single(circle.Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_output_is_handed_out_once_also_among_the_channels_of_one_device()
    {
        var processor = await ProcessorAsync(outputs: 4);
        await LinkInputAsync(_amplifier, 1, processor, 0);
        await LinkInputAsync(_amplifier, 3, processor, 2);

        Assert.Equal(0, (await FeedAllAsync(processor)).Must());

        // Inputs 2 and 4 keep outputs 1 and 3; the others get what is left.
        Assert.Equal([1, 0, 3, 2], (await LinksToAsync(_amplifier)).Select(link => link.Form.FromOutput));
    }

    [Fact]
    public async Task Channels_the_new_source_has_no_output_for_are_told_and_keep_no_old_source()
    {
        var old = await ProcessorAsync(outputs: 4);
        (await FeedAllAsync(old)).Must();
        var small = await ProcessorAsync(outputs: 3);

        Assert.Equal(1, (await FeedAllAsync(small)).Must());

        Assert.Equal([(0, small), (1, small), (2, small)], (await LinksToAsync(_amplifier)).Select(link => (link.ToInput, link.Form.FromPartId!.Value)));
    }

    [Fact]
    public async Task A_link_somebody_changed_meanwhile_is_neither_taken_away_nor_covered()
    {
        var (first, second) = (await ProcessorAsync(outputs: 4), await ProcessorAsync(outputs: 4));
        (await FeedAllAsync(first)).Must();
        var seen = (await LinksToAsync(_amplifier)).ToList();
        (await Links.LinkAsync(_shop.Owner, _job, SignalKind.Sound, _amplifier, 0, seen[0].Version, seen[0].Form with { LengthMeters = 4 }, None)).Must();

        var unlinked = await Links.UnlinkAsync(_shop.Desk, _job, SignalKind.Sound, _amplifier, 0, seen[0].Version, None);
        var fed = await Links.FeedAsync(_shop.Desk, _job, _amplifier, [.. seen.Select(link => link.Version)], second, null, None);
        var cleared = await Links.FeedAsync(_shop.Desk, _job, _amplifier, [.. seen.Select(link => link.Version)], null, null, None);

        Assert.All([unlinked.Conflict, fed.Conflict, cleared.Conflict], conflict => Assert.Equal(_shop.Owner.Name, conflict!.ChangedBy));
        var now = (await LinksToAsync(_amplifier)).ToList();
        Assert.Equal((first, 4.0), (now[0].Form.FromPartId!.Value, now[0].Form.LengthMeters));
        (await Links.UnlinkAsync(_shop.Desk, _job, SignalKind.Sound, _amplifier, 0, now[0].Version, None)).Must();
        Assert.NotNull((await Links.FeedAsync(_shop.Desk, _job, _amplifier, [.. now.Select(link => link.Version)], second, null, None)).Conflict);
        Assert.Equal(3, (await LinksToAsync(_amplifier)).Count());
    }

    [Fact]
    public async Task A_source_taken_off_the_list_is_told_and_nothing_fails()
    {
        await FeedAsync(_tweeters, 0, 0);
        (await _shop.Get<PartsList>().RemoveAsync(_shop.Desk, _amplifier, None)).Must();

        var view = await ViewAsync();

        Assert.Contains(view.Findings, finding => finding.Code == "signal-source-gone");
        Assert.Null(Speaker(view, "Tweeter, left").Result);
    }

    private async Task<Outcome<int>> FeedAllAsync(Guid from) =>
        await Links.FeedAsync(_shop.Desk, _job, _amplifier, [.. (await LinksToAsync(_amplifier)).Select(link => link.Version)], from, null, None);

    private Task<Guid> ProcessorAsync(int outputs) =>
        _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Processor, "Processor", new ProcessorData { Inputs = 2, Outputs = outputs, WorkingAmperes = 1 }));

    private async Task LinkInputAsync(Guid to, int input, Guid from, int output) =>
        (await Links.LinkAsync(_shop.Desk, _job, SignalKind.Sound, to, input, Guid.Empty, new SignalLinkForm { FromPartId = from, FromOutput = output }, None)).Must();

    private async Task<IEnumerable<SignalLink>> LinksToAsync(Guid part) =>
        (await Links.ListAsync(_shop.Desk, _job, None)).Where(link => link.ToPartId == part).OrderBy(link => link.ToInput);

    private async Task<List<PartRow>> CablesAsync() =>
        [.. (await _shop.Get<PartsList>().RowsAsync(_shop.Owner, _job, None)).Where(row => row.PlanRunId.StartsWith(SignalLink.CablePrefix, StringComparison.Ordinal))];

    private static SpeakerRow Speaker(SignalPlanView view, string name) => view.Speakers.Single(row => row.Name == name);

    private Task<SignalPlanView> ViewAsync() => _shop.Get<SignalPlans>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None);

    private async Task FeedAsync(Guid loudspeaker, int input, int output, double? length = null, string? awg = null) =>
        (await Links.LinkAsync(_shop.Desk, _job, SignalKind.Sound, loudspeaker, input, Guid.Empty, new SignalLinkForm { FromPartId = _amplifier, FromOutput = output, LengthMeters = length, Awg = awg }, None)).Must();
}
