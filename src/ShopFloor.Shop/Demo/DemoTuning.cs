using System.Globalization;
using System.Text;
using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Tuning;
using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Engineering.Tuning.Simulation;
using ShopFloor.Engineering.Tuning.Verification;
using ShopFloor.Engineering.Units;
using ShopFloor.Engineering.Waves;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Phases.Tuning.Presets;

namespace ShopFloor.Shop.Demo;

/// <summary>The estate is measured, tuned, and measured again: an invented cabin is played to, and all else is what the bench makes of the recordings.</summary>
internal static class DemoTuning
{
    private const double RecordedDecibels = -82;
    private const double NoiseDecibels = -78;
    private const double LeadSeconds = 0.0113;
    private static readonly MicrophonePlace[] _places = [MicrophonePlace.HeadMiddle, MicrophonePlace.LeftEar, MicrophonePlace.RightEar];
    private static readonly double[] _moved = [0, -0.05, 0.06];
    private static readonly double[] _hertz = [.. Enumerable.Range(0, 480).Select(n => 15 * Math.Pow(22_000 / 15.0, n / 479.0))];

    public static async Task TheEstateAsync(IServiceProvider services, DemoScript script, Guid job)
    {
        var (bench, presets) = (services.GetRequiredService<TuningBench>(), services.GetRequiredService<TuningPresets>());
        var channels = await services.GetRequiredService<TuningChannels>().ListAsync(script.Tarik, job, default);
        await DemoFactory.MeasureAsync(services, script, job);
        await MeasureAsync(services, script, job, channels, "", []);
        script.Wait(4);
        var facts = await bench.GetAsync(script.Tarik, job, ListeningSeat.Driver, default);
        var begun = facts.Begin(ProcessorProfiles.Generic) with { Note = "High-passes of the parts, nothing else" };
        var first = DemoScript.Must(await presets.SaveAsync(script.Tarik, job, begun, UnitText.Invariant, default));
        var kept = (await presets.GetAsync(script.Tarik, job, default)).Presets.Single();
        var target = TargetCurve.BuiltIn.First(curve => curve.Name == "Even slope");
        var draft = begun with { PresetId = kept.PresetId, BasedOn = first.Number, Target = target, Note = "Tuned from the measurements of three places" };
        var found = AutomaticTuning.Run(facts.Task(draft, 20, 0.015, 8));
        var tuned = DemoScript.Must(await presets.SaveAsync(script.Tarik, job, draft with { Channels = facts.Taken(draft, found.Preset.Channels) }, UnitText.Invariant, default));
        DemoScript.Must(await presets.PutInCarAsync(script.Tarik, tuned.VersionId, default));
        script.Wait(3);
        var inCar = (await presets.GetAsync(script.Tarik, job, default)).InCar ?? throw new InvalidOperationException("The preset was just put in the car.");
        await MeasureAsync(services, script, job, channels, PresetForm.Label(inCar.Name, inCar.Form.Number), inCar.Form.Channels);
        foreach (var point in ListeningChecklist.Points.Where(point => point.Id != "seat"))
        {
            DemoScript.Must(await presets.HearAsync(script.Mila, tuned.VersionId, new ListeningAnswer(point.Id, true), default));
        }
    }

    // The middle of the head with sweeps and a loopback, the rest as tables another program exported.
    private static async Task MeasureAsync(IServiceProvider services, DemoScript script, Guid job, IReadOnlyList<TuningChannel> channels, string preset, IReadOnlyList<ChannelSetting> settings)
    {
        var (files, measurements) = (services.GetRequiredService<JobFiles>(), services.GetRequiredService<TuningMeasurements>());
        foreach (var channel in channels)
        {
            var setting = settings.FirstOrDefault(one => one.Id == channel.Id);
            for (var place = 0; place < _places.Length; place++)
            {
                var driver = Heard(channel, place);
                var name = $"{channel.Name.Replace(", ", "-", StringComparison.Ordinal).Replace(' ', '-').ToLowerInvariant()}-{(setting is null ? "bare" : "tuned")}-{_places[place]}";
                var form = new MeasurementForm { ChannelId = channel.Id, Place = _places[place], Preset = preset };
                // After the tuning a loopback is needed where left and right are compared in time.
                if (place == 0 && (setting is null || channel.BandToHertz > 15_000))
                {
                    var sweep = new ExponentialSweep { FromHertz = Math.Round(channel.TestFromHertz), ToHertz = channel.Role == DriverRole.Subwoofer ? 1_000 : 20_000, Seconds = 1.5, LevelDecibelsFullScale = -20 };
                    var (microphone, loopback) = driver.Record(sweep, setting, LeadSeconds, RecordedDecibels, NoiseDecibels, name.Length);
                    var id = await KeepAsync(files, script, job, JobFileKind.Recording, $"{name}.wav", WaveFile.Write(new SampledSound(sweep.SampleRateHertz, [microphone, loopback]), 16));
                    form = form with { FileId = id, Source = MeasurementSource.Sweep, Sweep = sweep, LoopbackChannel = 1 };
                }
                else
                {
                    var table = Encoding.UTF8.GetBytes(Table(driver, setting));
                    var layout = ResponseTable.Propose(table).Layout ?? throw new InvalidOperationException("The demo's own table is not understood.");
                    form = form with { FileId = await KeepAsync(files, script, job, JobFileKind.MeasurementTable, $"{name}.txt", table), Source = MeasurementSource.Table, Layout = layout };
                }

                DemoScript.Must(await measurements.AddAsync(script.Tarik, job, form, default));
            }
        }
    }

    internal static async Task<Guid> KeepAsync(JobFiles files, DemoScript script, Guid job, JobFileKind kind, string name, byte[] content)
    {
        using var stream = new MemoryStream(content);
        return DemoScript.Must(await files.AddAsync(script.Tarik, job, kind, name, stream, default));
    }

    private static string Table(SimulatedDriver driver, ChannelSetting? setting)
    {
        var chain = setting?.Response(new FrequencyGrid(_hertz, ProcessorProfiles.Generic.SampleRateHertz));
        var lines = new StringBuilder("Freq(Hz)\tSPL(dB)\tPhase(degrees)\n");
        for (var n = 0; n < _hertz.Length; n++)
        {
            var value = driver.At(_hertz[n]) * (chain?[n] ?? 1);
            lines.Append(CultureInfo.InvariantCulture, $"{_hertz[n]:0.000}\t{RecordedDecibels + (20 * Math.Log10(value.Magnitude)):0.000}\t{value.Phase * 180 / Math.PI:0.000}\n");
        }

        return lines.ToString();
    }

    /// <summary>The cabin from the left front seat: the right is farther and a little duller.</summary>
    private static SimulatedDriver Heard(TuningChannel channel, int place)
    {
        var right = channel.Side == StageSide.Right;
        var (low, high, level, meters) = channel.Role switch
        {
            DriverRole.Subwoofer => (27.0, 240.0, 94.0, 2.35),
            DriverRole.Midbass => (62.0, right ? 5_200.0 : 5_500.0, right ? 87.0 : 88.0, right ? 1.46 : 1.05),
            DriverRole.Rear => (110, 16_000, 85, right ? 1.62 : 1.18),
            _ => (190.0, 24_000.0, right ? 88.5 : 90.0, right ? 1.38 : 0.93),
        };
        (double Hertz, double Decibels, double Q)[] modes = (channel.Role, right) switch
        {
            (DriverRole.Subwoofer, _) => [(41, 6, 4), (58, -4, 5)],
            (DriverRole.Midbass, false) => [(118, 4, 3), (310, -3, 4)],
            (DriverRole.Midbass, true) => [(131, 3, 3), (260, 4, 3)],
            (DriverRole.Rear, _) => [(700, 3, 3)],
            (_, false) => [(820, 3, 2), (3_300, 4, 2), (7_400, 3, 3)],
            _ => [(930, -3, 2), (2_700, -3, 2), (9_200, 3, 3)],
        };
        (double Milliseconds, double Decibels)[] ways = channel.Role == DriverRole.Subwoofer ? [(7.5, -12)] : right ? [(0.9, -15), (3.1, -17)] : [(1.1, -16), (2.7, -17)];
        // Moved sideways by a hand, the far side changes the other way round.
        var by = _moved[place] * (right ? -1 : channel.Side == StageSide.Left ? 1 : 0.2);
        return new SimulatedDriver
        {
            HighPassHertz = low, LowPassHertz = high, LevelDecibels = level, Meters = meters + by, ArrivalSeconds = (meters + by) / Air.Standard.SpeedMetersPerSecond,
            Modes = [.. modes.Select(mode => new SimulatedMode(mode.Hertz, mode.Decibels, mode.Q))],
            Reflections = [.. ways.Select((way, at) => new SimulatedReflection((way.Milliseconds * 1e-3) + (by * (at + 1) / Air.Standard.SpeedMetersPerSecond), way.Decibels))],
        };
    }
}
