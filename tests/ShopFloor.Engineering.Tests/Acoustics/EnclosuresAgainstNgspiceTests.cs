using System.Globalization;
using System.Numerics;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Tests.Electrical.Network;

namespace ShopFloor.Engineering.Tests.Acoustics;

/// <summary>Band-pass and passive radiator against ngspice (Debian's package): the netlist restates the circuit from Small (JAES 20 to 22, 1972 to 1974) and Beranek, Acoustics.</summary>
public class EnclosuresAgainstNgspiceTests
{
    // ISO 266 third octaves, nominal.
    private static readonly double[] Thirds = [10, 12.5, 16, 20, 25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500];

    private static readonly DriverParameters Driver = DriverCompletion.Complete(
        new DriverSheet { ResonanceHertz = 28, Qes = 0.52, Qms = 6, VasCubicMeters = 0.062, PistonSquareMeters = 0.033, ReOhms = 3.4, LeHenries = 1.2e-3 }, Air.Standard).Parameters!;

    private const double Density = 1.2041;
    private const double Speed = 343.2;
    private const double Bulk = Density * Speed * Speed;

    public static TheoryData<string, Enclosure> Boxes => new()
    {
        { "band-pass", new BandPassBox { NetCubicMeters = 0.03, FrontCubicMeters = 0.02, TuningHertz = 50, PortSquareMeters = 0.008 } },
        { "band-pass with losses", new BandPassBox { NetCubicMeters = 0.03, FrontCubicMeters = 0.02, TuningHertz = 50, PortSquareMeters = 0.008, FrontQ = 7, LeakQ = 20 } },
        { "band-pass with friction in its port", new BandPassBox { NetCubicMeters = 0.03, FrontCubicMeters = 0.02, TuningHertz = 50, PortSquareMeters = 0.008, FrontQ = 9, PortQ = 15 } },
        { "passive radiator", new RadiatorBox { NetCubicMeters = 0.045, RadiatorKilograms = 0.25, RadiatorMetersPerNewton = 4e-4, RadiatorKilogramsPerSecond = 3, RadiatorSquareMeters = 0.033 } },
        { "passive radiator with a leak", new RadiatorBox { NetCubicMeters = 0.03, RadiatorKilograms = 0.4, RadiatorMetersPerNewton = 7e-4, RadiatorKilogramsPerSecond = 2, RadiatorSquareMeters = 0.05, LeakQ = 10 } },
    };

    [Theory]
    [MemberData(nameof(Boxes))]
    public void Level_phase_impedance_and_excursion_are_those_of_the_simulator(string name, Enclosure box)
    {
        var theirs = Solve(box);
        Assert.Equal(Thirds.Length, theirs.Count);
        for (var n = 0; n < Thirds.Length; n++)
        {
            var ours = EnclosureResponse.At(Driver, box, Air.Standard, 2.83, Thirds[n]);
            var (heard, cone, second, current) = theirs[n];
            var s = new Complex(0, 2 * Math.PI * Thirds[n]);
            var pressure = s * Density * heard / (2 * Math.PI);
            var impedance = 2.83 / current;
            Assert.True(Math.Abs(20 * Math.Log10(pressure.Magnitude / 20e-6) - ours.LevelDecibels) < 0.001, $"{name}, {Thirds[n]} Hz: level");
            Assert.True(Math.Abs(Math.IEEERemainder(pressure.Phase * 180 / Math.PI - ours.PhaseDegrees, 360)) < 0.01, $"{name}, {Thirds[n]} Hz: phase");
            Assert.Equal(impedance.Magnitude, ours.ImpedanceOhms, 1e-5 * impedance.Magnitude);
            // At the tuning of a box without losses the cone stands still.
            Assert.Equal(Math.Sqrt(2) * (cone / s).Magnitude, ours.ExcursionMeters, 1e-12 + 1e-5 * ours.ExcursionMeters);
            if (box is RadiatorBox radiator)
                Assert.Equal(Math.Sqrt(2) * (second / s).Magnitude / radiator.RadiatorSquareMeters, ours.RadiatorMeters!.Value, 1e-5 * ours.RadiatorMeters.Value);
            else
                Assert.Equal(Math.Sqrt(2) * second.Magnitude / 0.008, ours.PortMetersPerSecond!.Value, 1e-5 * ours.PortMetersPerSecond.Value);
        }
    }

    // The port of the front chamber by its cut length: acoustic mass ρ·(L + end corrections)/S (Beranek, Acoustics), with 8/(3π) of the radius in the wall and 0.6133 in the open.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void A_front_chamber_with_its_port_cut_to_length_is_tuned_as_asked(int ports)
    {
        var box = new BandPassBox { NetCubicMeters = 0.03, FrontCubicMeters = 0.02, TuningHertz = 50, PortSquareMeters = 0.008, FrontQ = 7 };
        var study = EnclosureStudy.Compute(new EnclosureStudyInput
        {
            Id = "box", Name = "Box", Ports = ports,
            Simulation = new EnclosureInput { Driver = new DriverSheet { ResonanceHertz = 28, Qes = 0.52, Qms = 6, VasCubicMeters = 0.062, PistonSquareMeters = 0.033, ReOhms = 3.4, LeHenries = 1.2e-3 }, Box = box },
        });
        var one = box.PortSquareMeters / ports;
        var mass = Density * (study.PortMeters!.Value + (0.6133 + 8 / (3 * Math.PI)) * Math.Sqrt(one / Math.PI)) / one / ports;

        var theirs = Solve(box, mass);

        for (var n = 0; n < Thirds.Length; n++)
        {
            var ours = EnclosureResponse.At(Driver, box, Air.Standard, 2.83, Thirds[n]);
            var pressure = 2 * Math.PI * Thirds[n] * Density * theirs[n].Heard.Magnitude / (2 * Math.PI);
            Assert.True(Math.Abs(20 * Math.Log10(pressure / 20e-6) - ours.LevelDecibels) < 0.01, $"{Thirds[n]} Hz: level");
            Assert.Equal(Math.Sqrt(2) * theirs[n].Second.Magnitude / 0.008, ours.PortMetersPerSecond!.Value, 1e-3 * ours.PortMetersPerSecond.Value);
        }
    }

    // Force and pressure as voltages, speed and volume velocity as currents.
    private static List<(Complex Heard, Complex Cone, Complex Second, Complex Current)> Solve(Enclosure box, double? portMass = null)
    {
        static string N(double value) => value.ToString("R", CultureInfo.InvariantCulture);
        var text = new List<string>
        {
            "driver in a box",
            "V1 in 0 AC 2.83",
            $"Re in a {N(Driver.ReOhms)}",
            $"Le a b {N(Driver.LeHenries)}",
            "Vcoil b c 0",
            $"Hback c 0 Vcone {N(Driver.BlTeslaMeters)}",
            $"Hforce f 0 Vcoil {N(Driver.BlTeslaMeters)}",
            "Vcone f m1 0",
            $"Lm m1 m2 {N(Driver.MmsKilograms)}",
            $"Rm m2 m3 {N(Driver.RmsKilogramsPerSecond)}",
            $"Cm m3 m4 {N(Driver.CmsMetersPerNewton)}",
            // Air before the cone less air behind it pushes back; the cone moves air from behind to before.
            $"Epush m4 0 front rear {N(Driver.PistonSquareMeters)}",
            $"Fmove rear front Vcone {N(Driver.PistonSquareMeters)}",
            "Vrear rear r1 0",
            $"Crear r1 0 {N(box.NetCubicMeters / Bulk)}",
        };
        if (box is BandPassBox band)
        {
            var omega = 2 * Math.PI * band.TuningHertz;
            text.Add($"Cfront front 0 {N(band.FrontCubicMeters / Bulk)}");
            text.Add("Vsecond front p1 0");
            var mass = portMass ?? Bulk / (omega * omega * band.FrontCubicMeters);
            text.Add($"Lport p1 p2 {N(mass)}");
            text.Add($"Rport p2 0 {N(band.PortQ is { } friction ? omega * mass / friction : 1e-6)}");
            if (band.FrontQ is { } q)
                text.Add($"Rfront front 0 {N(q * Bulk / (omega * band.FrontCubicMeters))}");
            if (band.LeakQ is { } leak)
                text.Add($"Rrear rear 0 {N(leak * Bulk / (2 * Math.PI * 28 * Math.Sqrt(1 + 0.062 / band.NetCubicMeters) * band.NetCubicMeters))}");
        }
        else if (box is RadiatorBox radiator)
        {
            var area = radiator.RadiatorSquareMeters * radiator.RadiatorSquareMeters;
            text.Add("Vopen front 0 0");
            text.Add("Vsecond rear p1 0");
            text.Add($"Lpr p1 p2 {N(radiator.RadiatorKilograms / area)}");
            text.Add($"Rpr p2 p3 {N(radiator.RadiatorKilogramsPerSecond / area)}");
            text.Add($"Cpr p3 0 {N(radiator.RadiatorMetersPerNewton * area)}");
            if (radiator.LeakQ is { } leak)
            {
                var tuning = Math.Sqrt((1 / radiator.RadiatorMetersPerNewton + Bulk * area / radiator.NetCubicMeters) / radiator.RadiatorKilograms);
                text.Add($"Rrear rear 0 {N(leak * Bulk / (tuning * radiator.NetCubicMeters))}");
            }
        }

        text.Add(".options reltol=1e-10 gmin=1e-18");
        text.Add(".control");
        text.Add("set numdgt=15");
        foreach (var hertz in Thirds)
        {
            text.Add($"ac lin 1 {N(hertz)} {N(hertz)}");
            text.Add("print i(Vrear) i(Vcone) i(Vsecond) i(V1)");
        }

        text.AddRange(["quit", ".endc", ".end"]);
        var folder = Directory.CreateTempSubdirectory("enclosure-");
        try
        {
            var file = Path.Combine(folder.FullName, "box.cir");
            File.WriteAllText(file, string.Join('\n', text));
            return Read(Ngspice.Run(file), box);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static List<(Complex Heard, Complex Cone, Complex Second, Complex Current)> Read(string output, Enclosure box)
    {
        var found = output.Split('\n').Select(line => line.Split(" = ")).Where(parts => parts.Length == 2 && parts[0].StartsWith("i(", StringComparison.Ordinal))
            .Select(parts => parts[1].Split(',')).Select(pair => new Complex(double.Parse(pair[0], CultureInfo.InvariantCulture), double.Parse(pair[1], CultureInfo.InvariantCulture))).ToList();
        Assert.True(found.Count == 4 * Thirds.Length, output);
        return [.. Enumerable.Range(0, Thirds.Length).Select(n =>
            // Outside a box with a radiator, all is heard that the air inside takes up; before a band-pass, the port. A source's current runs into it.
            (box is BandPassBox ? found[4 * n + 2] : -found[4 * n], found[4 * n + 1], found[4 * n + 2], -found[4 * n + 3]))];
    }
}
