using System.Numerics;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Analysis;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Factory;

/// <summary>Finds crossover, level, delay, polarity and all-passes of factory outputs, adds the outputs up and undoes what was done to them.</summary>
/// <remarks>
/// Phase beyond the minimum phase (Oppenheim and Schafer, Discrete-Time Signal Processing) is taken apart into delay, polarity and all-passes. Nothing causal undoes an all-pass with
/// filters of this kind: the outputs without it get the same one, so that they add up again. The sum's level is brought to flat by least squares.
/// </remarks>
public static class FactorySignal
{
    private const int PointsPerOctave = 48;
    private const double EdgeDecibels = 6;
    private const double PhaseDecibels = 20;
    private const double FallDecibels = 30;
    private const double FloorDecibels = 45;
    private const double LeastOctaves = 1;
    private const double CancelledDecibels = 3;
    private const int LeastPoints = 8;
    private const double WorthDecibels = 0.05;
    private const double WorthDelaySeconds = 20e-6;
    private const string Practice = "common practice, no source";
    internal const string Phase = "Oppenheim and Schafer, Discrete-Time Signal Processing: minimum phase and all-pass";

    /// <summary>Computes it.</summary>
    /// <param name="input">Outputs, sample rate and limits.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <param name="cancellationToken">Ends the search.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="FactorySignalInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    public static FactorySignalResult Compute(FactorySignalInput input, UnitText? text = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(input);
        InputChecks.ThrowIfAny(input.Validate(text));
        var words = text ?? UnitText.Invariant;
        var found = input.Outputs.Select(output => Found(output, cancellationToken)).ToList();
        var (earliest, latest) = (found.Min(one => one.Delay), found.Max(one => one.Delay));
        var filters = found.Select(one => one.AllPasses.Select(ExcessFit.Setting).ToList()).ToList();
        List<FactoryOutputResult> outputs =
        [
            .. found.Select((one, n) => new FactoryOutputResult(
                input.Outputs[n].Id, one.Level, one.Low, one.High, one.Delay - earliest, one.Inverted, filters[n], one.Left, latest - one.Delay,
                [.. filters.Where((_, other) => other != n).SelectMany(others => others).Where(filter => !filters[n].Exists(own => Same(own, filter))).DistinctBy(filter => (Math.Round(8 * Math.Log2(filter.Hertz)), Math.Round(3 * Math.Log2(filter.Q))))])),
        ];

        var top = Math.Min(input.Outputs.Max(output => output.Response.Hertz[^1]), 0.99 * FilterLimits.LargestHertz(input.SampleRateHertz));
        var grid = new FrequencyGrid(OctaveSmoothing.Spaced(input.Outputs.Min(output => output.Response.Hertz[0]), top, PointsPerOctave), input.SampleRateHertz);
        var plain = Sums(input, grid, (n, hertz) => Turned(hertz, input.Outputs[n].ArrivalSeconds - earliest, false));
        var added = outputs.Select(one => grid.Response(one.AddFilters.Select(filter => CookbookFilters.Design(filter, input.SampleRateHertz)))).ToList();
        // Each output's own arrival and what is added to it; a common delay changes no level.
        var joined = Sums(input, grid, (n, hertz) => Turned(hertz, input.Outputs[n].ArrivalSeconds + outputs[n].AddDelaySeconds - earliest, outputs[n].IsInverted), added);
        var sum = new FrequencyResponse(grid.Hertz, joined.Decibels, null);
        var (level, low, high) = Edges(sum);
        var (from, to) = (low?.Hertz ?? grid.Hertz[0], high?.Hertz ?? grid.Hertz[^1]);
        var (equaliser, corrected) = Flattened(input, grid, joined, from, to, cancellationToken);
        double Lost(double[] losses) => -Enumerable.Range(0, losses.Length).Where(n => grid.Hertz[n] >= from && grid.Hertz[n] <= to).Min(n => losses[n]);
        var result = new FactorySignalResult(outputs, grid.Hertz, plain.Decibels, joined.Decibels, corrected, from, to, earliest, Lost(plain.Losses), Lost(joined.Losses), equaliser, [], new Explanation("", "", [], [], [], null));
        return result with { Findings = Find(input, result, words), Explanation = Explain(input, result, words) };
    }

    private static (double Level, FactoryEdge? Low, FactoryEdge? High, double Delay, bool Inverted, List<(double Hertz, double Q)> AllPasses, double Left) Found(FactoryOutput output, CancellationToken cancellationToken)
    {
        cancellationToken.ThrowIfCancellationRequested();
        var (level, low, high) = Edges(output.Response);
        var excess = MinimumPhase.Excess(Carried(output.Response, level));
        // Far below the band the phase is noise.
        int[] used = [.. Enumerable.Range(0, excess.Hertz.Count).Where(n => output.Response.Decibels[n] >= level - PhaseDecibels)];
        var (from, to) = (used[0], used[^1]);
        // What the level does beyond the measured ends decides the minimum phase there, so they stay out.
        var (least, most) = (output.Response.Hertz[0] * 1.26, output.Response.Hertz[^1] / 1.26);
        List<int> kept = [.. Enumerable.Range(from, to - from + 1).Where(n => excess.Hertz[n] >= least && excess.Hertz[n] <= most)];
        if (kept.Count < 8)
            kept = [.. Enumerable.Range(from, to - from + 1)];
        var (delay, inverted, filters, left) = new ExcessFit([.. kept.Select(n => excess.Hertz[n])], [.. kept.Select(n => excess.ExcessRadians[n])]).Best();
        return (level, low, high, output.ArrivalSeconds + delay, inverted, filters, left);
    }

    // Level of the band, and the ends where it is 6 dB lower, seen from outside so that a dip within does not end it.
    private static (double Level, FactoryEdge? Low, FactoryEdge? High) Edges(FrequencyResponse response)
    {
        var level = OctaveSmoothing.Power(response, 1).Decibels.Max();
        return (level, Edge(1), Edge(-1));

        FactoryEdge? Edge(int step)
        {
            var n = step > 0 ? 0 : response.Hertz.Count - 1;
            var outer = n;
            while (response.Decibels[n] < level - EdgeDecibels)
                n += step;
            if (n == outer)
                return null;
            var (inside, outside) = (response.Decibels[n] - level + EdgeDecibels, response.Decibels[n - step] - level + EdgeDecibels);
            var hertz = response.Hertz[n] * Math.Pow(response.Hertz[n - step] / response.Hertz[n], inside / (inside - outside));
            List<(double X, double Y)> fall = [];
            for (var k = n - step; k >= 0 && k < response.Hertz.Count && response.Decibels[k] >= level - 42; k -= step)
            {
                if (response.Decibels[k] <= level - 18)
                    fall.Add((Math.Log2(response.Hertz[k]), response.Decibels[k]));
            }

            if (fall.Count < 4)
                return new FactoryEdge(hertz, null);
            var (x, y) = (fall.Average(one => one.X), fall.Average(one => one.Y));
            return new FactoryEdge(hertz, Math.Abs(fall.Sum(one => (one.X - x) * (one.Y - y)) / fall.Sum(one => (one.X - x) * (one.X - x))));
        }
    }

    // A floor of noise beside the band would count as level that does not fall any further, and its minimum phase as a delay: the slope is carried on instead.
    private static FrequencyResponse Carried(FrequencyResponse response, double level)
    {
        double[] levels = [.. response.Decibels];
        foreach (var step in new[] { 1, -1 })
        {
            // Inwards from the end, the last place below what is fitted.
            var n = step > 0 ? 0 : levels.Length - 1;
            while (levels[n] < level - FloorDecibels)
                n += step;
            List<(double X, double Y)> fall = [];
            for (var k = n; k >= 0 && k < levels.Length && response.Decibels[k] < level - FallDecibels; k += step)
                fall.Add((Math.Log2(response.Hertz[k]), response.Decibels[k]));
            if (n == (step > 0 ? 0 : levels.Length - 1) || fall.Count < 4)
                continue;
            var (x, y) = (fall.Average(one => one.X), fall.Average(one => one.Y));
            var slope = fall.Sum(one => (one.X - x) * (one.Y - y)) / fall.Sum(one => (one.X - x) * (one.X - x));
            for (var k = n - step; k >= 0 && k < levels.Length; k -= step)
                levels[k] = levels[n] + slope * Math.Log2(response.Hertz[k] / response.Hertz[n]);
        }

        return response with { Decibels = levels };
    }

    private static Complex Turned(double hertz, double seconds, bool inverted) => Complex.FromPolarCoordinates(inverted ? -1 : 1, -2 * Math.PI * hertz * seconds);

    private static (double[] Decibels, double[] Losses) Sums(FactorySignalInput input, FrequencyGrid grid, Func<int, double, Complex> placed, List<Complex[]>? filters = null)
    {
        var (levels, losses) = (new double[grid.Hertz.Count], new double[grid.Hertz.Count]);
        for (var i = 0; i < levels.Length; i++)
        {
            var (hertz, sum, all) = (grid.Hertz[i], Complex.Zero, 0.0);
            for (var n = 0; n < input.Outputs.Count; n++)
            {
                if (!input.Outputs[n].Response.Covers(hertz))
                    continue;
                var one = input.Outputs[n].Response.At(hertz) * placed(n, hertz) * (filters?[n][i] ?? 1);
                (sum, all) = (sum + one, all + one.Magnitude);
            }

            levels[i] = 20 * Math.Log10(Math.Max(sum.Magnitude, 1e-10));
            losses[i] = all > 0 ? 20 * Math.Log10(Math.Max(sum.Magnitude / all, 1e-10)) : 0;
        }

        return (levels, losses);
    }

    private static (EqualiserFitResult? Fit, double[] Corrected) Flattened(FactorySignalInput input, FrequencyGrid grid, (double[] Decibels, double[] Losses) sum, double fromHertz, double toHertz, CancellationToken cancellationToken)
    {
        var joined = sum.Decibels;
        var (from, to) = (Math.Max(fromHertz, input.Limits.FromHertz), Math.Min(toHertz, input.Limits.ToHertz));
        if (Math.Log2(to / from) < LeastOctaves)
            return (null, joined);
        List<int> band = [.. Enumerable.Range(0, joined.Length).Where(n => grid.Hertz[n] >= from && grid.Hertz[n] <= to)];
        var ordered = band.Select(n => joined[n]).Order().ToList();
        var wanted = ordered[ordered.Count / 2];
        // Electrical dips are filters of the factory, so they are filled; where outputs still cancel each other a boost would raise what is not there.
        double[] weights = [.. sum.Losses.Select(loss => loss < -CancelledDecibels ? 0.0 : 1.0)];
        if (band.Count(n => weights[n] > 0) < LeastPoints)
            return (null, joined);
        EqualiserFitResult Fit(int filters) => EqualiserFit.Compute(
            new EqualiserFitInput
            {
                SampleRateHertz = input.SampleRateHertz, Hertz = grid.Hertz, MeasuredDecibels = joined, TargetDecibels = [.. joined.Select(_ => wanted)], Limits = input.Limits with { FromHertz = from, ToHertz = to, Filters = filters }, Weights = weights, Nulls = null, Starts = 20,
            },
            cancellationToken: cancellationToken);
        var fit = Fit(input.Limits.Filters);
        // Every input of the side carries them: those that hardly change anything are left out.
        var enough = fit.RmsByCountDecibels.ToList().FindIndex(rms => rms - fit.RmsDecibels < WorthDecibels);
        if (enough >= 0 && enough < fit.Filters.Count && enough >= (input.Limits.LowShelf ? 1 : 0) + (input.Limits.HighShelf ? 1 : 0))
            fit = Fit(enough);
        return (fit, [.. fit.PredictedDecibels]);
    }

    private static bool Same(FilterSetting one, FilterSetting other) => Math.Abs(Math.Log2(one.Hertz / other.Hertz)) < 1.0 / 12 && Math.Abs(Math.Log2(one.Q / other.Q)) < 0.3;

    private static IReadOnlyList<Finding> Find(FactorySignalInput input, FactorySignalResult result, UnitText words)
    {
        var findings = new FindingList("factory", "Factory signal");
        foreach (var (one, output) in result.Outputs.Zip(input.Outputs))
        {
            if (one.DelaySeconds >= WorthDelaySeconds)
                findings.About(one.OutputId, output.Name, "factory-delay", Severity.Note, $"It comes {words.With(one.DelaySeconds * 1e3, "ms", 3)} after the earliest output.", "Delay the others by as much before they are added up.", Practice);
            if (one.IsInverted)
                findings.About(one.OutputId, output.Name, "factory-inverted", Severity.Warn, "Its polarity is turned.", "Turn it back in the processor, after looking whether two wires are swapped.", Practice);
            foreach (var filter in one.AllPasses)
                findings.About(one.OutputId, output.Name, "factory-all-pass", Severity.Warn, $"It holds an all-pass at {words.With(filter.Hertz, "Hz")}, Q {words.Number(filter.Q)}: the phase is turned and the level is not.", "Filters cannot take it out; the outputs without it get the same one so that they add up.", Phase);
            if (one.LeftRadians > 0.35)
                findings.About(one.OutputId, output.Name, "factory-phase-unexplained", Severity.Warn, $"{words.With(one.LeftRadians * 180 / Math.PI, "°")} rms of its phase are explained by no delay and no all-pass found here.", "Measure again without other outputs and effects; look whether the sound is processed with the volume or the speed of the vehicle.", Phase);
        }

        if (result.JoinedLossDecibels > CancelledDecibels)
            findings.Add("factory-sum-loses", Severity.Warn, $"Put together, the outputs still lose up to {words.With(result.JoinedLossDecibels, "dB")} against each other.", "Choose fewer outputs that cover the band, or a signal before the factory amplifier.", Practice);
        if (result.ToHertz < 16_000 || result.FromHertz > 40)
            findings.Add("factory-band-short", Severity.Warn, $"The sum holds {words.With(result.FromHertz, "Hz")} to {words.With(result.ToHertz, "Hz")}.", "Add the outputs that carry the rest; what is missing is not boosted.", Practice);
        findings.Add("factory-volume", Severity.Note, "Factory equalisers often change with the volume.", "Measure at the volume that is used, and once more 10 dB lower.", Practice);
        return findings.Sorted;
    }

    private static Explanation Explain(FactorySignalInput input, FactorySignalResult result, UnitText words) => new(
        "What does the factory do to the music, and what undoes it?",
        $"The sum holds {words.With(result.FromHertz, "Hz")} to {words.With(result.ToHertz, "Hz")}; it loses up to {words.With(result.PlainLossDecibels, "dB")} as it comes, {words.With(result.JoinedLossDecibels, "dB")} joined.",
        [new ExplainedInput("Outputs", input.Outputs.Count, "", "measured"), new ExplainedInput("Sample rate", input.SampleRateHertz, "Hz", "entered")],
        [
            new ExplainedStep("End of a band", "level of the loudest octave − 6 dB", "each output", string.Join(", ", result.Outputs.Select(one => $"{(one.Low is { } low ? words.With(low.Hertz, "Hz") : "–")} to {(one.High is { } high ? words.With(high.Hertz, "Hz") : "–")}")), Practice),
            new ExplainedStep("Delay and all-passes", "φ − φmin = −2πfτ + kπ + Σ arg A(f)", "least squares within 20 dB of the band's level", string.Join(", ", result.Outputs.Select(one => words.With(one.DelaySeconds * 1e3, "ms", 3))), Phase),
            new ExplainedStep("Filters on the sum", "least Σ(level − flat)²", $"{result.Equaliser?.Filters.Count ?? 0} filters", result.Equaliser is { } fit ? $"{words.With(fit.RmsBeforeDecibels, "dB")} to {words.With(fit.RmsDecibels, "dB")} rms" : "none", Practice),
        ],
        [],
        null);
}
