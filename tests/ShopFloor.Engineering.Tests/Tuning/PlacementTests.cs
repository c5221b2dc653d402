using CsCheck;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Tuning.Placement;

namespace ShopFloor.Engineering.Tests.Tuning;

/// <summary>Paths, directivity and first reflections by geometry and published formulas.</summary>
public class PlacementTests
{
    private static readonly PlacementInput _two = new()
    {
        Drivers = [Driver("near", 1, 0, 0), Driver("far", 2, 0, 0)],
        Ears = [new ListeningPlace("left", new Point3(0, 0, 0))],
    };

    /// <summary>Speed by ISO 9613-1, as worked out by NumPy to four decimals.</summary>
    [Theory]
    [InlineData(-20, 318.927)]
    [InlineData(0, 331.2859)]
    [InlineData(20, 343.2)]
    [InlineData(25, 346.1145)]
    [InlineData(40, 354.7142)]
    [InlineData(60, 365.8662)]
    public void Sound_is_as_fast_as_the_air_is_warm(double celsius, double metersPerSecond)
    {
        Assert.Equal(metersPerSecond, Air.At(celsius).SpeedMetersPerSecond, 1e-3);
        Assert.Equal(metersPerSecond, PlacementStudy.Compute(_two with { AirCelsius = celsius }).SpeedMetersPerSecond, 1e-3);
    }

    /// <summary>Delays of paths at 343.2 m/s (NumPy): path/c, and in samples at 48 and 96 kHz.</summary>
    [Theory]
    [InlineData(0.1, 0.29138, 13.986, 27.972)]
    [InlineData(0.35, 1.01981, 48.951, 97.902)]
    [InlineData(0.5, 1.45688, 69.930, 139.860)]
    [InlineData(1.0, 2.91375, 139.860, 279.720)]
    [InlineData(1.25, 3.64219, 174.825, 349.650)]
    [InlineData(2.0, 5.82751, 279.720, 559.441)]
    public void A_path_takes_its_time(double meters, double milliseconds, double samples48, double samples96)
    {
        var path = PlacementStudy.Compute(_two with { Drivers = [Driver("one", meters, 0, 0)] }).Paths[0];

        Assert.Equal(milliseconds, 1e3 * path.DelaySeconds, 1e-5);
        Assert.Equal(samples48, 48_000 * path.DelaySeconds, 1e-3);
        Assert.Equal(samples96, 96_000 * path.DelaySeconds, 1e-3);
    }

    /// <summary>Paths of 1.05, 1.45 and 2.10 m are aligned by adding 3.0594, 1.8939 and 0 ms at 20 °C.</summary>
    [Fact]
    public void Delays_bring_the_nearer_drivers_to_the_farthest()
    {
        var paths = PlacementStudy.Compute(_two with { Drivers = [Driver("a", 1.05, 0, 0), Driver("b", 0, 1.45, 0), Driver("c", 0, 0, 2.10)] }).Paths;

        Assert.Equal([3.0594, 1.8939, 0], paths.Select(path => Math.Round(1e3 * path.AddDelaySeconds, 4)));
        Assert.Equal([0, 0.40, 1.05], paths.Select(path => Math.Round(path.NearerMeters, 9)));
    }

    /// <summary>Piston directivity: −3 dB at ka·sin θ = 1.6163 and nothing at 3.8317 (zero of J1); values between by SciPy.</summary>
    [Fact]
    public void A_piston_beams_as_its_formula_says()
    {
        double At(double x) => PlacementStudy.DirectivityDecibels(x * 343.2 / (2 * Math.PI * 0.1), 0.1, 90, 343.2);
        Assert.Equal(-3.0103, At(1.6163399), 1e-4);
        Assert.True(At(3.8317059702) < -110);
        double[] arguments = [0.5, 1, 2, 3, 5, 10];
        var theirs = Scipy.Run("x = inputs[0]; result = 20*np.log10(abs(2*scipy.special.j1(x)/x))", arguments);
        Assert.All(arguments.Zip(theirs), pair => Assert.Equal(pair.Second, At(pair.First), 1e-9));
        Assert.Equal(0, PlacementStudy.DirectivityDecibels(10_000, 0.1, 0, 343.2));
    }

    /// <summary>Driver and ear 1 m apart, 0.5 m before a pane: the image is √2 m away, −3.01 dB, 1.2069 ms later, first dip at 414.3 Hz.</summary>
    [Fact]
    public void A_pane_throws_back_the_image()
    {
        var pane = new ReflectingPane { Id = "glass", Corner = new Point3(-1, 0.5, -1), First = new Point3(3, 0, 0), Second = new Point3(0, 0, 3) };
        var reflection = PlacementStudy.Compute(_two with { Drivers = [Driver("one", 1, 0, 0)], Panes = [pane] }).Paths[0].Reflections.Single();

        Assert.Equal(Math.Sqrt(2), reflection.PathMeters, 1e-12);
        Assert.Equal((Math.Sqrt(2) - 1) / 343.2, reflection.DelaySeconds, 1e-12);
        Assert.Equal(-3.0103, reflection.Decibels, 1e-4);
        Assert.Equal(343.2 / (2 * (Math.Sqrt(2) - 1)), reflection.NotchHertz[0], 1e-6);
        Assert.Equal(3, reflection.NotchHertz[1] / reflection.NotchHertz[0], 1e-9);
        // −3 dB leaves 20·log10(1 − 0.7079) = −10.69 dB and adds up to +4.65 dB.
        Assert.Equal(-10.67, reflection.NotchDecibels, 0.05);
        Assert.Equal(4.65, reflection.PeakDecibels, 0.02);
    }

    [Fact]
    public void A_pane_out_of_the_way_or_between_throws_nothing_back()
    {
        var small = new ReflectingPane { Id = "small", Corner = new Point3(5, 0.5, 5), First = new Point3(0.1, 0, 0), Second = new Point3(0, 0, 0.1) };
        var between = new ReflectingPane { Id = "between", Corner = new Point3(0.5, -1, -1), First = new Point3(0, 2, 0), Second = new Point3(0, 0, 2) };

        Assert.Empty(PlacementStudy.Compute(_two with { Drivers = [Driver("one", 1, 0, 0)], Panes = [small, between] }).Paths[0].Reflections);
    }

    [Fact]
    public void A_reflection_is_never_earlier_than_the_direct_sound() =>
        Gen.Select(Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[0.1, 1]).Sample(one =>
        {
            var (x, y, z, height) = one;
            var pane = new ReflectingPane { Id = "floor", Corner = new Point3(-50, -50, -1 - height), First = new Point3(100, 0, 0), Second = new Point3(0, 100, 0) };
            var input = _two with { Drivers = [Driver("one", 1.5 + x, y, z)], Panes = [pane] };
            var path = PlacementStudy.Compute(input).Paths[0];
            var back = PlacementStudy.Compute(input with { Drivers = [Driver("one", 0, 0, 0)], Ears = [new ListeningPlace("left", new Point3(1.5 + x, y, z))] }).Paths[0];
            Assert.True(path.Reflections.Single().DelaySeconds > 0);
            Assert.Equal(path.Reflections.Single().PathMeters, back.Reflections.Single().PathMeters, 1e-9);
        }, iter: 200);

    [Fact]
    public void What_is_not_possible_is_named()
    {
        Assert.Contains((_two with { Ears = [new ListeningPlace("left", new Point3(1, 0, 0))] }).Validate(), problem => problem.Field == "Ears[0].Place");
        Assert.Contains((_two with { Drivers = [Driver("one", 1, 0, 0) with { Axis = default }] }).Validate(), problem => problem.Field == "Drivers[0].Axis");
        Assert.Contains((_two with { Drivers = [] }).Validate(), problem => problem.Field == "Drivers");
        Assert.Contains((_two with { Panes = [new ReflectingPane { Id = "p", Corner = default, First = new Point3(1, 0, 0), Second = new Point3(2, 0, 0) }] }).Validate(), problem => problem.Field == "Panes[0].First");
        Assert.Contains(PlacementStudy.Compute(_two with { Drivers = [Driver("away", 1, 0, 0) with { Axis = new Point3(1, 0, 0) }] }).Findings, finding => finding.Code == "driver-looks-away");
    }

    private static PlacedDriver Driver(string id, double x, double y, double z) => new() { Id = id, Place = new Point3(x, y, z), Axis = new Point3(-x, -y, -z) is { Length: > 0 } towards ? towards : new Point3(1, 0, 0), PistonRadiusMeters = 0.06 };
}
