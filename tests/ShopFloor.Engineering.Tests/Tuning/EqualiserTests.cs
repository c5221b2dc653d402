using System.Diagnostics;
using CsCheck;
using ShopFloor.Engineering.Tuning;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;
using Xunit.Abstractions;

namespace ShopFloor.Engineering.Tests.Tuning;

public class EqualiserTests(ITestOutputHelper output)
{
    /// <summary>Responses, targets and bands of five channels, with the error scipy.optimize.least_squares (trf, add-one-and-refit, random restarts) came to with bells of
    /// −12 to +3 dB, Q 0.5 to 8 and a level of −6 to +3 dB, and how long it took, s. With 3 and 4 filters: scipy.optimize.differential_evolution (Sobol start, 12 times the unknowns,
    /// 250 rounds) polished by least_squares, and the best of that and 25 random starts of least_squares, SciPy 1.10.</summary>
    public static TheoryData<string, double, double, int, double, double> Optimised => new()
    {
        { "left_tweeter_mid", 300, 16_000, 5, 2.4330, 10.4 },
        { "left_tweeter_mid", 300, 16_000, 10, 1.7582, 26.5 },
        { "right_tweeter_mid", 300, 16_000, 5, 2.4111, 10.5 },
        { "right_tweeter_mid", 300, 16_000, 10, 1.4459, 26.2 },
        { "midbass_pair", 60, 350, 3, 1.9454, 5.7 },
        { "midbass_pair", 60, 350, 4, 1.7709, 11.1 },
        { "midbass_pair", 60, 350, 5, 1.2367, 10.5 },
        { "midbass_pair", 60, 350, 10, 0.0609, 26.3 },
        { "subwoofer", 40, 110, 3, 1.0491, 11.8 },
        { "subwoofer", 40, 110, 4, 0.5944, 15.9 },
        { "subwoofer", 40, 110, 5, 0.3469, 10.4 },
        { "subwoofer", 40, 110, 10, 0.0415, 26.4 },
        { "system_sum", 40, 16_000, 5, 2.6814, 10.5 },
        { "system_sum", 40, 16_000, 10, 1.8559, 26.0 },
    };

    [Theory]
    [MemberData(nameof(Optimised))]
    public void The_fit_is_no_worse_than_the_reference_optimiser(string channel, double from, double to, int filters, double reference, double seconds)
    {
        var input = Seat(channel, from, to, filters);
        var watch = Stopwatch.StartNew();
        var result = EqualiserFit.Compute(input);
        output.WriteLine($"{channel} {filters}: {result.RmsDecibels:0.0000} dB (reference {reference:0.0000} dB, {seconds} s) in {watch.Elapsed.TotalSeconds:0.00} s, {result.LocalFits} fits, offset {result.OffsetDecibels:0.00}, greedy {string.Join(" ", result.RmsByCountDecibels.Select(rms => rms.ToString("0.000", System.Globalization.CultureInfo.InvariantCulture)))}");
        // The reference is printed with four decimals; a thousandth of a decibel cannot be heard or set.
        Assert.True(result.RmsDecibels <= reference + 1e-3, $"{result.RmsDecibels:0.0000} dB, reference {reference:0.0000} dB");
        Assert.All(result.Filters, filter => Assert.True(filter.GainDecibels is >= -12 and <= 3 && filter.Q is >= 0.499999 and <= 8.00001 && filter.Hertz >= from * 0.99999 && filter.Hertz <= to * 1.00001));
        Assert.InRange(result.OffsetDecibels, -6, 3);
    }

    [Fact]
    public void The_error_told_is_that_of_scipys_response_of_the_filters()
    {
        var input = Seat("system_sum", 40, 16_000, 8) with { Starts = 5 };
        var result = EqualiserFit.Compute(input);
        var answer = Scipy.Ask(
            """
            f=np.array(given['hertz']); e=np.array(given['measured'])+given['offset']-np.array(given['target'])
            for s in given['sos']: e=e+20*np.log10(abs(ss.freqz(s[:3],s[3:],worN=f,fs=48000)[1]))
            m=(f>=40)&(f<=16000)
            answer=float(np.sqrt(np.mean(e[m]**2)))
            """,
            new
            {
                hertz = input.Hertz, measured = input.MeasuredDecibels, target = input.TargetDecibels, offset = result.OffsetDecibels,
                sos = result.Filters.Select(filter => CookbookFilters.Design(filter, 48_000)).Select(s => new[] { s.B0, s.B1, s.B2, 1, s.A1, s.A2 }),
            });
        Assert.Equal(answer.GetDouble(), result.RmsDecibels, 2e-4);
    }

    [Fact]
    public void Filters_laid_over_a_level_response_are_found_again()
    {
        FilterSetting[] laid =
        [
            new() { Kind = FilterKind.LowShelf, Hertz = 120, GainDecibels = -5, Q = 0.7 },
            new() { Kind = FilterKind.Peaking, Hertz = 400, GainDecibels = -6, Q = 3 },
            new() { Kind = FilterKind.Peaking, Hertz = 2_500, GainDecibels = 2.5, Q = 2 },
            new() { Kind = FilterKind.HighShelf, Hertz = 7_000, GainDecibels = -4, Q = 0.7 },
        ];
        var grid = FrequencyGrid.LogSpaced(20, 20_000, 240, 48_000);
        double[] wanted = [.. grid.Response(laid.Select(filter => CookbookFilters.Design(filter, 48_000))).Select(value => 20 * Math.Log10(value.Magnitude))];
        var result = EqualiserFit.Compute(new EqualiserFitInput
        {
            Hertz = grid.Hertz, MeasuredDecibels = new double[240], TargetDecibels = wanted,
            Limits = new EqualiserLimits { Filters = 4, LowShelf = true, HighShelf = true, FromHertz = 20, ToHertz = 20_000 },
        });
        Assert.True(result.RmsDecibels < 1e-3, $"{result.RmsDecibels}");
        foreach (var (expected, found) in laid.Zip(result.Filters))
        {
            Assert.Equal(expected.Kind, found.Kind);
            Assert.Equal(expected.Hertz, found.Hertz, expected.Hertz * 1e-3);
            Assert.Equal(expected.GainDecibels, found.GainDecibels, 0.01);
            Assert.Equal(expected.Q, found.Q, 0.01);
        }
    }

    [Fact]
    public void The_derivatives_are_those_of_small_differences() =>
        Gen.Select(Gen.Int[0, 2].Select(n => new[] { FilterKind.Peaking, FilterKind.LowShelf, FilterKind.HighShelf }[n]), Gen.Double[6, 13.5], Gen.Double[-12, 12], Gen.Double[-1, 3]).Sample((kind, logHertz, gain, logQ) =>
        {
            var grid = FrequencyGrid.LogSpaced(20, 20_000, 60, 48_000);
            var model = new EqualiserModel(grid, new double[60], [.. Enumerable.Repeat(1.0, 60)], [kind]);
            double[] x = [0.5, logHertz, gain, logQ];
            double[][] slopes = [.. x.Select(_ => new double[model.Points])];
            double[] at = new double[model.Points], plus = new double[model.Points], minus = new double[model.Points];
            model.Evaluate(x, at, slopes);
            for (var i = 0; i < x.Length; i++)
            {
                double[] up = [.. x], down = [.. x];
                up[i] += 1e-5;
                down[i] -= 1e-5;
                model.Evaluate(up, plus, null);
                model.Evaluate(down, minus, null);
                for (var j = 0; j < 60; j++)
                {
                    if (Math.Abs((plus[j] - minus[j]) / 2e-5 - slopes[i][j]) > 1e-4 * (1 + Math.Abs(slopes[i][j])))
                        return false;
                }
            }

            return true;
        });

    [Fact]
    public void The_same_input_gives_the_same_filters_and_another_seed_may_not()
    {
        var input = Seat("subwoofer", 40, 110, 4) with { Starts = 10 };
        Assert.Equal(EqualiserFit.Compute(input).Filters, EqualiserFit.Compute(input).Filters);
    }

    [Fact]
    public void More_filters_are_never_worse()
    {
        var errors = EqualiserFit.Compute(Seat("right_tweeter_mid", 300, 16_000, 8) with { Starts = 0 }).RmsByCountDecibels;
        Assert.Equal(9, errors.Count);
        Assert.All(errors.Zip(errors.Skip(1)), pair => Assert.True(pair.Second <= pair.First + 1e-9));
    }

    // A reflection 1 dB below the direct sound and 1.5 ms later: dips of 20·lg(1 − 10^(−1/20)) = −19 dB at 333 Hz, 1 kHz, 1.67 kHz …
    [Fact]
    public void A_dip_that_cancels_itself_is_named_and_not_boosted()
    {
        var grid = FrequencyGrid.LogSpaced(100, 900, 200, 48_000);
        double[] comb = [.. grid.Hertz.Select(f => 20 * Math.Log10((1 + Math.Pow(10, -1 / 20.0) * System.Numerics.Complex.Exp(new System.Numerics.Complex(0, -2 * Math.PI * f * 0.0015))).Magnitude))];
        var input = new EqualiserFitInput
        {
            Hertz = grid.Hertz, MeasuredDecibels = comb, TargetDecibels = [.. comb.Select(_ => 0.0)], Starts = 10,
            Limits = new EqualiserLimits { Filters = 6, FromHertz = 100, ToHertz = 900, LargestGainDecibels = 12 },
            Nulls = new NullRule(6, 0.8),
        };
        var careful = EqualiserFit.Compute(input);
        var careless = EqualiserFit.Compute(input with { Nulls = null });
        var found = Assert.Single(careful.Nulls);
        Assert.Equal(333, found.DeepestHertz, 6.0);
        var at = Enumerable.Range(0, 200).MinBy(i => Math.Abs(grid.Hertz[i] - 333));
        Assert.True(careless.PredictedDecibels[at] - comb[at] > 6);
        Assert.True(careful.PredictedDecibels[at] - comb[at] < 1);
        Assert.Contains(careful.Findings, finding => finding.Code == "null-left-alone");
    }

    [Fact]
    public void A_search_can_be_ended_and_tells_how_far_it_is()
    {
        using var source = new CancellationTokenSource();
        var told = new Told(progress =>
        {
            if (progress.DoneShare > 0.2)
                source.Cancel();
        });
        Assert.Throws<OperationCanceledException>(() => EqualiserFit.Compute(Seat("subwoofer", 40, 110, 3) with { Starts = 50 }, told, null, source.Token));
        Assert.True(told.Last!.DoneShare < 0.5);
        Assert.NotNull(told.Last.BestDecibels);
    }

    [Fact]
    public void Smoothing_is_the_mean_power_within_the_width()
    {
        // Of 0 and 10·lg 3 dB within the width: mean power 2, 3.0103 dB.
        Assert.Equal([3.0103, 3.0103, 0], OctaveMean.Of([100, 110, 1_000], [0, 4.7712, 0], 0.5).Select(value => Math.Round(value, 4)));
    }

    [Fact]
    public void Every_built_in_target_can_be_used()
    {
        Assert.All(TargetCurve.BuiltIn, target => Assert.Empty(target.Validate()));
        // Halfway between 300 and 1,200 Hz over log frequency lies 600 Hz.
        var target = new TargetCurve { Name = "T", Points = [new(300, 4, 2, 3), new(1_200, 0, 4, 3)] };
        Assert.Equal(new TargetPoint(600, 2, 3, 3), target.At(600) with { Decibels = Math.Round(target.At(600).Decibels, 9), AboveDecibels = Math.Round(target.At(600).AboveDecibels, 9) });
        Assert.Equal((4, 0), (target.At(10).Decibels, target.At(20_000).Decibels));
    }

    [Fact]
    public void What_cannot_be_fitted_is_named_with_its_range()
    {
        var input = Seat("subwoofer", 40, 110, 3);
        Assert.Equal("Weights", Assert.Single((input with { Weights = [1, 2] }).Validate()).Field);
        Assert.Equal("Hertz[5]", Assert.Single((input with { Hertz = [.. input.Hertz.Select((f, i) => i == 5 ? 1 : f)] }).Validate()).Field);
        Assert.Equal("Limits.ToHertz", Assert.Single((input with { Limits = input.Limits with { FromHertz = 200 } }).Validate()).Field);
        Assert.Equal("Limits", Assert.Single((input with { Limits = input.Limits with { FromHertz = 108 } }).Validate()).Field);
        Assert.Equal("Limits.Filters", Assert.Single((input with { Limits = input.Limits with { Filters = 1, LowShelf = true, HighShelf = true } }).Validate()).Field);
        Assert.Equal("MeasuredDecibels[0]", Assert.Single((input with { MeasuredDecibels = [double.NaN, .. input.MeasuredDecibels.Skip(1)] }).Validate()).Field);
    }

    private static EqualiserFitInput Seat(string channel, double from, double to, int filters)
    {
        var rows = Fixture.Rows("seat_responses.csv");
        return new EqualiserFitInput
        {
            Hertz = rows.Column("freq_hz"), MeasuredDecibels = rows.Column($"{channel}_smoothed_db"), TargetDecibels = rows.Column($"{channel}_target_db"),
            Limits = new EqualiserLimits { Filters = filters, FromHertz = from, ToHertz = to }, Nulls = null,
        };
    }

    private sealed class Told(Action<TuningProgress> heard) : IProgress<TuningProgress>
    {
        public TuningProgress? Last { get; private set; }

        public void Report(TuningProgress value)
        {
            Last = value;
            heard(value);
        }
    }
}
