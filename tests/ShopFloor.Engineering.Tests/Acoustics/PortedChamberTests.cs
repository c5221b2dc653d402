using CsCheck;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Physics;

namespace ShopFloor.Engineering.Tests.Acoustics;

public class PortedChamberTests
{
    // A front chamber of 22 l with a pipe of 100 mm, 106 mm outside.
    private static readonly PortedChamberInput Front = new() { WithoutPortCubicMeters = 0.022, TuningHertz = 50, PortSquareMeters = Math.PI * 0.05 * 0.05, OutsideSquareMeters = Math.PI * 0.053 * 0.053 };

    // By hand, step after step: L = (343.2/(2π·50))²·S/V − (0.6133 + 0.8488)·50 mm, V = 22 l − π·53²·L, until both rest at 367.2 mm and 18.76 l.
    [Fact]
    public void Volume_and_length_rest_where_each_asks_for_the_other()
    {
        var (volume, length) = (0.022, 0.0);
        for (var n = 0; n < 200; n++)
        {
            length = Math.Pow(343.2 / (100 * Math.PI), 2) * Math.PI * 0.0025 / volume - (0.6133 + 8 / (3 * Math.PI)) * 0.05;
            volume = 0.022 - Math.PI * 0.053 * 0.053 * length;
        }

        var result = PortedChamber.Compute(Front);

        Assert.Equal(volume, result.NetCubicMeters!.Value, 1e-7);
        Assert.Equal(length, result.LengthMeters!.Value, 1e-5);
        Assert.Empty(result.Findings);
    }

    [Fact]
    public void What_is_left_and_what_the_port_takes_are_the_chamber_and_the_port_gives_the_tuning() =>
        Gen.Select(Gen.Double[0.01, 0.2], Gen.Double[25, 90], Gen.Double[0.03, 0.15], Gen.Int[1, 3], Gen.Double[0, 0.025]).Sample((volume, hertz, bore, ports, wall) =>
        {
            var input = new PortedChamberInput { WithoutPortCubicMeters = volume, TuningHertz = hertz, Ports = ports, PortSquareMeters = Math.PI / 4 * bore * bore, OutsideSquareMeters = Math.PI / 4 * (bore + 0.01) * (bore + 0.01), BoxWallMeters = wall };
            var result = PortedChamber.Compute(input);
            if (result is not { NetCubicMeters: { } net, LengthMeters: { } length })
                return result.Findings.Count == 1;
            return Math.Abs(net + result.DisplacementCubicMeters - volume) < 1e-9
                && Math.Abs(PortLength.Meters(Air.Standard, net / ports, hertz, input.PortSquareMeters, (PortEnd.Flush, PortEnd.Free))!.Value - length) < 1e-9;
        });

    [Fact]
    public void A_port_that_takes_more_than_there_is_stops() =>
        Assert.Equal("port-fills-chamber", Assert.Single(PortedChamber.Compute(Front with { TuningHertz = 25, WithoutPortCubicMeters = 0.012 }).Findings).Code);

    [Fact]
    public void A_tuning_that_the_ends_alone_are_too_long_for_is_said() =>
        Assert.Equal("enclosure-port-too-short", Assert.Single(PortedChamber.Compute(Front with { TuningHertz = 150, WithoutPortCubicMeters = 0.2 }).Findings).Code);

    [Fact]
    public void A_wall_of_the_port_cannot_be_thinner_than_nothing() =>
        Assert.Equal(nameof(PortedChamberInput.OutsideSquareMeters), Assert.Single((Front with { OutsideSquareMeters = 0.001 }).Validate()).Field);
}
