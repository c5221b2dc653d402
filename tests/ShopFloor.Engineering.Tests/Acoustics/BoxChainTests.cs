using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Tests.Acoustics;

/// <summary>Filters, a measured cabin and isobaric pairs in the study of a box.</summary>
public sealed class BoxChainTests
{
    private static readonly DriverSheet _woofer = new()
    {
        ResonanceHertz = 29, Qes = 0.51, Qms = 5.8, VasCubicMeters = 0.036, PistonSquareMeters = 0.0346, ReOhms = 3.4, XmaxMeters = 0.015, RatedWatts = 500,
    };

    // Butterworth: 3.0103 dB down at the corner, 10·log10(1 + 2⁸) = 24.0993 dB an octave above for order 4.
    [Theory]
    [InlineData(80, -3.0103)]
    [InlineData(160, -24.0993)]
    public void A_low_pass_of_fourth_order_falls_as_butterworth_says(double hertz, double decibels) =>
        Assert.Equal(decibels, 20 * Math.Log10(FilteredResponse.Gain(ButterworthLowPass.Sections(80, 4), hertz).Magnitude), 1e-4);

    [Fact]
    public void A_measured_cabin_takes_the_place_of_the_estimate()
    {
        var measured = new FrequencyResponse([20, 40, 80], [14, 8, 2], null);
        var result = EnclosureStudy.Compute(Study() with { Cabin = new CabinLift(55, null, measured) });

        for (var at = 0; at < result.Response.Count; at++)
            Assert.Equal(measured.DecibelsAt(result.Response[at].Hertz), result.InCarDecibels![at] - result.Response[at].LevelDecibels, 1e-9);
        Assert.Contains(result.Explanation.Steps, step => step.Source == "measurement in the car");
        Assert.DoesNotContain(result.Findings, finding => finding.Code == "enclosure-transfer-short");
    }

    [Fact]
    public void A_measurement_that_ends_too_soon_is_said()
    {
        var result = EnclosureStudy.Compute(Study() with { Cabin = new CabinLift(55, null, new FrequencyResponse([30, 60], [8, 4], null)) });

        Assert.Contains(result.Findings, finding => finding.Code == "enclosure-transfer-short");
    }

    // A bell of 6 dB asks 1.995 times the voltage of an amplifier that is at its end: its share of the level ends 6 dB lower.
    [Fact]
    public void A_boost_is_told_to_clip_and_the_largest_level_does_not_rise_with_it()
    {
        var plain = EnclosureStudy.Compute(Study());
        var raised = EnclosureStudy.Compute(Study() with { Filters = [new FilterSection(FilterKind.Bell, 45, 1, 6)] });

        Assert.Contains(raised.Findings, finding => finding.Code == "enclosure-boost-clips");
        Assert.DoesNotContain(plain.Findings, finding => finding.Code == "enclosure-boost-clips");
        Assert.All(plain.Largest.Zip(raised.Largest), pair => Assert.True(pair.Second.LevelDecibels <= pair.First.LevelDecibels + 1e-9));
    }

    // Two on one piston: half the Vas at the same resonance and Q; in half the box the same Qtc (Small 1972: Qtc = Qts·√(1 + Vas/Vb)).
    [Fact]
    public void An_isobaric_pair_needs_half_the_box()
    {
        var one = EnclosureStudy.Compute(Study());
        var pair = EnclosureStudy.Compute(Study() with { Simulation = Study().Simulation with { Count = 2, Isobaric = true, Box = new ClosedBox { NetCubicMeters = 0.012 } } });

        Assert.Equal(one.Qtc!.Value, pair.Qtc!.Value, 1e-9);
        Assert.Equal(one.Driver.VasCubicMeters(Air.Standard) / 2, pair.Driver.VasCubicMeters(Air.Standard), 1e-12);
        Assert.Equal(one.CornerHertz!.Value, pair.CornerHertz!.Value, 0.5);
    }

    [Fact]
    public void Three_drivers_do_not_make_pairs()
    {
        var problem = Assert.Single((Study().Simulation with { Count = 3, Isobaric = true }).Validate());

        Assert.Equal(nameof(EnclosureInput.Count), problem.Field);
        Assert.Contains("2, 4", problem.Message, StringComparison.Ordinal);
    }

    private static EnclosureStudyInput Study() => new()
    {
        Id = "box", Name = "Box", Simulation = new EnclosureInput { Driver = _woofer, Box = new ClosedBox { NetCubicMeters = 0.024 }, Volts = 20, AmplifierVolts = 20, FromHertz = 10, ToHertz = 500, Points = 81 },
    };
}
