using CsCheck;
using ShopFloor.Engineering.Electrical.Runs;
using ShopFloor.Engineering.Units;

// Not in a namespace of its own: the test builder Runs has that name.
namespace ShopFloor.Engineering.Tests.Electrical;

public class SpeakerRunTests
{
    private static SpeakerRunInput Run(double meters, int? awg, double ohms, double? damping = null) => new()
    {
        LengthMeters = meters,
        AreaSquareMillimeters = awg is { } gauge ? WireGauge.AreaSquareMillimeters(gauge) : null,
        LoadOhms = ohms,
        AmplifierDampingFactor = damping,
    };

    // A sound reinforcement magazine's worked example: 0.01 Ω amplifier, 0.19 Ω run.
    [Theory]
    [InlineData(8, 40)]
    [InlineData(6, 30)]
    [InlineData(4, 20)]
    public void Damping_factor_matches_the_published_example(double ohms, double factor) => Assert.Equal(factor, SpeakerRun.DampingFactor(ohms, 0.01, 0.19), 9);

    // Published note on speaker wire: 100 ft of 16 AWG, about −0.86 dB at 8 Ω and −1.65 dB at 4 Ω; its wire data are not given, so 5 %.
    [Theory]
    [InlineData(8, 0.86)]
    [InlineData(4, 1.65)]
    public void Loss_of_100_ft_of_16_awg_matches_the_published_note(double ohms, double decibels)
    {
        var figures = SpeakerRun.Compute(Run(30.48, 16, ohms)).Entered!;

        Assert.InRange(figures.LossDecibels, decibels * 0.95, decibels * 1.05);
    }

    [Fact]
    public void Loop_of_5_m_of_16_awg_matches_the_published_table()
    {
        // An amplifier maker's manual: 0.131 Ω; stranding and its rounding leave 3 %.
        Assert.InRange(SpeakerRun.Compute(Run(5, 16, 4)).Entered!.LoopOhms, 0.131 * 0.97, 0.131 * 1.03);
    }

    // Independent calculation without stranding allowance: 16 AWG 5 m 4 Ω DF 26.4, 12 AWG DF 55.5, with 200 stated at 4 Ω.
    [Theory]
    [InlineData(16, 26.4, 0.281)]
    [InlineData(12, 55.5, 0.112)]
    public void Damping_and_loss_at_4_ohm_match_an_independent_calculation(int awg, double factor, double decibels)
    {
        var figures = SpeakerRun.Compute(Run(5, awg, 4, 200)).Entered!;

        Assert.InRange(figures.DampingFactor, factor * 0.975, factor * 1.005);
        Assert.InRange(figures.LossDecibels, decibels * 0.995, decibels * 1.025);
    }

    [Fact]
    public void Least_gauge_keeps_the_limits_and_the_next_thinner_does_not()
    {
        var input = Run(6, null, 4, 200) with { MinDampingFactor = 50 };
        var least = SpeakerRun.Compute(input).LeastConductor!;
        var thinner = Engineering.Electrical.ConductorSize.Gauges.Last(g => g.AreaSquareMillimeters < least.AreaSquareMillimeters);

        Assert.Empty(SpeakerRun.Compute(input with { AreaSquareMillimeters = least.AreaSquareMillimeters }).Findings);
        Assert.Contains(SpeakerRun.Compute(input with { AreaSquareMillimeters = thinner.AreaSquareMillimeters }).Findings, f => f.Code == "speaker-run-too-thin");
    }

    [Fact]
    public void Worst_loss_is_at_the_lowest_impedance()
    {
        // 80 % of 4 Ω: 20·log10((3.2 + R)/3.2).
        var figures = SpeakerRun.Compute(Run(5, 16, 4)).Entered!;

        Assert.Equal(20 * Math.Log10((3.2 + figures.LoopOhms) / 3.2), figures.WorstLossDecibels, 9);
        Assert.Equal(100 * (1 - Math.Pow(10, -figures.LossDecibels / 10)), figures.PowerLossPercent, 9);
    }

    [Fact]
    public void Warm_conductor_has_the_resistance_of_warm_copper()
    {
        // (234.5 + 60)/254.5 = 1.15717, FAA AC 43.13-1B, chapter 11.
        var (cold, warm) = (SpeakerRun.Compute(Run(5, 16, 4)).Entered!, SpeakerRun.Compute(Run(5, 16, 4) with { ConductorCelsius = 60 }).Entered!);

        Assert.Equal(1.15717, warm.LoopOhms / cold.LoopOhms, 0.00001);
    }

    [Fact]
    public void Amplifier_that_falls_short_alone_is_named() =>
        Assert.Contains(SpeakerRun.Compute(Run(1, null, 4, 20)).Findings, f => f.Code == "speaker-run-no-gauge" && f.Remedy.Contains("amplifier", StringComparison.Ordinal));

    [Fact]
    public void Lowest_impedance_above_the_rated_one_is_refused() =>
        Assert.Equal("MinimumOhms", Assert.Single((Run(5, 16, 4) with { MinimumOhms = 5 }).Validate()).Field);

    [Fact]
    public void Longer_runs_lose_more_and_damp_less() =>
        Gen.Select(Gen.Double[0.1, 50], Gen.Double[1.01, 2], Gen.Double[1, 16], Gen.Int[-3, 18]).Sample((meters, factor, ohms, awg) =>
        {
            var (near, far) = (SpeakerRun.Compute(Run(meters, awg, ohms, 100)).Entered!, SpeakerRun.Compute(Run(meters * factor, awg, ohms, 100)).Entered!);
            return far.LossDecibels > near.LossDecibels && far.DampingFactor < near.DampingFactor && far.PowerLossPercent > near.PowerLossPercent;
        });

    [Fact]
    public void Signal_cable_rolls_off_where_the_textbook_low_pass_does()
    {
        // 1/(2π·1 kΩ·1 nF) = 159.155 kHz; an input of 10 MΩ moves it by 0.01 %. At 20 kHz 10·log10(1 + 0.12566²) = 0.0680 dB.
        var result = SignalRun.Compute(new SignalRunInput { LengthMeters = 10, SourceOhms = 1000, InputOhms = 10e6, FaradsPerMeter = 100e-12 });

        Assert.Equal(159_155, result.CornerHertz, 30.0);
        Assert.Equal(0.0680, result.LossAt20KilohertzDecibels, 0.0002);
        Assert.Empty(result.Findings);
    }

    [Fact]
    public void Source_of_high_impedance_on_a_long_cable_is_warned_about() =>
        Assert.Contains(SignalRun.Compute(new SignalRunInput { LengthMeters = 20, SourceOhms = 5000, InputOhms = 47_000 }).Findings, f => f.Code == "signal-run-treble-loss");

    [Fact]
    public void Longer_signal_cable_loses_more_treble() =>
        Gen.Select(Gen.Double[0.1, 50], Gen.Double[1.01, 2], Gen.Double[10, 10_000]).Sample((meters, factor, ohms) =>
            SignalRun.Compute(new SignalRunInput { LengthMeters = meters * factor, SourceOhms = ohms }).LossAt20KilohertzDecibels
            > SignalRun.Compute(new SignalRunInput { LengthMeters = meters, SourceOhms = ohms }).LossAt20KilohertzDecibels);

    [Fact]
    public void Cut_list_adds_the_service_loop_and_counts_both_conductors()
    {
        // By hand: (4 + 0.3)·2 + (2 + 0.5)·2 = 13.6 m.
        var result = CableCutList.Compute(new CableCutListInput
        {
            Cuts = [new("l", "Left", "16 AWG", 4, 0.3, 2), new("r", "Right", "16 AWG", 2, 0.5, 2), new("s", "Signal", "shielded pair", null)],
        });

        Assert.Equal(13.6, Assert.Single(result.Totals).TotalMeters, 9);
        Assert.Equal("s", Assert.Single(result.Findings).SubjectId);
    }

    [Fact]
    public void Input_under_ten_times_the_output_impedance_is_noted()
    {
        // 1 kΩ into 5 kΩ: 20·log10(6/5) = 1.584 dB.
        var low = SignalRun.Compute(new SignalRunInput { LengthMeters = 1, SourceOhms = 1000, InputOhms = 5000 });

        Assert.Equal(1.584, low.BridgingLossDecibels, 0.001);
        Assert.Contains(low.Findings, f => f.Code == "signal-run-bridging");
        Assert.DoesNotContain(SignalRun.Compute(new SignalRunInput { LengthMeters = 1, SourceOhms = 1000, InputOhms = 10_000 }).Findings, f => f.Code == "signal-run-bridging");
    }
}
