using CsCheck;
using ShopFloor.Engineering.Signal.Loads;

namespace ShopFloor.Engineering.Tests.Signal;

public class LoadTests
{
    // Ohm's law tables: two coils of 4 Ω are 8 Ω in series, 2 Ω in parallel; four are 4 Ω in series-parallel, 1 Ω all in parallel.
    [Fact]
    public void Series_and_parallel_of_equal_coils()
    {
        CoilWiring a = new Coil("a"), b = new Coil("b"), c = new Coil("c"), d = new Coil("d");
        Assert.Equal(8, CoilWiring.Series(a, b).Ohms(_ => 4), 12);
        Assert.Equal(2, CoilWiring.Parallel(a, b).Ohms(_ => 4), 12);
        Assert.Equal(4, CoilWiring.Parallel(CoilWiring.Series(a, b), CoilWiring.Series(c, d)).Ohms(_ => 4), 12);
        Assert.Equal(1, CoilWiring.Parallel(a, b, c, d).Ohms(_ => 4), 12);
    }

    private static readonly Gen<CoilWiring> Wirings = Gen.Recursive<CoilWiring>((depth, inner) => depth > 3
        ? Gen.Int[1, 4].Select(n => (CoilWiring)new Coil("d", n))
        : Gen.OneOf(Gen.Int[1, 4].Select(n => (CoilWiring)new Coil("d", n)), Gen.Select(Gen.Enum<CoilJoin>(), inner.Array[1, 4]).Select((join, parts) => (CoilWiring)new CoilGroup(join, parts))));

    [Fact]
    public void Shares_of_the_power_add_up_and_the_load_grows_with_every_coil() =>
        Gen.Select(Wirings, Gen.Double[0.5, 16], Gen.Double[1.01, 2]).Sample((wiring, ohms, factor) =>
        {
            var shares = wiring.Shares(coil => ohms * coil.Number).Sum(pair => pair.Share);
            var before = wiring.Ohms(coil => ohms * coil.Number);
            return Math.Abs(shares - 1) < 1e-9
                && Math.Abs(wiring.Ohms(coil => ohms * factor * coil.Number) - factor * before) < 1e-9 * before * factor
                && wiring.Ohms(coil => coil.Number == 1 ? ohms * factor : ohms * coil.Number) >= before * (1 - 1e-12);
        });

    // P = V²/R: 100 W/4 Ω 20 V; 500 W/1 Ω 22.361 V; 300 W/2 Ω 24.495 V.
    [Theory]
    [InlineData(100, 4, 20)]
    [InlineData(500, 1, 22.361)]
    [InlineData(300, 2, 24.495)]
    public void Voltage_of_a_rated_power(double watts, double ohms, double volts) =>
        Assert.Equal(volts, AvailablePower.Volts([new RatedPower(ohms, watts)], ohms)!.Value, 3);

    [Fact]
    public void Between_rated_loads_the_output_follows_a_source_with_an_inner_resistance()
    {
        // 75 W/4 Ω and 110 W/2 Ω: 17.321 V at 4.330 A and 14.832 V at 7.416 A, so R = 0.8063 Ω behind 20.812 V; into 3 Ω 16.403 V.
        RatedPower[] points = [new(4, 75), new(2, 110)];
        Assert.Equal(16.403, AvailablePower.Volts(points, 3)!.Value, 3);
        Assert.Equal(75, AvailablePower.Watts(points, 4)!.Value, 9);
        Assert.Equal(110, AvailablePower.Watts(points, 2)!.Value, 9);
        Assert.Equal(37.5, AvailablePower.Watts(points, 8)!.Value, 9);
        Assert.Null(AvailablePower.Watts(points, 1.9));
    }

    [Fact]
    public void Between_two_rated_loads_the_voltage_lies_between_theirs() =>
        Gen.Select(Gen.Double[20, 500], Gen.Double[1, 2], Gen.Double[2, 4]).Sample((watts, gain, ohms) =>
        {
            RatedPower[] points = [new(4, watts), new(2, watts * gain)];
            var volts = AvailablePower.Volts(points, ohms)!.Value;
            return volts <= Math.Sqrt(4 * watts) * (1 + 1e-9) && volts >= Math.Sqrt(2 * watts * gain) * (1 - 1e-9);
        });

    [Fact]
    public void Bridged_each_channel_sees_half_the_load()
    {
        var path = SamplePath.Good();
        var bridged = path with { Loads = [new ChannelLoad { Id = "b", AmplifierId = "six", Outputs = ["1", "2"], Wiring = new Coil("bass-l") }] };
        var channel = Assert.Single(LoadMap.Of(bridged));
        Assert.Equal(4, channel.NominalOhms);
        Assert.Equal(2, channel.OhmsPerChannel);
        Assert.Equal(220, channel.AvailableWatts!.Value, 9);
        Assert.Equal(3.2, channel.MinimumOhms, 12); // 80 % of nominal, IEC 60268-5, from memory
    }
}
