using System.Globalization;
using System.Text;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Engineering.Tuning.Simulation;
using ShopFloor.Engineering.Waves;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Phases.Tuning.Placement;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests.Phases.Tuning;

public sealed class TuningMeasurementsTests : IAsyncLifetime
{
    private const int Rate = 48_000;
    private static readonly CancellationToken None = CancellationToken.None;
    private static readonly ExponentialSweep Sweep = new() { FromHertz = 100, ToHertz = 20_000, Seconds = 2, SampleRateHertz = Rate, LevelDecibelsFullScale = -12 };
    private readonly TestShop _shop = new();
    private Guid _job;

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        var processor = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Processor, "Processor", new ProcessorData { Inputs = 2, Outputs = 4, OutputVolts = 4, SampleRateKilohertz = 96, Bits = 24 }));
        var amplifier = await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => part.Data = new AmplifierData { Channels = 4, WattsAtFourOhms = 100, WattsAtTwoOhms = 150 }));
        var tweeters = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Loudspeaker, "Tweeter", new LoudspeakerData { SizeMillimeters = 25, NominalOhms = 4, Coils = 1, RatedWatts = 40, LowestHertz = 2_000, HighPassHertz = 3_000 }, part =>
        {
            part.Quantity = 2;
            part.Zone = "pillar-left";
        }));
        var woofer = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Loudspeaker, "Woofer", new LoudspeakerData { SizeMillimeters = 250, NominalOhms = 4, Coils = 2, RatedWatts = 300 }, part => part.Zone = VehicleZones.BootFloorRight));
        for (var channel = 0; channel < 4; channel++)
        {
            await LinkAsync(amplifier, channel, processor, channel);
        }

        await LinkAsync(tweeters, 0, amplifier, 0);
        await LinkAsync(tweeters, 1, amplifier, 1);
        await LinkAsync(woofer, 0, amplifier, 2);
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Channels_are_the_outputs_of_the_processor_with_side_role_and_lowest_frequency_of_what_they_end_at()
    {
        var channels = await _shop.Get<TuningChannels>().ListAsync(_shop.Technician, _job, None);

        Assert.Equal(["Subwoofer", "Tweeter, left", "Tweeter, right"], channels.Select(channel => channel.Name));
        Assert.Equal([2, 0, 1], channels.Select(channel => channel.ProcessorOutput!.Value));
        Assert.Equal([StageSide.Both, StageSide.Left, StageSide.Right], channels.Select(channel => channel.Side));
        Assert.Equal([null, 2_000.0, 2_000.0], channels.Select(channel => channel.LowestHertz));
        Assert.Equal(channels[2].Id, channels[1].PairId);
    }

    [Fact]
    public async Task A_sweep_for_a_channel_never_begins_below_what_its_loudspeaker_bears()
    {
        var channels = await _shop.Get<TuningChannels>().ListAsync(_shop.Technician, _job, None);

        Assert.Equal(2_000, MeasurementDrafts.SweepFor(channels[1]).FromHertz);
        Assert.All(channels, channel => Assert.Empty(MeasurementDrafts.SweepFor(channel).Validate()));
    }

    [Fact]
    public async Task A_recording_with_a_loopback_tells_the_delay_and_the_polarity_that_were_put_into_it()
    {
        // 144 samples at 48 kHz are 3 ms; the sign is turned; the recording begins half a second before the sweep.
        var form = await RecordedAsync("Tweeter, left", delaySamples: 144, gain: -0.5, leadSamples: 24_000) with { LoopbackChannel = 1 };
        (await _shop.Get<TuningMeasurements>().AddAsync(_shop.Technician, _job, form, None)).Must();

        var response = Assert.Single(await ResponsesAsync());
        var place = Assert.Single(response.Places);

        Assert.Equal(ArrivalClock.Loopback, place.Clock);
        Assert.Equal(0.003, place.ArrivalSeconds!.Value, 5);
        Assert.True(place.IsInverted);
        // Half the voltage everywhere is −6.02 dB.
        Assert.Equal(-6.02, place.Response.DecibelsAt(2_000), 1);
        Assert.Equal(0, Math.Cos(place.Response.PhaseAt(2_000)) + 1, 2);
    }

    [Fact]
    public async Task A_recording_started_by_hand_gives_the_same_level_and_says_that_its_clock_is_its_own()
    {
        var form = await RecordedAsync("Tweeter, right", delaySamples: 96, gain: 0.5, leadSamples: 30_000);
        (await _shop.Get<TuningMeasurements>().AddAsync(_shop.Technician, _job, form, None)).Must();

        var place = Assert.Single(Assert.Single(await ResponsesAsync()).Places);

        Assert.Equal(ArrivalClock.Recording, place.Clock);
        Assert.False(place.IsInverted);
        Assert.Equal((30_000 + 96) / (double)Rate, place.ArrivalSeconds!.Value, 4);
        Assert.Equal(-6.02, place.Response.DecibelsAt(2_000), 1);
    }

    [Fact]
    public async Task Tables_of_two_places_are_averaged_by_power_and_keep_their_spread()
    {
        await TableAsync(MicrophonePlace.HeadMiddle, 80);
        await TableAsync(MicrophonePlace.LeftEar, 86);

        var response = Assert.Single(await ResponsesAsync());

        Assert.Equal([MicrophonePlace.HeadMiddle, MicrophonePlace.LeftEar], response.Places.Select(place => place.Place));
        // 10·log10((10^8 + 10^8.6)/2) = 83.96 dB; the deviation of 80 and 86 is 6/√2.
        Assert.Equal(83.96, response.Mean.DecibelsAt(1_000), 2);
        Assert.Equal(6 / Math.Sqrt(2), response.SpreadDecibels[0], 6);
        Assert.Null(response.Places[0].ArrivalSeconds);
    }

    [Fact]
    public async Task A_file_that_is_no_measurement_is_refused_by_name_and_not_kept()
    {
        var file = await FileAsync(JobFileKind.MeasurementTable, "notes.txt", "nothing to see\n"u8.ToArray());
        var layout = new ResponseTableLayout { Separator = ColumnSeparator.Tab };

        var outcome = await _shop.Get<TuningMeasurements>().AddAsync(_shop.Technician, _job, new MeasurementForm { ChannelId = await ChannelAsync("Subwoofer"), FileId = file, Source = MeasurementSource.Table, Layout = layout }, None);

        Assert.Contains("notes.txt", Assert.Single(outcome.Problems).Message, StringComparison.Ordinal);
        Assert.Empty((await _shop.Get<TuningMeasurements>().ListAsync(_shop.Desk, _job, None)).Rows);
    }

    [Fact]
    public async Task A_number_that_is_none_is_named_with_its_line()
    {
        var file = await FileAsync(JobFileKind.MeasurementTable, "holes.csv", "Hz,dB\n20,80\n30,NaN\n40,82\n80,80\n"u8.ToArray());
        var form = new MeasurementForm { ChannelId = await ChannelAsync("Subwoofer"), FileId = file, Source = MeasurementSource.Table, Layout = new ResponseTableLayout { Separator = ColumnSeparator.Comma } };

        var outcome = await _shop.Get<TuningMeasurements>().AddAsync(_shop.Technician, _job, form, None);

        Assert.Contains("holes.csv", outcome.Message, StringComparison.Ordinal);
        Assert.Contains("ine 3", outcome.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_recording_that_is_cut_off_waits_with_the_byte_where_it_ends_and_cannot_be_kept()
    {
        var whole = WaveFile.Write(new SampledSound(Rate, [new double[4_000]]), 16);
        await FileAsync(JobFileKind.Recording, "cut.wav", whole[..(whole.Length / 2)]);

        var draft = Assert.Single(await _shop.Get<MeasurementDrafts>().ListAsync(_shop.Technician, _job, None));

        Assert.Contains($"(byte {whole.Length / 2})", draft.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_recording_without_loopback_says_that_the_clocks_were_not_compared_and_one_with_it_does_not()
    {
        var alone = await RecordedAsync("Tweeter, left", delaySamples: 96, gain: 0.5, leadSamples: 1_000);

        var without = await _shop.Get<TuningMeasurements>().TryAsync(_shop.Technician, _job, alone, None);
        var with = await _shop.Get<TuningMeasurements>().TryAsync(_shop.Technician, _job, alone with { LoopbackChannel = 1 }, None);

        Assert.Contains(without.Reading!.Findings, finding => finding.Code == "clocks-not-compared");
        Assert.DoesNotContain(with.Reading!.Findings, finding => finding.SubjectId == "clocks");
    }

    [Fact]
    public async Task A_file_waits_with_its_columns_proposed_until_a_measurement_is_made_of_it()
    {
        await FileAsync(JobFileKind.MeasurementTable, "tweeter_left.txt", Encoding.UTF8.GetBytes("Freq(Hz)\tSPL(dB)\n1000\t80\n2000\t81\n4000\t82\n"));

        var draft = Assert.Single(await _shop.Get<MeasurementDrafts>().ListAsync(_shop.Technician, _job, None));
        Assert.Equal(await ChannelAsync("Tweeter, left"), draft.Suggested.ChannelId);
        Assert.Equal((0, 1), (draft.Suggested.Layout!.FrequencyColumn, draft.Suggested.Layout.LevelColumn));
        (await _shop.Get<TuningMeasurements>().AddAsync(_shop.Technician, _job, draft.Suggested, None)).Must();

        Assert.Empty(await _shop.Get<MeasurementDrafts>().ListAsync(_shop.Technician, _job, None));
        Assert.Equal("Tom Tech", Assert.Single((await _shop.Get<TuningMeasurements>().ListAsync(_shop.Technician, _job, None)).Rows).Form.MeasuredBy);
    }

    [Fact]
    public async Task A_recording_waits_with_the_sweep_it_holds_and_its_loopback_proposed()
    {
        var tweeter = (await _shop.Get<TuningChannels>().ListAsync(_shop.Technician, _job, None)).Single(channel => channel.Name == "Tweeter, right");
        var played = MeasurementDrafts.SweepFor(tweeter) with { Seconds = 5 };
        var driver = new SimulatedDriver { HighPassHertz = 1_300, LowPassHertz = 24_000, LevelDecibels = 0, Meters = 1, ArrivalSeconds = 0.003, Reflections = [new(0.0011, -8)] };
        var (microphone, loopback) = driver.Record(played, null, 0.3, 0, -60, 1);
        await FileAsync(JobFileKind.Recording, "take.wav", WaveFile.Write(new SampledSound(Rate, [loopback, microphone]), 24));

        var draft = Assert.Single(await _shop.Get<MeasurementDrafts>().ListAsync(_shop.Technician, _job, None));

        // The name tells no channel, for which the usual sweep would be 20 Hz to 20 kHz in 10 s.
        Assert.Equal((2_000, 20_000, 5), (draft.Suggested.Sweep!.FromHertz, draft.Suggested.Sweep.ToHertz, draft.Suggested.Sweep.Seconds));
        Assert.Equal((0, 1), (draft.Suggested.LoopbackChannel, draft.Suggested.WaveChannel));
        var whole = draft.Suggested with { ChannelId = tweeter.Id };
        Assert.DoesNotContain((await _shop.Get<TuningMeasurements>().TryAsync(_shop.Technician, _job, whole, None)).Reading!.Findings, finding => finding.Severity == Severity.Stop);

        var wrong = await _shop.Get<TuningMeasurements>().TryAsync(_shop.Technician, _job, whole with { Sweep = whole.Sweep! with { FromHertz = 200 } }, None);
        Assert.Contains(wrong.Reading!.Findings, finding => finding is { Code: "sweep-other", Severity: Severity.Stop });
    }

    [Fact]
    public async Task A_placement_begins_with_the_loudspeakers_where_their_parts_sit_and_can_be_worked_out()
    {
        var form = (await _shop.Get<PlacementStudies>().GetAsync(_shop.Technician, _job, None)).Suggested;

        Assert.Equal(["Tweeter, left", "Tweeter, right"], form.Drivers.Select(driver => driver.Name));
        Assert.True(form.Drivers[0].Place.Y > 0 && form.Drivers[1].Place.Y < 0);
        Assert.Empty(form.Problems());
    }

    [Fact]
    public async Task A_file_of_another_job_is_refused_although_it_was_read_there()
    {
        var form = await RecordedAsync("Tweeter, left", delaySamples: 10, gain: 0.5, leadSamples: 0) with { LoopbackChannel = 1 };
        var measurements = _shop.Get<TuningMeasurements>();
        Assert.NotNull((await measurements.TryAsync(_shop.Technician, _job, form, None)).Reading);
        var other = await _shop.OpenJobAsync();

        var (reading, problem) = await measurements.TryAsync(_shop.Technician, other, form, None);

        Assert.Null(reading);
        Assert.Equal("The file of this measurement is not on this job.", problem);
    }

    private Task<List<ChannelResponse>> ResponsesAsync() => _shop.Get<TuningMeasurements>().ResponsesAsync(_shop.Technician, _job, ListeningSeat.Driver, "", None);

    private async Task<string> ChannelAsync(string name) => (await _shop.Get<TuningChannels>().ListAsync(_shop.Technician, _job, None)).Single(channel => channel.Name == name).Id;

    private async Task<MeasurementForm> RecordedAsync(string channel, int delaySamples, double gain, int leadSamples)
    {
        var played = Sweep.Samples();
        var (heard, loopback) = (new double[leadSamples + played.Length + Rate], new double[leadSamples + played.Length + Rate]);
        for (var n = 0; n < played.Length; n++)
        {
            heard[leadSamples + delaySamples + n] = gain * played[n];
            loopback[leadSamples + n] = played[n];
        }

        var file = await FileAsync(JobFileKind.Recording, "take.wav", WaveFile.Write(new SampledSound(Rate, [heard, loopback]), 24));
        return new MeasurementForm { ChannelId = await ChannelAsync(channel), FileId = file, Source = MeasurementSource.Sweep, Sweep = Sweep };
    }

    private async Task TableAsync(MicrophonePlace place, double level)
    {
        var text = new StringBuilder();
        for (var hertz = 20.0; hertz < 20_000; hertz *= 1.1)
        {
            text.Append(CultureInfo.InvariantCulture, $"{hertz:0.###}\t{level}\n");
        }

        var file = await FileAsync(JobFileKind.MeasurementTable, $"{place}.txt", Encoding.UTF8.GetBytes(text.ToString()));
        var form = new MeasurementForm { ChannelId = await ChannelAsync("Subwoofer"), Place = place, FileId = file, Source = MeasurementSource.Table, Layout = new ResponseTableLayout { Separator = ColumnSeparator.Tab } };
        (await _shop.Get<TuningMeasurements>().AddAsync(_shop.Technician, _job, form, None)).Must();
    }

    private async Task<Guid> FileAsync(JobFileKind kind, string name, byte[] bytes)
    {
        var outcome = await _shop.Get<JobFiles>().AddAsync(_shop.Technician, _job, kind, name, new MemoryStream(bytes), None);
        Assert.True(outcome.Succeeded, outcome.Message);
        return outcome.Value;
    }

    private async Task LinkAsync(Guid to, int input, Guid from, int output) =>
        (await _shop.Get<SignalLinks>().LinkAsync(_shop.Desk, _job, SignalKind.Sound, to, input, Guid.Empty, new SignalLinkForm { FromPartId = from, FromOutput = output, LengthMeters = 5 }, None)).Must();
}
