using System.Globalization;
using System.Runtime.CompilerServices;
using CsCheck;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Tests.Acoustics;

public class EnclosureTests
{
    // An invented driver: fs 28 Hz, Qes 0.52, Qms 6, Vas 62 L, Sd 330 cm², Re 3.4 Ω, Le 1.2 mH, 14 mm.
    private static readonly DriverSheet Sheet = new()
    {
        ResonanceHertz = 28, Qes = 0.52, Qms = 6, VasCubicMeters = 0.062, PistonSquareMeters = 0.033, ReOhms = 3.4, LeHenries = 1.2e-3, XmaxMeters = 0.014,
    };

    private static readonly DriverParameters Driver = DriverCompletion.Complete(Sheet, Air.Standard).Parameters!;

    public static TheoryData<string, Enclosure> Boxes => new()
    {
        { "sealed_24L.csv", new ClosedBox { NetCubicMeters = 0.024 } },
        { "vented_45L_32Hz_lossless.csv", new VentedBox { NetCubicMeters = 0.045, TuningHertz = 32, PortSquareMeters = Math.PI * 0.05 * 0.05 } },
        { "vented_45L_32Hz_QL7.csv", new VentedBox { NetCubicMeters = 0.045, TuningHertz = 32, PortSquareMeters = Math.PI * 0.05 * 0.05, LeakQ = 7 } },
    };

    /// <summary>Fixtures: the same circuit solved by ngspice (Debian's package), at third-octave points.</summary>
    [Theory]
    [MemberData(nameof(Boxes))]
    public void The_response_is_that_of_the_circuit_simulator(string fixture, Enclosure box)
    {
        foreach (var row in Rows(fixture))
        {
            var point = EnclosureResponse.At(Driver, box, Air.Standard, 2.83, row["freq_hz"]);
            Assert.Equal(row["spl_db_ngspice"], point.LevelDecibels, 1e-3);
            Assert.Equal(0, Math.IEEERemainder(point.PhaseDegrees - row["phase_deg"], 360), 2e-3);
            Assert.Equal(row["z_ohm_ngspice"], point.ImpedanceOhms, 1e-4 * row["z_ohm_ngspice"]);
            Assert.Equal(row["z_phase_deg"], point.ImpedanceDegrees, 2e-3);
            // The fixture has five decimals.
            Assert.Equal(row["cone_peak_mm_ngspice"], 1000 * point.ExcursionMeters, 5.1e-6 + 1e-5 * row["cone_peak_mm_ngspice"]);
            if (row.TryGetValue("port_peak_mps", out var speed))
                Assert.Equal(speed, point.PortMetersPerSecond!.Value, 5.1e-6 + 1e-5 * speed);
        }
    }

    // Worked by hand from the relations of Small (1972) with ρ 1.2041 kg/m³ and c 343.2 m/s.
    [Fact]
    public void A_sheet_is_completed_by_the_published_relations()
    {
        Assert.Equal(4.01427e-4, Driver.CmsMetersPerNewton, 5e-10);
        Assert.Equal(0.0804855, Driver.MmsKilograms, 5e-8);
        Assert.Equal(2.35996, Driver.RmsKilogramsPerSecond, 5e-6);
        Assert.Equal(9.62200, Driver.BlTeslaMeters, 5e-6);
        Assert.Equal(0.478528, Driver.Qts, 5e-7);
        Assert.Equal(0.00255611, Driver.ReferenceEfficiency(Air.Standard), 5e-9);
        Assert.Equal(86.2355, Driver.OneWattDecibels(Air.Standard), 4);
    }

    [Fact]
    public void What_was_completed_gives_the_same_driver_again() =>
        Gen.Select(Gen.Double[15, 200], Gen.Double[0.2, 1.5], Gen.Double[2, 15], Gen.Double[0.01, 0.1], Gen.Double[0.005, 0.03], Gen.Double[1, 8]).Sample((fs, qes, qms, mms, sd, re) =>
        {
            var vas = Air.Standard.BulkModulusPascals * sd * sd / (Math.Pow(2 * Math.PI * fs, 2) * mms);
            var first = DriverCompletion.Complete(new DriverSheet { ResonanceHertz = fs, Qes = qes, Qms = qms, VasCubicMeters = vas, PistonSquareMeters = sd, ReOhms = re }, Air.Standard).Parameters!;
            var again = DriverCompletion.Complete(
                new DriverSheet { MmsKilograms = first.MmsKilograms, CmsMetersPerNewton = first.CmsMetersPerNewton, RmsKilogramsPerSecond = first.RmsKilogramsPerSecond, BlTeslaMeters = first.BlTeslaMeters, PistonSquareMeters = sd, ReOhms = re },
                Air.Standard);
            return again.Findings.Count == 0
                && Close(again.Parameters!.ResonanceHertz, fs) && Close(again.Parameters.Qes, qes) && Close(again.Parameters.Qms, qms) && Close(again.Parameters.VasCubicMeters(Air.Standard), vas);
        });

    [Fact]
    public void A_sheet_that_contradicts_itself_is_told()
    {
        var completed = DriverCompletion.Complete(Sheet with { Qts = 0.6 }, Air.Standard);
        Assert.Equal("The sheet says 0.6; the other data give 0.4785, 20.2\u00A0% less.", Assert.Single(completed.Findings).Text);
        Assert.Equal(["DC resistance", "mechanical Q"], DriverCompletion.Complete(Sheet with { ReOhms = null, Qms = null }, Air.Standard).Missing);
    }

    [Fact]
    public void What_follows_is_filled_in_before_everything_is_known()
    {
        var completed = DriverCompletion.Complete(new DriverSheet { Qes = 0.52, Qms = 6, VasCubicMeters = 0.062, PistonSquareMeters = 0.033 }, Air.Standard);

        Assert.Null(completed.Parameters);
        Assert.Equal(0.47853, completed.Filled.Qts!.Value, 1e-5); // 0.52·6/6.52
        Assert.Equal(0.062 / (Air.Standard.BulkModulusPascals * 0.033 * 0.033), completed.Filled.CmsMetersPerNewton!.Value, 1e-12);
        Assert.Null(completed.Filled.BlTeslaMeters);
    }

    [Fact]
    public void A_sensitivity_is_held_against_the_reference_efficiency()
    {
        // Small (1972): η0 = 4π²·28³·0.062/(c³·0.52) with c of 20 °C; 112.2 dB is 1 W of sound over half a sphere at 1 m; 2.83 V into 3.4 Ω are 2.3556 W.
        var known = Sheet with { ReOhms = 3.4, Qms = 6 };
        var c = Air.Standard.SpeedMetersPerSecond;
        var efficiency = 4 * Math.PI * Math.PI * Math.Pow(28, 3) * 0.062 / (c * c * c * 0.52);
        var level = 112.1 + 10 * Math.Log10(efficiency * 2.83 * 2.83 / 3.4);

        var filled = DriverCompletion.Complete(known, Air.Standard);
        Assert.Equal(level, filled.Filled.SensitivityDecibels!.Value, 0.15);
        Assert.Empty(DriverCompletion.Complete(known with { SensitivityDecibels = level + 2 }, Air.Standard).Findings);
        var told = Assert.Single(DriverCompletion.Complete(known with { SensitivityDecibels = level + 6 }, Air.Standard).Findings);
        Assert.Equal("driver-sensitivity-contradicts", told.Code);
        // For coils in series of twice the resistance each, the same efficiency gives 10·log 4 less.
        Assert.Empty(DriverCompletion.Complete(known with { SensitivityDecibels = level - 6, SensitivityReOhms = 13.6 }, Air.Standard).Findings);
    }

    [Fact]
    public void Out_of_range_is_refused_with_field_and_value()
    {
        Assert.Equal("Electrical Q: -0.5 is not accepted; enter 0.05 to 20.", Assert.Single((Sheet with { Qes = -0.5 }).Validate()).Message);
        Assert.Equal(nameof(DriverSheet.VasCubicMeters), Assert.Single((Sheet with { VasCubicMeters = double.NaN }).Validate()).Field);
        Assert.Equal("Net volume in m³: 0 is not accepted; enter 0.00001 to 5.", Assert.Single(new ClosedBox { NetCubicMeters = 0 }.Validate()).Message);
    }

    // Small (1972): f3/fc and peak over Qtc, closed form.
    [Theory]
    [InlineData(0.5, 1.5538, 0)]
    [InlineData(0.577350, 1.2720, 0)]
    [InlineData(0.707107, 1.0000, 0)]
    [InlineData(0.8, 0.8972, 0.213)]
    [InlineData(1.0, 0.7862, 1.249)]
    [InlineData(1.5, 0.6994, 4.033)]
    public void The_closed_box_table(double qtc, double corner, double peak)
    {
        Assert.Equal(corner, ClosedBoxTheory.CornerOverResonance(qtc), 1e-4);
        Assert.Equal(peak, ClosedBoxTheory.PeakDecibels(qtc), 3);
    }

    [Fact]
    public void A_wanted_Qtc_gives_the_box_back()
    {
        Assert.Equal(0.905838, ClosedBoxTheory.Qtc(Driver.Qts, 0.062 / 0.024), 6);
        Assert.Equal(0.052386, ClosedBoxTheory.VolumeFor(Driver.Qts, 0.062, Math.Sqrt(0.5))!.Value, 5e-7);
        Assert.Null(ClosedBoxTheory.VolumeFor(0.8, 0.062, Math.Sqrt(0.5)));
    }

    // Thiele (1971) and Small (1973): Q, leak Q, Vas/Vb, fb/fs, f3/fs. Lossless rows agree with Thiele's table I to 0.7 %.
    [Theory]
    [InlineData(0.180, null, 10.445, 1.9968, 2.6792)]
    [InlineData(0.259, null, 4.4563, 1.4133, 1.7721)]
    [InlineData(0.303, null, 2.9469, 1.2244, 1.4481)]
    [InlineData(0.350, null, 1.9188, 1.0784, 1.1679)]
    [InlineData(0.20, 7.0, 7.7775, 1.9393, 2.5289)]
    [InlineData(0.30, 7.0, 2.8452, 1.3145, 1.5732)]
    [InlineData(0.40, 7.0, 1.1141, 1.0106, 1.0214)]
    public void Quasi_Butterworth_boxes(double qts, double? leakQ, double alpha, double h, double corner)
    {
        var box = VentedAlignments.QuasiButterworth(qts, leakQ)!;
        Assert.Equal(alpha, box.VasOverVolume, 1e-3 * alpha);
        Assert.Equal(h, box.TuningOverResonance, 1e-3 * h);
        Assert.Equal(corner, box.CornerOverResonance, 1e-3 * corner);
        Assert.Equal(0, box.PeakDecibels, 0.01);
    }

    [Fact]
    public void A_fourth_order_Butterworth_box_is_flat_to_its_tuning()
    {
        // Thiele (1971): Q 0.3827, Vas/Vb √2, fb = f3 = fs.
        var box = VentedAlignments.Of(0.382683, Math.Sqrt(2), 1);
        Assert.Equal(1, box.CornerOverResonance, 3);
        Assert.Equal(0, box.PeakDecibels, 3);
    }

    // Helmholtz: 45 L, 32 Hz, 100 mm: 435.42 mm with one end flush and one free, 423.65 both flush, 447.20 both free; 60 L, 30 Hz: 360.84.
    [Theory]
    [InlineData(0.045, 32, 0.100, PortEnd.Flush, PortEnd.Free, 0.43542)]
    [InlineData(0.045, 32, 0.100, PortEnd.Flush, PortEnd.Flush, 0.42365)]
    [InlineData(0.045, 32, 0.100, PortEnd.Free, PortEnd.Free, 0.44720)]
    [InlineData(0.045, 32, 0.075, PortEnd.Flush, PortEnd.Free, 0.23122)]
    [InlineData(0.060, 30, 0.100, PortEnd.Flush, PortEnd.Free, 0.36084)]
    public void Port_lengths(double volume, double tuning, double diameter, PortEnd outer, PortEnd inner, double length) =>
        Assert.Equal(length, PortLength.Meters(Air.Standard, volume, tuning, Math.PI * diameter * diameter / 4, (outer, inner))!.Value, 2e-5);

    [Fact]
    public void A_port_that_would_be_shorter_than_its_ends_is_none() =>
        Assert.Null(PortLength.Meters(Air.Standard, 0.5, 100, 0.001, (PortEnd.Flush, PortEnd.Free)));

    // 10·log10(1 + (f0/f)⁴) with f0 60 Hz.
    [Theory]
    [InlineData(20, 19.14)]
    [InlineData(31.5, 11.51)]
    [InlineData(50, 4.88)]
    [InlineData(100, 0.53)]
    public void Cabin_gain(double hertz, double decibels) => Assert.Equal(decibels, CabinGain.Decibels(hertz, 60), 2);

    [Fact]
    public void The_corner_of_the_cabin_follows_its_length() => Assert.Equal(57.2, CabinGain.CornerHertz(Air.Standard, 3), 1);

    [Fact]
    public void A_closed_box_with_Q_of_root_half_and_the_cabins_corner_is_flat()
    {
        // Qtc = 1/√2 and fc = f0: the cabin's rise is the inverse of the roll-off.
        var plain = Driver with { LeHenries = 0 };
        var box = new ClosedBox { NetCubicMeters = ClosedBoxTheory.VolumeFor(plain.Qts, plain.VasCubicMeters(Air.Standard), Math.Sqrt(0.5))!.Value };
        var corner = plain.ResonanceHertz * Math.Sqrt(0.5) / plain.Qts;
        var levels = EnclosureResponse.Over(plain, box, Air.Standard, 1, [10, 20, 40, 80]).Select(point => point.LevelDecibels + CabinGain.Decibels(point.Hertz, corner)).ToList();
        Assert.True(levels.Max() - levels.Min() < 1e-6);
    }

    [Fact]
    public void Several_drivers_behave_as_one()
    {
        // n drivers in n times the box at the same voltage in parallel: the same excursion, 1/n the impedance, 20·log10(n) louder.
        var one = EnclosureResponse.At(Driver, new ClosedBox { NetCubicMeters = 0.024 }, Air.Standard, 2.83, 40);
        var two = EnclosureResponse.At(Driver.Several(2, inSeries: false), new ClosedBox { NetCubicMeters = 0.048 }, Air.Standard, 2.83, 40);
        Assert.Equal(one.ExcursionMeters, two.ExcursionMeters, 12);
        Assert.Equal(one.ImpedanceOhms / 2, two.ImpedanceOhms, 9);
        Assert.Equal(one.LevelDecibels + 20 * Math.Log10(2), two.LevelDecibels, 9);
        // Isobaric halves Vas.
        Assert.Equal(Driver.VasCubicMeters(Air.Standard) / 2, Driver.Isobaric(inSeries: true).VasCubicMeters(Air.Standard), 9);
    }

    [Fact]
    public void A_very_stiff_radiator_is_a_closed_box_and_one_as_light_as_port_air_a_vented_one()
    {
        var closed = EnclosureResponse.At(Driver, new ClosedBox { NetCubicMeters = 0.045 }, Air.Standard, 2.83, 40);
        var stiff = EnclosureResponse.At(Driver, new RadiatorBox { NetCubicMeters = 0.045, RadiatorKilograms = 20, RadiatorMetersPerNewton = 1e-7, RadiatorSquareMeters = 0.001 }, Air.Standard, 2.83, 40);
        Assert.Equal(closed.LevelDecibels, stiff.LevelDecibels, 0.01);

        // A port is a radiator without a spring; the softest one accepted has its own resonance at 7 Hz, so it is looked at well above.
        var area = Math.PI * 0.05 * 0.05;
        var omega = 2 * Math.PI * 32;
        var mass = Air.Standard.BulkModulusPascals / (omega * omega * 0.045) * area * area;
        var vented = EnclosureResponse.At(Driver, new VentedBox { NetCubicMeters = 0.045, TuningHertz = 32, PortSquareMeters = area }, Air.Standard, 2.83, 200);
        var light = EnclosureResponse.At(Driver, new RadiatorBox { NetCubicMeters = 0.045, RadiatorKilograms = mass, RadiatorMetersPerNewton = 0.1, RadiatorSquareMeters = area }, Air.Standard, 2.83, 200);
        Assert.Equal(vented.LevelDecibels, light.LevelDecibels, 0.01);
    }

    [Fact]
    public void A_band_pass_falls_on_both_sides()
    {
        var box = new BandPassBox { NetCubicMeters = 0.03, FrontCubicMeters = 0.02, TuningHertz = 50, PortSquareMeters = 0.008 };
        double Level(double hertz) => EnclosureResponse.At(Driver, box, Air.Standard, 2.83, hertz).LevelDecibels;
        // Second order to each side: 12 dB an octave far away.
        Assert.Equal(12.04, Level(2) - Level(1), 0.05);
        var plain = Driver with { LeHenries = 0 };
        double Plain(double hertz) => EnclosureResponse.At(plain, box, Air.Standard, 2.83, hertz).LevelDecibels;
        Assert.Equal(12.04, Plain(2_000) - Plain(4_000), 0.05);
    }

    [Fact]
    public void The_first_limit_ends_the_level()
    {
        // The cone reaches 14 mm at 29.71 V at the worst frequency above 20 Hz (31.7 Hz), by the fixture's circuit.
        var box = new ClosedBox { NetCubicMeters = 0.024 };
        var largest = LargestLevel.Of(EnclosureResponse.Over(Driver, box, Air.Standard, 1, EnclosureResponse.LogSpaced(20, 200, 400)), 1, Driver, new LevelLimits(null));
        Assert.Equal(29.71, largest.Min(point => point.Volts)!.Value, 0.01);
        Assert.All(largest, point => Assert.Equal(LevelLimit.Excursion, point.Limit));
        Assert.All(LargestLevel.Of(EnclosureResponse.Over(Driver, box, Air.Standard, 1, [30, 60]), 1, Driver, new LevelLimits(10)), point => Assert.Equal((LevelLimit.Amplifier, 10), (point.Limit!.Value, point.Volts!.Value)));
        Assert.Equal(1, LargestLevel.Of(EnclosureResponse.Over(Driver with { RatedWatts = 1e-3 }, box, Air.Standard, 1, [200]), 1, Driver with { RatedWatts = 1e-3 }, new LevelLimits(null)).Count(point => point.Limit == LevelLimit.Power));
    }

    [Fact]
    public void A_lossy_coil_of_the_sheet_is_heard_in_the_impedance()
    {
        // Le 1 mH, then 2 mH beside 4 Ω. Far above resonance the cone stands still: at 20 kHz ωL2 = 251 Ω, so 4 Ω beside it are 3.999 + j0.064 Ω,
        // and with Re 3.4 Ω and ωLe = 125.66 Ω the whole is |7.399 + j125.73| = 125.95 Ω; without the loss |3.4 + j125.66| = 125.71 Ω.
        double Ohms(DriverSheet sheet) => EnclosureSimulation.Compute(new EnclosureInput { Driver = sheet, Box = new ClosedBox { NetCubicMeters = 0.024 }, FromHertz = 1_000, ToHertz = 20_000 }).Response[^1].ImpedanceOhms;
        var plain = Sheet with { LeHenries = 1e-3 };

        Assert.Equal(125.71, Ohms(plain), 0.02);
        Assert.Equal(125.95, Ohms(plain with { LossHenries = 2e-3, LossOhms = 4 }), 0.02);
        Assert.Equal(new InputProblem(nameof(DriverSheet.LossOhms), "Lossy coil: one of second inductance and the resistance across it is missing; enter both, or none."), Assert.Single((plain with { LossHenries = 2e-3 }).Validate()));
        Assert.Equal(nameof(DriverSheet.LossHenries), Assert.Single((plain with { LossOhms = 4 }).Validate()).Field);
    }

    [Fact]
    public void Port_and_radiator_end_the_level_where_their_limits_are_entered()
    {
        var ported = new EnclosureInput { Driver = Sheet, Box = new VentedBox { NetCubicMeters = 0.045, TuningHertz = 32, PortSquareMeters = 0.002 }, FromHertz = 30, ToHertz = 34, Points = 3 };
        var radiator = ported with { Box = new RadiatorBox { NetCubicMeters = 0.045, RadiatorKilograms = 0.2, RadiatorMetersPerNewton = 1e-3, RadiatorSquareMeters = 0.033 } };
        LargestLevelPoint First(EnclosureInput input) => EnclosureSimulation.Compute(input).Largest[0];

        // All is proportional to the voltage, so half the limit is half the voltage.
        Assert.Equal(LevelLimit.PortSpeed, First(ported).Limit);
        Assert.Equal(First(ported).Volts!.Value / 2, First(ported with { PortMetersPerSecond = 8.5 }).Volts!.Value, 9);
        Assert.NotEqual(LevelLimit.RadiatorExcursion, First(radiator).Limit);
        Assert.Equal(LevelLimit.RadiatorExcursion, First(radiator with { RadiatorMeters = 1e-3 }).Limit);
        Assert.Equal("Linear excursion of the radiator in m: 1 is not accepted; enter 0.00001 to 0.2.", Assert.Single((radiator with { RadiatorMeters = 1 }).Validate()).Message);
        Assert.Equal(nameof(EnclosureInput.PortMetersPerSecond), Assert.Single((ported with { PortMetersPerSecond = 0 }).Validate()).Field);
    }

    [Fact]
    public void All_lengths_doubled_the_box_plays_an_octave_lower()
    {
        // Area ×4, mass and volume ×8, compliance ÷2, friction ×4, force factor and inductance ×2, tuning ÷2: every frequency halves.
        var box = new VentedBox { NetCubicMeters = 0.045, TuningHertz = 32, PortSquareMeters = 0.008 };
        var large = new VentedBox { NetCubicMeters = 0.36, TuningHertz = 16, PortSquareMeters = 0.032 };
        var scaled = Driver with
        {
            PistonSquareMeters = 4 * Driver.PistonSquareMeters, MmsKilograms = 8 * Driver.MmsKilograms, CmsMetersPerNewton = Driver.CmsMetersPerNewton / 2,
            RmsKilogramsPerSecond = 4 * Driver.RmsKilogramsPerSecond, BlTeslaMeters = 2 * Driver.BlTeslaMeters, LeHenries = 2 * Driver.LeHenries,
        };
        foreach (var hertz in new[] { 20.0, 32, 60, 120 })
            Assert.Equal(EnclosureResponse.At(Driver, box, Air.Standard, 1, hertz).ImpedanceOhms, EnclosureResponse.At(scaled, large, Air.Standard, 1, hertz / 2).ImpedanceOhms, 9);
    }

    [Fact]
    public void A_driver_that_cannot_be_worked_out_is_refused_by_what_is_missing() =>
        Assert.Equal("Driver: not known and not to be worked out: DC resistance, mechanical Q.", new EnclosureInput { Driver = Sheet with { ReOhms = null, Qms = null }, Box = new ClosedBox { NetCubicMeters = 0.024 } }.Validate().Single().Message);

    // 1/Qts = 1/Qes + 1/Qms (Small, 1972): with Qts = Qes nothing is left for Qms, and the other way round.
    [Theory]
    [InlineData(0.5, null, 0.5, "mechanical Q")]
    [InlineData(null, 6.0, 6.0, "electrical Q or force factor")]
    public void A_total_Q_as_large_as_one_of_its_parts_leaves_the_other_missing(double? qes, double? qms, double qts, string missing) =>
        Assert.Equal(
            $"Driver: not known and not to be worked out: {missing}.",
            Assert.Single(new EnclosureInput { Driver = Sheet with { Qes = qes, Qms = qms, Qts = qts }, Box = new ClosedBox { NetCubicMeters = 0.024 } }.Validate()).Message);

    private static bool Close(double a, double b) => Math.Abs(a - b) < 1e-9 * Math.Abs(b);

    private static IEnumerable<Dictionary<string, double>> Rows(string fixture, [CallerFilePath] string here = "")
    {
        var lines = File.ReadAllLines(Path.Combine(Path.GetDirectoryName(here)!, "Fixtures", fixture)); // a file has a folder
        var names = lines[0].Split(',');
        foreach (var line in lines[1..])
            yield return names.Zip(line.Split(',')).ToDictionary(pair => pair.First, pair => double.Parse(pair.Second, CultureInfo.InvariantCulture));
    }
}
