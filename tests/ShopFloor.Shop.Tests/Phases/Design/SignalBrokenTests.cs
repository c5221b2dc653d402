using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Rules;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Demo;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Handover;

namespace ShopFloor.Shop.Tests.Phases.Design;

/// <summary>The demo's estate with one thing broken at a time, each by the use case a person would break it with.</summary>
public sealed class SignalBrokenTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private readonly Dictionary<string, Guid> _parts = [];

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        var catalogue = DemoCatalogue.Parts().ToDictionary(part => part.Name);
        foreach (var part in DemoEstate.Parts)
        {
            var details = JobPartDetails.FromCatalogue(catalogue[part.Name]);
            (details.Quantity, details.Zone) = (part.Quantity, part.Zone);
            part.Change(details);
            _parts[part.Name] = await _shop.AddPartAsync(_job, details);
        }

        await DemoEstate.LinkAsync(_shop.Get<IServiceProvider>(), _shop.Owner, _job);
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task The_whole_case_has_nothing_to_mend()
    {
        var view = await ViewAsync();

        Assert.DoesNotContain(view.Findings, finding => finding.Severity != Severity.Note);
        // Six channels, of which two carry tweeter and midrange together, and the bass.
        Assert.Equal(7, view.Channels.Count);
        Assert.Equal(2, view.Result!.Formats.Count);
        Assert.Contains(view.Input!.Links, link => link.FromPort == "out3");
    }

    /// <summary>What is broken, the one rule that has to say it, how gravely, its words, and what else follows from it.</summary>
    public static TheoryData<string, string, Severity, string, string[]> Broken => new()
    {
        { "sides swapped", "side-mixed", Severity.Stop, "It sits on the left and is fed with the right signal.", [] },
        { "polarity swapped", "polarity-differs", Severity.Warn, "It is changed over against its twin", [] },
        { "polarity swapped behind a crossover", "polarity-differs", Severity.Warn, "It is changed over against its twin", [] },
        { "output used twice", "output-shared", Severity.Warn, "of loudspeakers on the left and on the right: both play the same.", ["side-mixed"] },
        { "channel without a signal", "no-source", Severity.Stop, "No way leads from a source to this channel.", [] },
        { "loudspeaker not driven", "driver-not-driven", Severity.Stop, "No amplifier channel drives it.", [] },
        // Two coils of 2 Ω in parallel.
        { "loaded below its rating", "load-below-rating", Severity.Stop, "The load is 1 Ω; the amplifier is rated down to 2 Ω.", [] },
        { "wrong connector", "connector-mismatch", Severity.Stop, "The output is coaxial (IEC 60958), the input optical (IEC 60958).", [] },
        { "tweeter without a high-pass", "high-pass-missing", Severity.Stop, "Nothing keeps low notes away", [] },
        // 20·log10(12/6) = 6.02 dB, less what 47 Ω and 10 kΩ divide: 0.04 dB. What is cut off there leaves the source's own noise 6 dB nearer to it.
        { "input clipped", "input-clipped", Severity.Warn, "it clips at 6 V, 5.98 dB lower.", ["noise-audible"] },
        { "vehicle sounds lost", "vehicle-sounds-lost", Severity.Stop, "Its warnings, navigation or telephone reach no loudspeaker.", [] },
        { "line beside the supply", "line-beside-supply", Severity.Warn, "This unbalanced line lies beside a supply cable.", [] },
        { "one-bit stream over fibre", "format-reduced", Severity.Warn, "IEC 60958 does not carry that as it is.", [] },
        { "grounds differ", "grounds-differ", Severity.Warn, "The ends are grounded at two points", [] },
        { "factory radio without its load", "not-terminated", Severity.Stop, "It needs a load or a wake signal and has none.", [] },
        { "routing set to the wrong side", "side-mixed", Severity.Stop, "It sits on the left and is fed with the right signal.", [] },
    };

    [Theory]
    [MemberData(nameof(Broken))]
    public async Task One_broken_thing_is_one_finding_with_its_remedy_and_stops_hold_the_delivery(string what, string code, Severity severity, string words, string[] follows)
    {
        await BreakAsync(what);

        var found = (await ViewAsync()).Findings.Where(finding => finding.Severity != Severity.Note).ToList();

        Assert.Equal([code, .. follows], found.Select(finding => finding.Code).Distinct().OrderBy(each => each == code ? 0 : 1));
        var said = found.First(finding => finding.Code == code);
        Assert.Equal(severity, said.Severity);
        Assert.Contains(words, said.Text.Replace('\u00a0', ' '), StringComparison.Ordinal);
        Assert.NotEmpty(said.Remedy);
        Assert.Contains(SignalRules.All, rule => rule.Code == said.Code);
        var held = (await _shop.Get<DeliveryGate>().ReportAsync(_shop.Desk, _job, None)).Standing.Select(gated => gated.Finding.Code);
        Assert.Equal(severity == Severity.Stop, held.Contains(code));
    }

    [Fact]
    public async Task A_bridged_pair_loaded_below_its_rating_is_a_stop()
    {
        var four = await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => part.Data = new AmplifierData { Channels = 4, WattsAtFourOhms = 60, WattsBridgedAtFourOhms = 190, Load = ChannelLoading.BridgedFourOhms }));
        await LinkAsync(DemoCatalogue.Woofer, 0, form => form with { FromPartId = four, FromOutput = 0 });

        // Two coils of 4 Ω in parallel are 2 Ω; each half of the pair sees half of it.
        var said = (await ViewAsync()).Findings.First(finding => finding.Code == "load-below-rating");
        Assert.Equal("The load is 2 Ω, so each channel sees 1 Ω; the amplifier is rated down to 4 Ω bridged.", said.Text.Replace('\u00a0', ' '));
        Assert.Contains((await _shop.Get<DeliveryGate>().ReportAsync(_shop.Desk, _job, None)).Standing, gated => gated.Finding.Code == said.Code);
    }

    private Task BreakAsync(string what) => what switch
    {
        "sides swapped" => SwapAsync(),
        "polarity swapped" => LinkAsync(DemoCatalogue.Midbass, 0, form => form with { Inverted = true }),
        "polarity swapped behind a crossover" => LinkAsync(DemoCatalogue.Tweeter, 1, form => form with { Inverted = true }),
        "output used twice" => LinkAsync(DemoCatalogue.SixChannel, 3, form => form with { FromOutput = 2 }),
        "channel without a signal" => UnlinkAsync(DemoCatalogue.SingleChannel, 0),
        "loudspeaker not driven" => UnlinkAsync(DemoCatalogue.Woofer, 0),
        "loaded below its rating" => EditAsync(DemoCatalogue.Woofer, data => ((LoudspeakerData)data).NominalOhms = 2),
        "wrong connector" => EditAsync(DemoCatalogue.NetworkPlayer, data => ((SourceData)data).OtherOutput = OtherOutput.Coaxial),
        "tweeter without a high-pass" => EditAsync(DemoCatalogue.Tweeter, data => ((LoudspeakerData)data).HighPassHertz = null),
        "input clipped" => EditAsync(DemoCatalogue.RadioInterface, data => ((SourceData)data).OutputVolts = 12),
        "vehicle sounds lost" => BothAsync(() => UnlinkAsync(DemoCatalogue.Processor, 0), () => UnlinkAsync(DemoCatalogue.Processor, 1)),
        "line beside the supply" => LinkAsync(DemoCatalogue.SixChannel, 0, form => form with { Lies = LinkLay.AlongSupply }),
        "one-bit stream over fibre" => EditAsync(DemoCatalogue.NetworkPlayer, data => (((SourceData)data).SampleRateKilohertz, ((SourceData)data).Bits) = (2_822.4, 1)),
        "grounds differ" => EditAsync(DemoCatalogue.RadioInterface, data => ((SourceData)data).GroundPoint = "Dash bolt"),
        "factory radio without its load" => EditAsync(DemoCatalogue.RadioInterface, data => ((SourceData)data).FactoryLoad = FactoryLoad.NeededAndMissing),
        "routing set to the wrong side" => RouteAsync(4, OutputMix.Right),
        _ => throw new ArgumentOutOfRangeException(nameof(what), what, "No such way to break it."),
    };

    private static async Task BothAsync(Func<Task> first, Func<Task> second)
    {
        await first();
        await second();
    }

    private async Task SwapAsync()
    {
        await LinkAsync(DemoCatalogue.SixChannel, 2, form => form with { FromOutput = 3 });
        await LinkAsync(DemoCatalogue.SixChannel, 3, form => form with { FromOutput = 2 });
    }

    private async Task LinkAsync(string to, int input, Func<SignalLinkForm, SignalLinkForm> change)
    {
        var link = await LinkToAsync(to, input);
        (await _shop.Get<SignalLinks>().LinkAsync(_shop.Desk, _job, SignalKind.Sound, _parts[to], input, link.Version, change(link.Form), None)).Must();
    }

    private async Task UnlinkAsync(string to, int input) =>
        (await _shop.Get<SignalLinks>().UnlinkAsync(_shop.Desk, _job, SignalKind.Sound, _parts[to], input, (await LinkToAsync(to, input)).Version, None)).Must();

    private async Task<SignalLink> LinkToAsync(string to, int input) =>
        (await _shop.Get<SignalLinks>().ListAsync(_shop.Desk, _job, None)).Single(link => link.Kind == SignalKind.Sound && link.ToPartId == _parts[to] && link.ToInput == input);

    private async Task EditAsync(string name, Action<PartData> change)
    {
        var parts = _shop.Get<PartsList>();
        var form = (await parts.ForEditAsync(_shop.Desk, _parts[name], None))!; // added above
        change(form.Details.Data);
        (await parts.EditAsync(_shop.Desk, _parts[name], form.Version, form.Details, None)).Must();
    }

    private async Task RouteAsync(int output, OutputMix takes)
    {
        var connections = _shop.Get<SignalJoining>();
        var row = Assert.Single((await connections.GetAsync(_shop.Desk, _job, None)).Processors);
        (await connections.RouteAsync(_shop.Desk, _job, row.Version, row.Form with { Outputs = [.. row.Form.Outputs.Select(route => route.Output == output ? route with { Takes = takes } : route)] }, None)).Must();
    }

    private Task<SignalPathView> ViewAsync() => _shop.Get<SignalPaths>().GetAsync(_shop.Desk, _job, UnitText.Invariant, None);
}
