using System.Globalization;
using System.Runtime.CompilerServices;
using CsCheck;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Physics;

namespace ShopFloor.Engineering.Tests.Acoustics;

public class DriverMeasurementTests
{
    // The driver of the box fixtures: fs 28 Hz, Qes 0.52, Qms 6, Vas 62 L, Sd 330 cm², Re 3.4 Ω, Le 1.2 mH.
    private static readonly DriverParameters Driver = DriverCompletion.Complete(
        new DriverSheet { ResonanceHertz = 28, Qes = 0.52, Qms = 6, VasCubicMeters = 0.062, PistonSquareMeters = 0.033, ReOhms = 3.4, LeHenries = 1.2e-3 }, Air.Standard).Parameters!;

    private static readonly ClosedBox Test = new() { NetCubicMeters = 0.024 };

    [Fact]
    public void A_sweep_of_the_circuit_simulator_gives_the_box_back()
    {
        // Fixture: the driver in 24 L solved by ngspice at 18 third-octave points. Small (1972): α = 62/24, fc = 28·√(1 + α) = 53.003 Hz, Qec = 0.52·√(1 + α) = 0.98434, Qmc = 11.3578.
        var fit = ImpedanceFit.Of(Fixture("sealed_24L.csv"));

        Assert.Equal(53.003, fit.ResonanceHertz.Value, 2e-3);
        Assert.Equal(0.98434, fit.Qes.Value, 1e-4);
        Assert.Equal(11.3578, fit.Qms.Value, 2e-3);
        Assert.Equal(3.4, fit.ReOhms.Value, 1e-4);
        Assert.Equal(1.2e-3, fit.LeHenries.Value, 1e-6);
        Assert.True(fit.Converged);
        Assert.InRange(fit.MagnitudeDecibels, 0, 1e-3);
    }

    [Fact]
    public void Known_volume_gives_Vas_from_the_simulators_box()
    {
        var result = DriverMeasurement.Compute(new DriverMeasurementInput
        {
            FreeAir = Table(Sweep(Driver)), PistonSquareMeters = 0.033, KnownVolume = new KnownVolumeSweep(0.024, Table(Fixture("sealed_24L.csv"))),
        });

        Assert.Equal(0.062, result.VasByVolumeCubicMeters!.Value, 2e-5);
        Assert.Equal(Driver.MmsKilograms, result.Parameters!.MmsKilograms, 1e-3 * Driver.MmsKilograms);
        Assert.Equal(Driver.BlTeslaMeters, result.Parameters.BlTeslaMeters, 1e-3 * Driver.BlTeslaMeters);
        Assert.Empty(result.Findings);
    }

    [Fact]
    public void Noise_leaves_the_truth_inside_the_stated_interval()
    {
        // 2 % of chance on each magnitude and 1° on each phase, seed 7: nearly every 95 % interval of 40 sweeps holds its truth.
        var random = new Random(7);
        var (inside, all) = (0, 0);
        for (var turn = 0; turn < 40; turn++)
        {
            var fit = ImpedanceFit.Of([.. Sweep(Driver).Select(point => point with { Ohms = point.Ohms * (1 + 0.02 * Normal(random)), Degrees = point.Degrees + Normal(random) })], 3.4);
            foreach (var (value, truth) in new[] { (fit.ResonanceHertz, 28.0), (fit.Qes, 0.52), (fit.Qms, 6) })
            {
                Assert.Equal(truth, value.Value, 0.05 * truth);
                all++;
                if (Math.Abs(value.Value / truth - 1) <= value.ShareError!.Value)
                    inside++;
            }
        }

        // 95 % of 120 are 114 with a spread of 2.4.
        Assert.InRange(inside, 105, 120);
    }

    [Fact]
    public void Magnitude_alone_is_enough() =>
        Gen.Select(Gen.Double[18, 120], Gen.Double[0.25, 1.5], Gen.Double[2, 12], Gen.Double[1.5, 8], Gen.Double[2e-4, 3e-3]).Sample((fs, qes, qms, re, le) =>
        {
            ImpedancePoint[] points = [.. EnclosureResponse.LogSpaced(fs / 4, fs * 20, 80).Select(hertz => new ImpedancePoint(hertz, ImpedanceOf(hertz, re, fs, qms, qes, le)))];
            var fit = ImpedanceFit.Of(points);
            return Math.Abs(fit.ResonanceHertz.Value / fs - 1) < 1e-5 && Math.Abs(fit.Qes.Value / qes - 1) < 1e-4 && Math.Abs(fit.Qms.Value / qms - 1) < 1e-4 && Math.Abs(fit.ReOhms.Value / re - 1) < 1e-4;
        }, iter: 60);

    [Fact]
    public void A_lossy_coil_is_found_and_a_plain_one_left_plain()
    {
        var lossy = Driver with { LeHenries = 0.4e-3, LossHenries = 1.1e-3, LossOhms = 4 };
        var fit = ImpedanceFit.Of([.. Sweep(lossy, 2_000)]);

        Assert.Equal(0.4e-3, fit.LeHenries.Value, 2e-6);
        Assert.Equal(1.1e-3, fit.LossHenries!.Value, 5e-6);
        Assert.Equal(4, fit.LossOhms!.Value, 0.02);
        var random = new Random(3);
        Assert.Equal(CoilModel.LossyInductance, fit.Coil);
        Assert.Equal(CoilModel.Inductance, ImpedanceFit.Of([.. Sweep(Driver, 2_000).Select(point => point with { Ohms = point.Ohms * (1 + 0.005 * Normal(random)), Degrees = point.Degrees + 0.3 * Normal(random) })]).Coil);
    }

    [Fact]
    public void A_semi_inductance_is_found()
    {
        // Vanderkooy, JAES 37 (1989): eddy currents in the iron make the coil K·(jω)ⁿ; here n = 0.65 and 3 Ω at 1 kHz.
        var fit = ImpedanceFit.Of(WithCoil(s => 3 * System.Numerics.Complex.Pow(s / (2 * Math.PI * 1_000), 0.65)));

        Assert.Equal(CoilModel.SemiInductance, fit.Coil);
        Assert.Equal((3, 0.65), (Math.Round(fit.Semi!.OhmsAtKilohertz, 4), Math.Round(fit.Semi.Exponent, 5)));
        Assert.Equal(0.52, fit.Qes.Value, 1e-4);
        // Its lumped coil has nearly the same impedance at 1 kHz.
        var s = new System.Numerics.Complex(0, 2 * Math.PI * 1_000);
        var lumped = s * fit.LeHenries.Value + s * fit.LossHenries!.Value * fit.LossOhms!.Value / (s * fit.LossHenries.Value + fit.LossOhms.Value);
        Assert.Equal(3, lumped.Magnitude, 0.3);
    }

    [Fact]
    public void A_coil_of_another_kind_hardly_moves_resonance_and_Q()
    {
        // Three sections of a ladder, which is none of the models: 0.3 mH, 0.5 mH across 1.5 Ω, 0.7 mH across 12 Ω. The resistance is measured by a meter.
        var points = WithCoil(s => s * 0.3e-3 + s * 0.5e-3 * 1.5 / (s * 0.5e-3 + 1.5) + s * 0.7e-3 * 12 / (s * 0.7e-3 + 12));
        var fit = ImpedanceFit.Of(points, 3.4);

        Assert.Equal(28, fit.ResonanceHertz.Value, 0.1);
        Assert.Equal(0.52, fit.Qes.Value, 0.01);
        Assert.Equal(6, fit.Qms.Value, 0.1);
        Assert.InRange(fit.MagnitudeDecibels, 0, 0.2);
    }

    [Fact]
    public void A_sweep_of_even_steps_is_thinned_where_it_crowds()
    {
        // 0.25 Hz steps to 5 kHz: 19,969 rows.
        var points = Enumerable.Range(32, 19_969).Select(n => n / 4.0).Select(hertz => new ImpedancePoint(hertz, ImpedanceOf(hertz, 3.4, 28, 6, 0.52, 1.2e-3)));
        var result = DriverMeasurement.Compute(new DriverMeasurementInput { FreeAir = Table(points) });

        Assert.InRange(result.FreeAir!.Points, 600, 1_300);
        Assert.Equal(28, result.FreeAir.ResonanceHertz.Value, 1e-3);
        Assert.Equal(0.52, result.FreeAir.Qes.Value, 1e-4);
        Assert.Null(result.Parameters);
    }

    [Fact]
    public void Added_mass_gives_the_moving_mass_and_Vas()
    {
        // Mms 80.4855 g by the relations of Small (1972); with 40 g more it resonates at 28·√(80.4855/120.4855) = 22.885 Hz.
        var heavy = Driver with { MmsKilograms = Driver.MmsKilograms + 0.04 };
        Assert.Equal(22.885, heavy.ResonanceHertz, 3);
        var result = DriverMeasurement.Compute(new DriverMeasurementInput
        {
            FreeAir = Table(Sweep(Driver)), PistonDiameterMeters = Math.Sqrt(4 * 0.033 / Math.PI), ReOhms = 3.4, XmaxMeters = 0.014,
            AddedMass = new AddedMassSweep(0.04, Table(Sweep(heavy))), KnownVolume = new KnownVolumeSweep(0.024, Table(Boxed())),
        });

        Assert.Equal(0.062, result.VasByMassCubicMeters!.Value, 5e-6);
        Assert.Equal(0.062, result.VasByVolumeCubicMeters!.Value, 5e-6);
        Assert.Equal(0.0804855, result.Parameters!.MmsKilograms, 1e-5);
        Assert.Equal(0.014, result.Parameters.XmaxMeters);
        Assert.Empty(result.Findings);
    }

    [Fact]
    public void Mass_without_a_piston_area_gives_what_moves_and_with_a_volume_the_area_too()
    {
        var heavy = Driver with { MmsKilograms = Driver.MmsKilograms + 0.04 };
        var input = new DriverMeasurementInput { FreeAir = Table(Sweep(Driver)), ReOhms = 3.4, AddedMass = new AddedMassSweep(0.04, Table(Sweep(heavy))) };
        var alone = DriverMeasurement.Compute(input);

        Assert.Equal(0.0804855, alone.Sheet.MmsKilograms!.Value, 1e-5);
        Assert.Equal(Driver.BlTeslaMeters, alone.Sheet.BlTeslaMeters!.Value, 1e-3);
        Assert.Null(alone.Sheet.VasCubicMeters);
        Assert.Equal("piston-missing", Assert.Single(alone.Findings).Code);
        var both = DriverMeasurement.Compute(input with { KnownVolume = new KnownVolumeSweep(0.024, Table(Boxed())) });
        Assert.Equal(0.033, both.Sheet.PistonSquareMeters!.Value, 1e-5);
    }

    [Fact]
    public void Resonances_by_tone_and_meter_are_enough_for_mass_and_volume()
    {
        // Small (1972) by hand: 28 Hz and 22.885 Hz with 40 g give 0.04/((28/22.885)² − 1) = 80.48 g; 53.003 Hz on 24 L give 0.024·((53.003/28)² − 1) = 62.0 L.
        var result = DriverMeasurement.Compute(new DriverMeasurementInput
        {
            ResonanceHertz = 28, ReOhms = 3.4, Qes = 0.52, Qms = 6, PistonSquareMeters = 0.033,
            AddedMass = new AddedMassSweep(0.04, ResonanceHertz: 22.885), KnownVolume = new KnownVolumeSweep(0.024, ResonanceHertz: 53.003),
        });

        Assert.Null(result.FreeAir);
        Assert.Equal(0.0620, result.VasByMassCubicMeters!.Value, 1e-4);
        Assert.Equal(0.0620, result.VasByVolumeCubicMeters!.Value, 1e-5);
        Assert.Equal(Driver.BlTeslaMeters, result.Parameters!.BlTeslaMeters, 0.01);
        Assert.Empty(result.Findings);
        var turned = DriverMeasurement.Compute(new DriverMeasurementInput { ResonanceHertz = 22.885, AddedMass = new AddedMassSweep(0.04, ResonanceHertz: 28) });
        Assert.Contains(turned.Findings, finding => finding.Code == "mass-raises");
        Assert.Null(turned.Sheet.MmsKilograms);
    }

    [Fact]
    public void The_fit_is_the_least_squares_fit_of_scipy()
    {
        // The same noisy sweep, magnitude and phase, and the same lossy model fitted by scipy.optimize.least_squares from another start.
        var random = new Random(11);
        var lossy = Driver with { LeHenries = 0.4e-3, LossHenries = 1.1e-3, LossOhms = 4 };
        ImpedancePoint[] points = [.. Sweep(lossy, 2_000).Select(point => point with { Ohms = point.Ohms * Math.Exp(0.01 * Normal(random)), Degrees = point.Degrees + 0.5 * Normal(random) })];
        var fit = ImpedanceFit.Of(points);
        var judged = Scipy.Run(
            """
            from scipy.optimize import least_squares
            f, ohms, degrees = inputs
            w = 2j * np.pi * f
            def z(p):
                re, fs, qms, qes, le, l2, r2 = np.exp(p)
                return re + w * le + w * l2 * r2 / (w * l2 + r2) + re * qms / qes / (1 + 1j * qms * (f / fs - fs / f))
            def off(p):
                m = z(p)
                return np.concatenate([np.log(np.abs(m) / ohms), np.angle(m * np.exp(-1j * np.radians(degrees)))])
            result = np.exp(least_squares(off, np.log([3, 30, 5, 0.6, 5e-4, 1e-3, 5]), xtol=1e-14, ftol=1e-14, gtol=1e-14).x)
            """,
            [.. points.Select(point => point.Hertz)], [.. points.Select(point => point.Ohms)], [.. points.Select(point => point.Degrees!.Value)]); // measured with phase

        Assert.Equal(CoilModel.LossyInductance, fit.Coil);
        double[] found = [fit.ReOhms.Value, fit.ResonanceHertz.Value, fit.Qms.Value, fit.Qes.Value, fit.LeHenries.Value, fit.LossHenries!.Value, fit.LossOhms!.Value];
        Assert.All(found.Zip(judged), pair => Assert.Equal(1, pair.First / pair.Second, 1e-4));
        // Drawn over the points, it is as far off as it says.
        var drawn = Math.Sqrt(points.Average(point => Math.Pow(20 * Math.Log10(ImpedanceFit.Impedance(fit, point.Hertz).Magnitude / point.Ohms), 2)));
        Assert.Equal(fit.MagnitudeDecibels, drawn, 1e-9);
        Assert.Equal(points.Min(point => point.Ohms), fit.LeastOhms);
    }

    [Fact]
    public void Measurements_that_disagree_or_hardly_shift_are_told()
    {
        var heavy = Driver with { MmsKilograms = Driver.MmsKilograms + 0.01 };
        var result = DriverMeasurement.Compute(new DriverMeasurementInput
        {
            FreeAir = Table(Sweep(Driver)), PistonSquareMeters = 0.033,
            // 10 g were on the cone, 14 g are typed.
            AddedMass = new AddedMassSweep(0.014, Table(Sweep(heavy))), KnownVolume = new KnownVolumeSweep(0.024, Table(Boxed())),
        });

        Assert.Equal(["mass-shift", "vas-differs"], result.Findings.Select(finding => finding.Code).Order());
    }

    [Theory]
    [InlineData("20\t3,5\t10\n25\t3,9\t12,5", "20 3.5 10;25 3.9 12.5")]
    [InlineData("freq;ohm\n# a remark\n20,5;3,5\n\n25;3,9", "20.5 3.5 ;25 3.9 ")]
    [InlineData("Frequency (Hz), Impedance, Phase\r\n20.5,3.5,-10\r\n1.5e2, 3.9 ,12", "20.5 3.5 -10;150 3.9 12")]
    [InlineData("* spice-like\n20  3.5  1\n10 3.4 2", "10 3.4 2;20 3.5 1")]
    [InlineData("\ufeff\"Hz\" \"Ohm\"\n20,5 3,5", "20.5 3.5 ")]
    public void Tables_are_read_as_programs_write_them(string table, string expected)
    {
        var reading = ImpedanceTable.Parse(table);

        Assert.Empty(reading.Problems);
        Assert.Equal(expected, string.Join(';', reading.Points.Select(point => string.Create(CultureInfo.InvariantCulture, $"{point.Hertz} {point.Ohms} {point.Degrees}"))));
    }

    [Theory]
    [InlineData("20,3.5\nabc,4\n30,x", 2, "Line 2: ")]
    [InlineData("20,3.5\n20,3.6", 1, "Line 2: 20 Hz stands there a second time (first in line 1).")]
    [InlineData("20,-3.5", 1, "Line 1: ")]
    [InlineData("20,5,3,5\n25,1,3,9", 2, "Line 1: ")]
    [InlineData("20;3.5;NaN", 1, "Line 1: ")]
    [InlineData("20,3\n40,4\n30,5", 1, "Line 3: 30 Hz in line 3 does not go on from 40 Hz in line 2")]
    [InlineData("frequency, ohm\n", 1, "The text holds no row")]
    public void What_cannot_be_read_is_told_by_its_line(string table, int count, string begins)
    {
        var problems = ImpedanceTable.Parse(table).Problems;

        Assert.Equal(count, problems.Count);
        Assert.StartsWith(begins, problems[0].Message, StringComparison.Ordinal);
    }

    [Fact]
    public void No_text_breaks_the_reader() =>
        Gen.String[Gen.Char["0123456789.,;\t\n -eE#*\"xÄ/"], 0, 60].Sample(text => ImpedanceTable.Parse(text) is { } reading && (reading.Points.Count > 0) != (reading.Problems.Count > 0));

    [Fact]
    public void A_sweep_without_a_peak_is_refused()
    {
        var input = new DriverMeasurementInput { FreeAir = Table([.. Enumerable.Range(1, 30).Select(n => new ImpedancePoint(100 * n, 4 + n))]) };
        Assert.Equal("Free air: no peak of a resonance stands between the first and the last frequency; sweep from well below to well above it.", Assert.Single(input.Validate()).Message);
        Assert.StartsWith("Free air: 3 points are too few", Assert.Single((input with { FreeAir = "20 4\n30 20\n40 4" }).Validate()).Message, StringComparison.Ordinal);
        Assert.Equal("Free air: neither a sweep nor a resonance was given; give one of both.", Assert.Single(new DriverMeasurementInput().Validate()).Message);
        Assert.Equal("AddedMass.Table", Assert.Single((input with { FreeAir = Table(Sweep(Driver)), AddedMass = new AddedMassSweep(0.04) }).Validate()).Field);
        Assert.Contains("so give one of both", Assert.Single((input with { FreeAir = Table(Sweep(Driver)), ResonanceHertz = 28 }).Validate()).Message, StringComparison.Ordinal);
        Assert.Contains("at most", Assert.Single(ImpedanceTable.Parse(new string('1', ImpedanceTable.MostCharacters + 1)).Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_strings_of_two_are_one_driver_of_the_same_impedance()
    {
        var four = Driver.Wired(2, 2);
        Assert.Equal((Driver.ReOhms, Driver.LeHenries), (four.ReOhms, four.LeHenries));
        Assert.Equal(4 * Driver.MmsKilograms, four.MmsKilograms, 12);
        Assert.Equal(2 * Driver.BlTeslaMeters, four.BlTeslaMeters, 12);
        Assert.Equal(Driver.Qts, four.Qts, 12);
        Assert.Equal(4 * 0.062, four.VasCubicMeters(Air.Standard), 9);
        // Each of the four gets half the voltage: 6 dB less than the whole, four cones 12 dB more: 6.02 dB louder.
        double Level(DriverParameters driver, double volume) => EnclosureResponse.At(driver, new ClosedBox { NetCubicMeters = volume }, Air.Standard, 2.83, 60).LevelDecibels;
        Assert.Equal(Level(Driver, 0.024) + 20 * Math.Log10(2), Level(four, 0.096), 9);
    }

    private static double ImpedanceOf(double hertz, double re, double fs, double qms, double qes, double le)
    {
        // Small (1972): series circuit of the coil and the resonance as parallel R, L and C.
        var omega = 2 * Math.PI * hertz;
        var res = re * qms / qes;
        var ces = qes / (2 * Math.PI * fs * re);
        var les = re / (2 * Math.PI * fs * qes);
        var admittance = new System.Numerics.Complex(1 / res, omega * ces - 1 / (omega * les));
        return (re + new System.Numerics.Complex(0, omega * le) + 1 / admittance).Magnitude;
    }

    private static ImpedancePoint[] WithCoil(Func<System.Numerics.Complex, System.Numerics.Complex> coil) =>
    [
        .. EnclosureResponse.LogSpaced(8, 2_000, 120).Select(hertz =>
        {
            var z = 3.4 + coil(new System.Numerics.Complex(0, 2 * Math.PI * hertz)) + 3.4 * 6 / 0.52 / new System.Numerics.Complex(1, 6 * (hertz / 28 - 28 / hertz));
            return new ImpedancePoint(hertz, z.Magnitude, z.Phase * 180 / Math.PI);
        }),
    ];

    // A very large box is free air.
    private static ImpedancePoint[] Sweep(DriverParameters driver, double to = 500) => Points(driver, new ClosedBox { NetCubicMeters = 1e9 }, to);

    private static ImpedancePoint[] Boxed() => Points(Driver, Test, 500);

    private static ImpedancePoint[] Points(DriverParameters driver, Enclosure box, double to) =>
        [.. EnclosureResponse.Over(driver, box, Air.Standard, 1, EnclosureResponse.LogSpaced(8, to, 90)).Select(point => new ImpedancePoint(point.Hertz, point.ImpedanceOhms, point.ImpedanceDegrees))];

    private static string Table(IEnumerable<ImpedancePoint> points) => string.Join('\n', points.Select(point => string.Create(CultureInfo.InvariantCulture, $"{point.Hertz:R},{point.Ohms:R},{point.Degrees:R}")));

    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static ImpedancePoint[] Fixture(string fixture, [CallerFilePath] string here = "")
    {
        var lines = File.ReadAllLines(Path.Combine(Path.GetDirectoryName(here)!, "Fixtures", fixture)); // a file has a folder
        var names = lines[0].Split(',').ToList();
        double Cell(string line, string name) => double.Parse(line.Split(',')[names.IndexOf(name)], CultureInfo.InvariantCulture);
        return [.. lines[1..].Select(line => new ImpedancePoint(Cell(line, "freq_hz"), Cell(line, "z_ohm_ngspice"), Cell(line, "z_phase_deg")))];
    }
}
