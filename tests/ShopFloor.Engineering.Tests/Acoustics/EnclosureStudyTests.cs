using CsCheck;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Tests.Acoustics;

public class EnclosureStudyTests
{
    // An invented driver without coil inductance, so that the theory of Small (1972) holds exactly.
    private static readonly DriverSheet Sheet = new() { ResonanceHertz = 28, Qes = 0.52, Qms = 6, VasCubicMeters = 0.062, PistonSquareMeters = 0.033, ReOhms = 3.4, XmaxMeters = 0.014, RatedWatts = 400 };

    /// <summary>|H|² = 1/(1 + (fc/f)^2n) is what makes a filter a Butterworth one (Wireless Engineer 7, 1930).</summary>
    [Fact]
    public void Sections_of_a_high_pass_together_fall_as_butterworth_says() =>
        Gen.Select(Gen.Double[5, 200], Gen.Int[1, 8], Gen.Double[1, 1000]).Sample((corner, order, hertz) =>
            Assert.Equal(1 / (1 + Math.Pow(corner / hertz, 2 * order)), Math.Pow(FilteredResponse.Gain(ButterworthHighPass.Sections(corner, order), hertz).Magnitude, 2), 1e-9));

    [Theory]
    [InlineData(0)]
    [InlineData(9)]
    public void An_order_that_does_not_exist_is_refused(int order) => Assert.Throws<ArgumentOutOfRangeException>(() => ButterworthHighPass.Sections(30, order));

    // Small, JAES 20 (1972): Qtc = Qts·√(1 + Vas/Vb); f3/fc = √((k + √(k² + 4))/2), k = 1/Qtc² − 2, worked by hand.
    [Fact]
    public void A_closed_box_has_the_q_and_the_corner_of_the_theory()
    {
        var result = EnclosureStudy.Compute(Study(new ClosedBox { NetCubicMeters = 0.031 }));

        // Qts 0.478528, α = 2: Qtc 0.828835, fc 48.4974 Hz, k −0.544324, f3/fc 0.874193.
        Assert.Equal(0.828835, result.Qtc!.Value, 1e-6);
        Assert.Equal(48.4974 * 0.874193, result.CornerHertz!.Value, 0.02);
    }

    [Fact]
    public void What_a_high_pass_keeps_away_the_cone_does_not_follow()
    {
        var bare = EnclosureStudy.Compute(Study(new ClosedBox { NetCubicMeters = 0.031 }));
        var held = EnclosureStudy.Compute(Study(new ClosedBox { NetCubicMeters = 0.031 }) with { Filters = ButterworthHighPass.Sections(30, 4) });

        foreach (var (before, after) in bare.Response.Zip(held.Response))
            Assert.Equal(before.ExcursionMeters / Math.Sqrt(1 + Math.Pow(30 / before.Hertz, 8)), after.ExcursionMeters, 1e-9);
    }

    [Fact]
    public void The_cabin_lifts_the_level_by_its_gain_and_nothing_else()
    {
        // c/(2·3.1 m) = 343.2/6.2 = 55.355 Hz; at the corner 10·log10(2) = 3.01 dB.
        var result = EnclosureStudy.Compute(Study(new ClosedBox { NetCubicMeters = 0.031 }) with { Cabin = new CabinLift(55.355) });

        var at = Enumerable.Range(0, result.Response.Count).MinBy(n => Math.Abs(result.Response[n].Hertz - 55.355));
        Assert.Equal(3.01, result.InCarDecibels![at] - result.Response[at].LevelDecibels, 0.15);
    }

    // Two ports share volume and area: each is a resonator of half of both. By hand: L = c²·S/(4π²·fb²·V) − (0.8488 + 0.6133)·r.
    [Fact]
    public void Each_of_two_ports_is_cut_for_half_the_box()
    {
        var area = 2 * Math.PI * 0.04 * 0.04;
        var result = EnclosureStudy.Compute(Study(new VentedBox { NetCubicMeters = 0.06, TuningHertz = 30, PortSquareMeters = area }) with { Ports = 2 });

        var alone = 343.2 * 343.2 * (area / 2) / (4 * Math.PI * Math.PI * 30 * 30 * 0.03) - 1.4621 * 0.04;
        Assert.Equal(alone, result.PortMeters!.Value, 1e-4);
    }

    [Theory]
    [InlineData(5, null)]
    [InlineData(35, "enclosure-excursion")]
    [InlineData(100, "enclosure-cone-strikes")]
    public void Excursion_warns_beyond_the_linear_range_and_stops_where_the_cone_breaks(double volts, string? code)
    {
        var study = Study(new ClosedBox { NetCubicMeters = 0.031 }) with { MechanicalMeters = 0.03 };
        var result = EnclosureStudy.Compute(study with { Simulation = study.Simulation with { Volts = volts } });

        var told = result.Findings.Where(finding => finding.Code is "enclosure-excursion" or "enclosure-cone-strikes").ToList();
        Assert.Equal(code is null ? [] : [code], told.Select(finding => finding.Code));
        Assert.All(told, finding => Assert.Equal(finding.Code == "enclosure-cone-strikes" ? Severity.Stop : Severity.Warn, finding.Severity));
    }

    [Fact]
    public void Air_that_is_heard_in_the_port_is_found_and_a_larger_port_mends_it()
    {
        VentedBox Box(double radius) => new() { NetCubicMeters = 0.06, TuningHertz = 30, PortSquareMeters = Math.PI * radius * radius };

        Assert.Contains(EnclosureStudy.Compute(Study(Box(0.03))).Findings, finding => finding.Code == "enclosure-port-speed");
        Assert.DoesNotContain(EnclosureStudy.Compute(Study(Box(0.15))).Findings, finding => finding.Code == "enclosure-port-speed");
    }

    [Fact]
    public void A_tuning_no_port_gives_is_said()
    {
        var result = EnclosureStudy.Compute(Study(new VentedBox { NetCubicMeters = 0.01, TuningHertz = 150, PortSquareMeters = 0.003 }));

        Assert.Null(result.PortMeters);
        Assert.Contains(result.Findings, finding => finding.Code == "enclosure-port-too-short");
    }

    [Fact]
    public void A_refused_value_is_named_with_its_range()
    {
        var problems = (Study(new ClosedBox { NetCubicMeters = 9 }) with { Ports = 0 }).Validate();

        Assert.Contains(problems, problem => problem.Field == "Simulation.Box.NetCubicMeters" && problem.Message.Contains('5'));
        Assert.Contains(problems, problem => problem.Field == "Ports");
    }

    private static EnclosureStudyInput Study(Enclosure box) => new() { Id = "box", Name = "Box", Simulation = new EnclosureInput { Driver = Sheet, Box = box, Volts = 20, AmplifierVolts = 20, Points = 400 } };
}
