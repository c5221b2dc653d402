using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Presets;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Phases.Design;

/// <summary>Sources of a job: presets, what the client is told, and two ways to connect one.</summary>
public sealed class JobSourcesTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private Guid _player;
    private Guid _processor;
    private Guid _amplifier;
    private Guid _cable;

    private JobSources Sources => _shop.Get<JobSources>();

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        _player = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Source, "Player", new SourceData
        {
            HowToUse = "Choose 'Player' on the knob.", OutputVolts = 2, OutputOhms = 100, SignalToNoiseDecibels = 100, SampleRateKilohertz = 192, Bits = 24, DelayMilliseconds = 5,
            OtherOutput = OtherOutput.Optical,
        }));
        _processor = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Processor, "Processor", new ProcessorData
        {
            Inputs = 2, Outputs = 2, OutputVolts = 4, OutputOhms = 100, InputMinVolts = 1, InputMaxVolts = 4, InputOhms = 10_000, SampleRateKilohertz = 96, Bits = 24, SignalToNoiseDecibels = 110, DelayMilliseconds = 1, DigitalInput = DigitalInput.Optical,
        }));
        _amplifier = await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => part.Data = new AmplifierData { Channels = 2, WattsAtFourOhms = 100, SensitivityMinVolts = 0.2, SensitivityMaxVolts = 6, InputOhms = 20_000, SignalToNoiseDecibels = 100 }));
        var speakers = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Loudspeaker, "Midrange", new LoudspeakerData { NominalOhms = 4, Coils = 1, RatedWatts = 60, SensitivityDecibels = 88 }, part =>
        {
            part.Quantity = 2;
            part.Zone = "front-door-left";
        }));
        for (var side = 0; side < 2; side++)
        {
            await LinkAsync(_processor, side, _player, side);
            await LinkAsync(_amplifier, side, _processor, side);
            await LinkAsync(speakers, side, _amplifier, side);
        }

        _cable = (await _shop.Get<CatalogueDesk>().AddAsync(_shop.Owner, new PartFacts { Kind = PartKind.Cable, Name = "Signal pair", Unit = PartUnit.Meter, UnitPrice = 3, Data = new CableData { Purpose = CablePurpose.Signal } }, None)).Must();
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task A_source_tells_its_way_and_what_the_client_reads_comes_from_it()
    {
        var source = Assert.Single((await ViewAsync()).Sources);

        Assert.Equal(["Player", "Processor", source.Preset!.Way[2]], source.Preset.Way);
        // 192 kHz over volts into a processor at 96 kHz.
        Assert.Equal(Passage.Reduced, source.Preset.Formats[^1].Passage);
        Assert.Equal("Choose 'Player' on the knob. Music of up to 96 kHz and 24 bits arrives whole; finer files play too, reduced to what the way carries.", source.Text);
    }

    [Fact]
    public async Task What_cannot_be_reckoned_is_typed_once_and_stands_in_the_handover_as_a_suggestion_until_somebody_writes()
    {
        (await Sources.SaveAsync(_shop.Desk, _job, null, new SourcePresetForm { SourcePartId = _player, Volume = VolumePlace.Processor, Sounds = SoundsDuring.HeardOverIt, Notes = "Its battery is charged from the armrest." }, None)).Must();
        var told = Assert.Single((await ViewAsync()).Sources).Text;

        var notes = await _shop.Get<Handovers>().NotesAsync(_shop.Desk, _job, None);

        Assert.Contains("Turn the volume at the control of the sound processor. Chimes, navigation and telephone stay audible over it.", told, StringComparison.Ordinal);
        Assert.EndsWith("Its battery is charged from the armrest.", told, StringComparison.Ordinal);
        Assert.Contains(new SourceGuide("Player", told), notes.Form.Sources);

        notes.Form.Sources[0] = new SourceGuide("Player", "As we showed you.");
        (await _shop.Get<Handovers>().SaveNotesAsync(_shop.Desk, _job, null, notes.Form, None)).Must();
        var saved = await _shop.Get<Handovers>().NotesAsync(_shop.Desk, _job, None);
        Assert.Equal("As we showed you.", saved.Form.Sources[0].HowTo);
        Assert.Equal(told, saved.Suggested[0].HowTo);
    }

    [Fact]
    public async Task Without_words_on_how_to_switch_to_it_the_client_is_told_nothing_half()
    {
        await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Source, "Tape deck", new SourceData { OutputVolts = 1 }));

        Assert.Equal("", (await ViewAsync()).Sources.Single(source => source.Name == "Tape deck").Text);
    }

    [Fact]
    public async Task The_form_is_edited_under_its_version_and_a_technician_may_read_alone()
    {
        var form = new SourcePresetForm { SourcePartId = _player, Volume = VolumePlace.Source };
        (await Sources.SaveAsync(_shop.Desk, _job, null, form, None)).Must();
        var version = Assert.Single((await ViewAsync()).Sources).Version;
        (await Sources.SaveAsync(_shop.Owner, _job, version, form with { Volume = VolumePlace.Processor }, None)).Must();

        Assert.NotNull((await Sources.SaveAsync(_shop.Desk, _job, version, form, None)).Conflict);
        Assert.False((await Sources.SaveAsync(_shop.Desk, _job, null, new SourcePresetForm { SourcePartId = Guid.CreateVersion7() }, None)).Succeeded);
        await Assert.ThrowsAsync<NotAllowedException>(() => Sources.SaveAsync(_shop.Technician, _job, version, form, None));
        Assert.Single((await Sources.GetAsync(_shop.Technician, _job, UnitText.Invariant, None)).Sources);
    }

    [Fact]
    public async Task Two_outputs_to_two_inputs_are_compared_as_if_linked_so_and_nothing_is_changed()
    {
        var before = await _shop.Get<SignalLinks>().ListAsync(_shop.Desk, _job, None);
        var desk = await _shop.Get<SourceConnections>().DeskAsync(_shop.Desk, _job, None);
        var ways = Assert.Single(desk.SourceParts).Ways;
        var now = Assert.Single(ways, way => way.IsNow);
        var optical = Assert.Single(ways, way => way.Key.StartsWith("other:", StringComparison.Ordinal));

        var compared = (await CompareAsync(_shop.Desk, now.Key, optical.Key)).Must();

        // 2 V over 100 Ω into 10 kΩ are 1.980 V.
        Assert.Equal(1.980, compared.Result.First.InputVolts!.Value, 3);
        Assert.True(compared.Result.Second.IsDigital);
        Assert.Equal(Favour.Second, compared.Result.Points.Single(point => point.What == "Ground").Favour);
        // Two cables of 2 m each at 3 a metre against one of 2 m.
        Assert.Equal((12m, 6m, -6m), (compared.FirstPrice, compared.SecondPrice, compared.PriceDifference));
        Assert.Equal(before.Select(link => link.Version), (await _shop.Get<SignalLinks>().ListAsync(_shop.Desk, _job, None)).Select(link => link.Version));
        var part = (await _shop.Get<ShopFloor.Shop.Jobs.PartsList>().RowsAsync(_shop.Desk, _job, None)).Single(row => row.Id == _player);
        Assert.Equal(PortKind.UnbalancedLine, ((SourceData)part.Data).OutputKind);
    }

    [Fact]
    public async Task A_technician_sees_the_comparison_without_a_price()
    {
        var ways = Assert.Single((await _shop.Get<SourceConnections>().DeskAsync(_shop.Technician, _job, None)).SourceParts).Ways;

        var compared = (await CompareAsync(_shop.Technician, ways[0].Key, ways[1].Key)).Must();

        Assert.Null(compared.FirstPrice);
        Assert.Null(compared.PriceDifference);
        Assert.NotEmpty(compared.Result.Points);
    }

    [Fact]
    public async Task The_same_way_twice_or_one_that_is_gone_is_refused()
    {
        var key = Assert.Single((await _shop.Get<SourceConnections>().DeskAsync(_shop.Desk, _job, None)).SourceParts).Ways[0].Key;

        Assert.Contains("choose two", (await CompareAsync(_shop.Desk, key, key)).Message, StringComparison.Ordinal);
        Assert.Contains("not there any more", (await CompareAsync(_shop.Desk, key, "other:gone")).Message, StringComparison.Ordinal);
    }

    private Task<Outcome<ComparedConnections>> CompareAsync(Actor actor, string first, string second) =>
        _shop.Get<SourceConnections>().CompareAsync(actor, _job, _player, first, second, _cable, _cable, UnitText.Invariant, None);

    private Task<JobSourcesView> ViewAsync() => Sources.GetAsync(_shop.Desk, _job, UnitText.Invariant, None);

    private async Task LinkAsync(Guid to, int input, Guid from, int output) =>
        (await _shop.Get<SignalLinks>().LinkAsync(_shop.Desk, _job, SignalKind.Sound, to, input, Guid.Empty, new SignalLinkForm { FromPartId = from, FromOutput = output, LengthMeters = 2 }, None)).Must();
}
