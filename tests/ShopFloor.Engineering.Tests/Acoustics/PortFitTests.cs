using CsCheck;
using ShopFloor.Engineering.Acoustics.Enclosures;

namespace ShopFloor.Engineering.Tests.Acoustics;

public class PortFitTests
{
    private static readonly PortFitInput Pipe = new() { LengthMeters = 0.3, DiameterMeters = 0.1, PortWallMeters = 0.003, BoxWallMeters = 0.018, DepthMeters = 0.4, AcrossMeters = 0.35 };

    // 400 + 18 − 100 mm of free air = 318 mm.
    [Theory]
    [InlineData(0.318, true)]
    [InlineData(0.319, false)]
    public void A_straight_pipe_ends_one_diameter_before_the_wall(double length, bool fits)
    {
        var result = PortFit.Check(Pipe with { LengthMeters = length });

        Assert.Equal(fits, result.Fits);
        Assert.Equal(0.318, result.LongestMeters, 1e-12);
        Assert.Equal(fits, !result.Findings.Any(finding => finding.Code == "port-too-long"));
    }

    // 418 − 53 = 365 mm to the bend, 350 − 53 − 100 = 197 mm after it.
    [Fact]
    public void A_bend_gives_the_second_leg()
    {
        var result = PortFit.Check(Pipe with { LengthMeters = 0.5, Run = PortRun.OneBend });

        Assert.True(result.Fits);
        Assert.Equal((0.365, 0.135, 0.562), (Math.Round(result.FirstLegMeters, 9), Math.Round(result.SecondLegMeters, 9), Math.Round(result.LongestMeters, 9)));
    }

    // 200 − 53 − 100 = 47 mm after the bend would end inside the first leg of 106 mm: what is left is a straight one.
    [Fact]
    public void A_box_too_narrow_for_the_second_leg_has_no_bend() =>
        Assert.Equal(0.318, PortFit.Check(Pipe with { Run = PortRun.OneBend, AcrossMeters = 0.2 }).LongestMeters, 1e-12);

    // 343.2 m/s (ISO 9613-1 at 20 °C) over 2 · 0.3 m; 282 mm inside by π/4 · 106² mm².
    [Fact]
    public void The_pipe_sounds_at_half_a_wave_and_takes_its_outer_volume()
    {
        var result = PortFit.Check(Pipe);

        Assert.Equal(572.0, result.PipeResonanceHertz, 1e-9);
        Assert.Equal(0.282 * Math.PI / 4 * 0.106 * 0.106, result.DisplacementCubicMeters, 1e-12);
    }

    // The slot's far side is a wall of the box: one board of 18 mm counts, over a width of 364 mm.
    [Fact]
    public void A_slot_shares_a_wall_with_the_box() =>
        Assert.Equal(0.282 * 0.364 * (0.03 + 0.018), PortFit.Check(Pipe with { DiameterMeters = null, SlotHeightMeters = 0.03, SlotWidthMeters = 0.364, PortWallMeters = 0.018 }).DisplacementCubicMeters, 1e-12);

    [Fact]
    public void Both_legs_together_are_the_port_and_a_longer_box_never_hurts() =>
        Gen.Select(Gen.Double[0.05, 2], Gen.Double[0.02, 0.2], Gen.Double[0.1, 1], Gen.Double[0.1, 1], Gen.Bool).Sample((length, bore, depth, across, bent) =>
        {
            var input = Pipe with { LengthMeters = length, DiameterMeters = bore, DepthMeters = depth, AcrossMeters = across, Run = bent ? PortRun.OneBend : PortRun.Straight };
            var result = PortFit.Check(input);
            Assert.Equal(length, result.FirstLegMeters + result.SecondLegMeters, 1e-12);
            Assert.True(PortFit.Check(input with { DepthMeters = depth * 1.1, AcrossMeters = across * 1.1 }).LongestMeters >= result.LongestMeters);
        });

    [Fact]
    public void A_port_is_round_or_a_slot()
    {
        Assert.Equal("DiameterMeters", Assert.Single((Pipe with { DiameterMeters = null }).Validate()).Field);
        Assert.Equal("DiameterMeters", Assert.Single((Pipe with { SlotHeightMeters = 0.03, SlotWidthMeters = 0.3 }).Validate()).Field);
        Assert.Equal("LengthMeters", Assert.Single((Pipe with { LengthMeters = double.NaN }).Validate()).Field);
    }
}
