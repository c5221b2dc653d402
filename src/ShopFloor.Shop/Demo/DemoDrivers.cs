using System.Globalization;
using System.Text;
using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Shop.Demo;

/// <summary>The estate's woofer on the bench: an invented one, near its sheet as real ones are, swept with noise; the figures are what the fit makes of the files.</summary>
internal static class DemoDrivers
{
    private const double AddedKilograms = 0.06;

    public static async Task TheEstateAsync(IServiceProvider services, DemoScript script, Guid job)
    {
        var part = (await services.GetRequiredService<PartsList>().RowsAsync(script.Tarik, job, default)).First(row => row.Name == DemoCatalogue.Woofer).Id;
        var measurements = services.GetRequiredService<DriverMeasurements>();
        var real = DriverCompletion.Complete(
            new DriverSheet { ResonanceHertz = 29.8, Qes = 0.53, Qms = 6.1, VasCubicMeters = 0.0346, PistonSquareMeters = 0.0346, ReOhms = 1.72, LeHenries = 0.35e-3, LossHenries = 0.55e-3, LossOhms = 2.6 }, Air.Standard).Parameters!; // all of it is given
        var form = new DriverMeasurementForm
        {
            PartId = part,
            FreeAir = await SweepAsync(services, script, job, "woofer-free-air.txt", real, 5),
            Second = SecondSweep.AddedMass,
            AddedGrams = 1000 * AddedKilograms,
            Again = await SweepAsync(services, script, job, "woofer-60-g.txt", real with { MmsKilograms = real.MmsKilograms + AddedKilograms }, 6),
        };
        var looked = await measurements.GetAsync(script.Tarik, part, UnitText.Invariant, default) ?? throw new InvalidOperationException("The demo's woofer is no loudspeaker.");
        var kept = DemoScript.Must(await measurements.KeepAsync(script.Tarik, looked.PartVersion, form, default));
        DemoScript.Must(await measurements.PutOnPartAsync(script.Desk, kept, default));
    }

    // As a meter with decimal commas writes it: 0.6 % and 0.5° of chance on each point. A very large box is free air.
    private static async Task<SweepFile> SweepAsync(IServiceProvider services, DemoScript script, Guid job, string name, DriverParameters driver, int seed)
    {
        var random = new Random(seed);
        double Chance() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        comma.NumberFormat.NumberDecimalSeparator = ",";
        var text = new StringBuilder("Frequency (Hz);Impedance (Ohm);Phase (deg)\n");
        foreach (var point in EnclosureResponse.Over(driver, new ClosedBox { NetCubicMeters = 1e9 }, Air.Standard, 1, EnclosureResponse.LogSpaced(8, 2_000, 160)))
        {
            text.Append(comma, $"{point.Hertz:0.00};{point.ImpedanceOhms * (1 + 0.006 * Chance()):0.000};{point.ImpedanceDegrees + 0.5 * Chance():0.0}\n");
        }

        var bytes = Encoding.UTF8.GetBytes(text.ToString());
        using var stream = new MemoryStream(bytes);
        var file = DemoScript.Must(await services.GetRequiredService<JobFiles>().AddAsync(script.Tarik, job, JobFileKind.ImpedanceTable, name, stream, default));
        return new SweepFile(file, ImpedanceFile.Propose(bytes).Layout ?? throw new InvalidOperationException("The demo's own sweep is not understood."));
    }
}
