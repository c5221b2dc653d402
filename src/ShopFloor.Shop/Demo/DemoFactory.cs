using System.Globalization;
using System.Numerics;
using System.Text;
using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Tuning.Factory;
using ShopFloor.Shop.Phases.Tuning.Measurements;

namespace ShopFloor.Shop.Demo;

/// <summary>The estate's factory amplifier, invented: a low and a high output of each side, divided at 350 Hz, equalised, and not together in time.</summary>
internal static class DemoFactory
{
    private const double RateHertz = 96_000;
    private const double SharedSeconds = 0.0041;
    private static readonly FrequencyGrid _grid = new([.. Enumerable.Range(0, 300).Select(n => 18 * Math.Pow(21_500 / 18.0, n / 299.0))], RateHertz);

    /// <summary>Tables with phase, as a program exports them that measured all outputs against the played signal.</summary>
    public static async Task MeasureAsync(IServiceProvider services, DemoScript script, Guid job)
    {
        var (files, measurements) = (services.GetRequiredService<JobFiles>(), services.GetRequiredService<FactoryMeasurements>());
        foreach (var side in new[] { ImageSide.Left, ImageSide.Right })
        {
            foreach (var output in new[] { Low(side), High(side) })
            {
                var table = Encoding.UTF8.GetBytes(Table(output));
                var layout = ResponseTable.Propose(table).Layout ?? throw new InvalidOperationException("The demo's own table is not understood.");
                var form = new FactoryMeasurementForm
                {
                    Output = new FactoryOutputRef { Name = output.Name, Side = side }, Source = MeasurementSource.Table, Layout = layout,
                    FileId = await DemoTuning.KeepAsync(files, script, job, JobFileKind.MeasurementTable, $"{output.Name.Replace(", ", "-", StringComparison.Ordinal).Replace(' ', '-').ToLowerInvariant()}.txt", table),
                };
                DemoScript.Must(await measurements.AddAsync(script.Tarik, job, form, default));
            }
        }
    }

    private static ChannelSetting Low(ImageSide side) => new()
    {
        Id = "low", Name = $"Front door {Word(side)}, factory amplifier", DelaySeconds = SharedSeconds, GainDecibels = -3,
        HighPass = new Crossover(CrossoverShape.Butterworth, 38, 12), LowPass = new Crossover(CrossoverShape.LinkwitzRiley, 350, 24),
        Filters = [Bell(95, side == ImageSide.Left ? 5 : 4.5, 1.4), Bell(220, -3, 2)],
    };

    // The right one waits longer for the driver's seat.
    private static ChannelSetting High(ImageSide side) => new()
    {
        Id = "high", Name = $"Dash and pillar {Word(side)}, factory amplifier", DelaySeconds = SharedSeconds + (side == ImageSide.Left ? 1.15e-3 : 0.75e-3), GainDecibels = -4,
        HighPass = new Crossover(CrossoverShape.LinkwitzRiley, 350, 24), Filters = [Bell(2_600, -4.5, 1.2), Bell(9_500, 3.5, 1.6)],
    };

    private static string Word(ImageSide side) => side == ImageSide.Left ? "left" : "right";

    private static FilterSetting Bell(double hertz, double decibels, double q) => new() { Kind = FilterKind.Peaking, Hertz = hertz, GainDecibels = decibels, Q = q };

    private static string Table(ChannelSetting output)
    {
        var lines = new StringBuilder("Freq(Hz)\tLevel(dB)\tPhase(degrees)\n");
        foreach (var (hertz, value) in _grid.Hertz.Zip(output.Response(_grid)))
        {
            // A recorder's floor: what lies lower is noise there.
            var heard = value + new Complex(1e-4, 0);
            lines.Append(CultureInfo.InvariantCulture, $"{hertz:0.000}\t{20 * Math.Log10(heard.Magnitude):0.000}\t{heard.Phase * 180 / Math.PI:0.000}\n");
        }

        return lines.ToString();
    }
}
