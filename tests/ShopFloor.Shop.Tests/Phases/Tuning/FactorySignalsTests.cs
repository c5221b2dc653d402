using System.Globalization;
using System.Text;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Engineering.Units;
using ShopFloor.Engineering.Waves;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Tuning.Factory;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Phases.Tuning;

/// <summary>A factory amplifier with two outputs of each side feeds a processor; what it does is made here, so that what is found can be held against it.</summary>
public sealed class FactorySignalsTests : IAsyncLifetime
{
    private const int Rate = 48_000;
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private Guid _factory;

    private FactoryMeasurements Measurements => _shop.Get<FactoryMeasurements>();

    private FactorySignals Signals => _shop.Get<FactorySignals>();

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        var radio = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Source, "Radio", new SourceData { OutputVolts = 2 }));
        _factory = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Processor, "Factory amplifier", new ProcessorData { Use = ProcessorUse.FactoryAmplifier, Inputs = 2, Outputs = 4, OutputKind = PortKind.SpeakerLevel, OutputVolts = 10 }));
        var processor = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Processor, "Processor", new ProcessorData { Inputs = 4, InputKind = PortKind.SpeakerLevel, Outputs = 4, OutputVolts = 4, SampleRateKilohertz = 96, Bits = 24 }));
        var amplifier = await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => part.Data = new AmplifierData { Channels = 2, WattsAtFourOhms = 100 }));
        var tweeters = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Loudspeaker, "Tweeter", new LoudspeakerData { SizeMillimeters = 25, NominalOhms = 4, Coils = 1, RatedWatts = 40 }, part =>
        {
            part.Quantity = 2;
            part.Zone = "pillar-left";
        }));
        for (var side = 0; side < 2; side++)
        {
            await LinkAsync(_factory, side, radio, side);
            await LinkAsync(processor, side, _factory, side);
            await LinkAsync(processor, side + 2, _factory, side + 2);
            await LinkAsync(amplifier, side, processor, side);
            await LinkAsync(tweeters, side, amplifier, side);
        }
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task The_outputs_of_the_factory_amplifier_are_offered_by_name_with_their_side_and_the_input_they_feed()
    {
        var offered = (await Measurements.ListAsync(_shop.Technician, _job, None)).Offered;

        // Straight through by number: the radio's left reaches outputs 1 and 3, its right 2 and 4.
        Assert.Equal(["Factory amplifier, output 1", "Factory amplifier, output 2", "Factory amplifier, output 3", "Factory amplifier, output 4"], offered.Select(row => row.Output.Name));
        Assert.Equal([ImageSide.Left, ImageSide.Right, ImageSide.Left, ImageSide.Right], offered.Select(row => row.Output.Side));
        Assert.Equal("Processor, input 3", offered[2].Feeds);
    }

    [Fact]
    public async Task Outputs_of_one_side_are_joined_and_what_undoes_them_is_named_by_the_inputs()
    {
        await MeasureAsync();

        var view = await Signals.GetAsync(_shop.Technician, _job, None);
        var sides = (await Signals.ComputeAsync(_shop.Technician, view, view.Choice, view.Profile, UnitText.Invariant, null, None)).Must();

        // 96 kHz is what the parts list says of the processor.
        Assert.Equal(96_000, view.Profile.SampleRateHertz);
        Assert.Equal([ImageSide.Left, ImageSide.Right], sides.Select(side => side.Side));
        Assert.All(sides, side => Assert.Equal(2, side.Outputs.Count));
        // 1.25 ms is half a period of 400 Hz, where the outputs are divided.
        Assert.Equal(1.25e-3, sides[0].Note.ApartSeconds, 0.05e-3);
        Assert.True(sides[0].Note.PlainLossDecibels > 15);
        Assert.True(sides[0].Note.JoinedLossDecibels < 1, $"{sides[0].Note.JoinedLossDecibels} dB");
        Assert.Contains(sides[0].Result.Equaliser!.Filters, filter => Math.Abs(filter.Hertz - 110) < 10 && Math.Abs(filter.GainDecibels + 5) < 1);
        var inputs = FactorySideView.Inputs(sides);
        Assert.Equal("Processor, input 1, from Factory amplifier, output 1", inputs[0].Name);
        Assert.Equal(1.25e-3, inputs[0].DelaySeconds - inputs[1].DelaySeconds, 0.05e-3);
        Assert.Equal([false, false, false, true], inputs.Select(input => input.Inverted));
        Assert.Contains(await _shop.Get<IFactorySound>().LinesAsync(_shop.Technician, _job, UnitText.Invariant, None), line => line.StartsWith("Left: 2 outputs hold ", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_measured_factory_output_is_no_tuned_channel_anywhere()
    {
        var channels = await _shop.Get<TuningChannels>().ListAsync(_shop.Technician, _job, None);
        await MeasureAsync();

        Assert.Equal(channels.Select(channel => channel.Id), (await _shop.Get<TuningChannels>().ListAsync(_shop.Technician, _job, None)).Select(channel => channel.Id));
        Assert.Empty((await _shop.Get<TuningMeasurements>().ListAsync(_shop.Technician, _job, None)).Rows);
        Assert.Empty(await _shop.Get<TuningMeasurements>().ResponsesAsync(_shop.Technician, _job, ListeningSeat.Driver, "", None));
        var analysis = await _shop.Get<MeasurementAnalysis>().GetAsync(_shop.Technician, _job, ListeningSeat.Driver, "", None);
        Assert.Empty(analysis.Responses);
        Assert.Empty(analysis.Single);
        Assert.Empty(analysis.Problems);
        var facts = await _shop.Get<TuningBench>().GetAsync(_shop.Technician, _job, ListeningSeat.Driver, None);
        Assert.Empty(facts.Drivers);
        Assert.Equal(channels.Count, facts.Missing.Count);
        Assert.Empty((await _shop.Get<TuningBench>().VerifyAsync(_shop.Technician, _job, ListeningSeat.Driver, UnitText.Invariant, None)).Findings);
        // Nor does its file wait a second time.
        Assert.Empty(await _shop.Get<MeasurementDrafts>().ListAsync(_shop.Technician, _job, None));
    }

    [Fact]
    public async Task The_signal_path_names_the_amplifier_until_an_output_of_it_is_measured()
    {
        Assert.Contains((await PathAsync()).Findings, finding => finding is { Code: "factory-not-measured", Severity: ShopFloor.Engineering.Explained.Severity.Note });

        await MeasureAsync();

        Assert.DoesNotContain((await PathAsync()).Findings, finding => finding.Code == "factory-not-measured");
    }

    [Fact]
    public async Task A_recording_with_the_reference_is_taken_and_one_without_is_refused_by_name()
    {
        var sweep = new ExponentialSweep { FromHertz = 20, ToHertz = 20_000, Seconds = 2, SampleRateHertz = Rate, LevelDecibelsFullScale = -12 };
        var played = sweep.Samples();
        var (heard, reference) = (new double[played.Length + Rate], new double[played.Length + Rate]);
        for (var n = 0; n < played.Length; n++)
        {
            // 96 samples are 2 ms.
            heard[n + 96] = 0.5 * played[n];
            reference[n] = played[n];
        }

        var file = await FileAsync(JobFileKind.Recording, "take.wav", WaveFile.Write(new SampledSound(Rate, [heard, reference]), 24));
        var form = new FactoryMeasurementForm { Output = Ref(0), FileId = file, Source = MeasurementSource.Sweep, Sweep = sweep };

        var refused = await Measurements.AddAsync(_shop.Technician, _job, form, None);
        Assert.Equal("LoopbackChannel", Assert.Single(refused.Problems).Field);

        (await Measurements.AddAsync(_shop.Technician, _job, form with { LoopbackChannel = 1 }, None)).Must();
        var output = Assert.Single((await Signals.GetAsync(_shop.Technician, _job, None)).Outputs);
        Assert.Equal((ArrivalClock.Loopback, ImageSide.Left), (output.Clock, output.Side));
        Assert.Equal(0.002, output.Measured.ArrivalSeconds, 5);
        Assert.Equal(-6.02, output.Measured.Response.DecibelsAt(1_000), 1);
    }

    [Fact]
    public async Task Outputs_that_share_no_clock_are_not_added_up_and_say_why()
    {
        await A_recording_with_the_reference_is_taken_and_one_without_is_refused_by_name();
        await AddTableAsync(Ref(2), High(1.25e-3, false));
        var view = await Signals.GetAsync(_shop.Technician, _job, None);

        var refused = await Signals.ComputeAsync(_shop.Technician, view, view.Choice, view.Profile, UnitText.Invariant, null, None);
        Assert.Contains("Not on one clock: Factory amplifier, output 1 (from the loopback), Factory amplifier, output 3 (as the file says)", refused.Message, StringComparison.Ordinal);

        var alone = await Signals.ComputeAsync(_shop.Technician, view, view.Choice with { LeftOut = [view.Outputs[1].Key] }, view.Profile, UnitText.Invariant, null, None);
        Assert.Single(Assert.Single(alone.Must()).Outputs);
    }

    [Theory]
    [InlineData("", ImageSide.Left, "Name")]
    [InlineData("Front left", ImageSide.Both, "Side")]
    public async Task A_typed_output_needs_a_name_and_a_side(string name, ImageSide side, string field)
    {
        var form = await TableFormAsync(new FactoryOutputRef { Name = name, Side = side }, Low());

        Assert.Equal(field, Assert.Single((await Measurements.AddAsync(_shop.Technician, _job, form, None)).Problems).Field);
    }

    [Fact]
    public async Task Levels_alone_and_outputs_that_are_not_there_are_refused()
    {
        var form = await TableFormAsync(Ref(0), Low());

        var flat = await Measurements.AddAsync(_shop.Technician, _job, form with { Layout = form.Layout! with { PhaseColumn = null } }, None);
        var gone = await Measurements.AddAsync(_shop.Technician, _job, form with { Output = form.Output with { Output = 9 } }, None);
        var noise = await Measurements.AddAsync(_shop.Technician, _job, form with { Source = MeasurementSource.PinkNoise }, None);

        Assert.Contains("no phase", flat.Message, StringComparison.Ordinal);
        Assert.Contains("output 10, is not among the factory outputs", gone.Message, StringComparison.Ordinal);
        Assert.Contains("Noise has no phase", noise.Message, StringComparison.Ordinal);
        Assert.Empty((await Measurements.ListAsync(_shop.Technician, _job, None)).Rows);
    }

    [Fact]
    public async Task Who_may_not_work_on_jobs_neither_measures_nor_decides()
    {
        var reader = _shop.Technician with { OnlyPermissions = new HashSet<Permission> { Permission.SeeJobs } };
        var form = await TableFormAsync(Ref(0), Low());
        var view = await Signals.GetAsync(reader, _job, None);

        await Assert.ThrowsAsync<NotAllowedException>(() => Measurements.AddAsync(reader, _job, form, None));
        await Assert.ThrowsAsync<NotAllowedException>(() => Signals.ChooseAsync(reader, _job, view, view.Choice, None));
    }

    [Fact]
    public async Task A_choice_is_kept_for_everybody_and_a_late_one_meets_the_other()
    {
        var first = await Signals.GetAsync(_shop.Technician, _job, None);
        Assert.Equal("Filters", Assert.Single((await Signals.ChooseAsync(_shop.Technician, _job, first, first.Choice with { Filters = 99 }, None)).Problems).Field);
        (await Signals.ChooseAsync(_shop.Technician, _job, first, first.Choice with { Filters = 4 }, None)).Must();
        var second = await Signals.GetAsync(_shop.Owner, _job, None);
        Assert.Equal(4, second.Choice.Filters);
        (await Signals.ChooseAsync(_shop.Owner, _job, second, second.Choice with { Filters = 5 }, None)).Must();

        Assert.NotNull((await Signals.ChooseAsync(_shop.Technician, _job, second, second.Choice with { Filters = 6 }, None)).Conflict);
    }

    [Fact]
    public async Task Inputs_are_kept_in_the_preset_on_its_steps_shown_on_its_sheet_and_brought_back()
    {
        await MeasureAsync();
        var view = await Signals.GetAsync(_shop.Technician, _job, None);
        var sides = (await Signals.ComputeAsync(_shop.Technician, view, view.Choice, view.Profile, UnitText.Invariant, null, None)).Must();
        var presets = _shop.Get<TuningPresets>();
        var draft = new PresetDraft { Name = "Seat", Profile = ProcessorProfiles.Generic, Target = TargetCurve.BuiltIn[0], Channels = [new ChannelSetting { Id = "t", Name = "Tweeter, left" }] };
        (await presets.SaveAsync(_shop.Technician, _job, draft, UnitText.Invariant, None)).Must();
        var first = (await presets.GetAsync(_shop.Technician, _job, None)).Presets.Single();

        var kept = (await presets.SaveAsync(
            _shop.Technician, _job, draft with { PresetId = first.PresetId, BasedOn = 1, Inputs = FactorySideView.Inputs(sides), Factory = [.. sides.Select(side => side.Note)] }, UnitText.Invariant, None)).Must();
        (await presets.RestoreAsync(_shop.Technician, first.Latest.Id, UnitText.Invariant, None)).Must();

        var versions = (await presets.GetAsync(_shop.Technician, _job, None)).Presets.Single().Versions;
        Assert.Equal([0, 4, 0], versions.Select(version => version.Form.Inputs.Count));
        Assert.Equal(2, versions[1].Form.Factory.Count);
        // 48 kHz: delays are whole samples.
        Assert.All(versions[1].Form.Inputs, input => Assert.Equal(Math.Round(input.DelaySeconds * 48_000), input.DelaySeconds * 48_000, 6));
        Assert.Equal(4, TuningPresets.Between(versions[2], versions[1]).Count(change => change.Field == "input"));
        Assert.Empty(TuningPresets.Between(versions[2], versions[0]));
        var sheet = (await presets.SheetAsync(_shop.Technician, _job, kept.VersionId, None))!.Sheet;
        Assert.Contains("Input: Processor, input 1, from Factory amplifier, output 1", sheet.ToText(), StringComparison.Ordinal);
        (await presets.PutInCarAsync(_shop.Technician, versions[1].Id, None)).Must();
        Assert.Equal(48_000, (await Signals.GetAsync(_shop.Technician, _job, None)).Profile.SampleRateHertz);
    }

    private static FactoryOutputRef Name(string name, ImageSide side) => new() { Name = name, Side = side };

    private FactoryOutputRef Ref(int output) => Name("", ImageSide.Both) with { PartId = _factory, Output = output };

    private static ChannelSetting Low() => new()
    {
        Id = "low", Name = "Low", DelaySeconds = 0.002, LowPass = new Crossover(CrossoverShape.LinkwitzRiley, 400, 24), Filters = [new FilterSetting { Kind = FilterKind.Peaking, Hertz = 110, GainDecibels = 5, Q = 1.2 }],
    };

    private static ChannelSetting High(double later, bool inverted) => new() { Id = "high", Name = "High", DelaySeconds = 0.002 + later, Inverted = inverted, HighPass = new Crossover(CrossoverShape.LinkwitzRiley, 400, 24) };

    private async Task MeasureAsync()
    {
        await AddTableAsync(Ref(0), Low());
        await AddTableAsync(Ref(2), High(1.25e-3, false));
        await AddTableAsync(Ref(1), Low());
        await AddTableAsync(Ref(3), High(0, true));
    }

    private async Task AddTableAsync(FactoryOutputRef output, ChannelSetting does) => (await Measurements.AddAsync(_shop.Technician, _job, await TableFormAsync(output, does), None)).Must();

    private async Task<FactoryMeasurementForm> TableFormAsync(FactoryOutputRef output, ChannelSetting does)
    {
        var grid = FrequencyGrid.LogSpaced(20, 20_000, 300, 96_000);
        var text = new StringBuilder("Hz\tdB\tdegrees\n");
        foreach (var (hertz, value) in grid.Hertz.Zip(does.Response(grid)))
        {
            text.Append(CultureInfo.InvariantCulture, $"{hertz:0.000}\t{20 * Math.Log10(value.Magnitude):0.0000}\t{value.Phase * 180 / Math.PI:0.0000}\n");
        }

        return new FactoryMeasurementForm
        {
            Output = output, Source = MeasurementSource.Table, Layout = new ResponseTableLayout { Separator = ColumnSeparator.Tab, FrequencyColumn = 0, LevelColumn = 1, PhaseColumn = 2 },
            FileId = await FileAsync(JobFileKind.MeasurementTable, $"{output.Output}.txt", Encoding.UTF8.GetBytes(text.ToString())),
        };
    }

    private Task<SignalPathView> PathAsync() => _shop.Get<SignalPaths>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None);

    private async Task<Guid> FileAsync(JobFileKind kind, string name, byte[] bytes) => (await _shop.Get<JobFiles>().AddAsync(_shop.Technician, _job, kind, name, new MemoryStream(bytes), None)).Must();

    private async Task LinkAsync(Guid to, int input, Guid from, int output) =>
        (await _shop.Get<SignalLinks>().LinkAsync(_shop.Desk, _job, SignalKind.Sound, to, input, Guid.Empty, new SignalLinkForm { FromPartId = from, FromOutput = output, LengthMeters = 5 }, None)).Must();
}
