using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Equalisation;

/// <summary>Brings a response to a target with bells and shelves.</summary>
public static class EqualiserFit
{
    /// <summary>Finds the filters whose error in dB is least in the mean square, within the limits.</summary>
    /// <param name="input">Response, target and limits.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <param name="cancellationToken">Ends the search.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="EqualiserFitInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    public static EqualiserFitResult Compute(EqualiserFitInput input, IProgress<TuningProgress>? progress = null, UnitText? text = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(input);
        InputChecks.ThrowIfAny(input.Validate(text));
        text ??= UnitText.Invariant;
        var nulls = input.Nulls?.Find(input.Hertz, input.MeasuredDecibels) ?? [];
        var limits = input.Limits;
        double Weight(int i) => nulls.Any(one => one.Covers(input.Hertz[i])) ? 0 : input.Weights?[i] ?? 1;
        int[] used = [.. Enumerable.Range(0, input.Hertz.Count).Where(i => input.Hertz[i] >= limits.FromHertz && input.Hertz[i] <= limits.ToHertz && Weight(i) > 0)];
        // Where nearly all would be left alone there is nothing to fit to: then all counts.
        if (used.Length < 8)
        {
            nulls = [];
            used = [.. Enumerable.Range(0, input.Hertz.Count).Where(i => input.Hertz[i] >= limits.FromHertz && input.Hertz[i] <= limits.ToHertz && Weight(i) > 0)];
        }

        // What lies in a dip is not fitted, but filters beside it must not raise it either.
        int[] dips = [.. Enumerable.Range(0, input.Hertz.Count).Where(i => input.Hertz[i] >= limits.FromHertz && input.Hertz[i] <= limits.ToHertz && nulls.Any(one => one.Covers(input.Hertz[i])))];
        int[] fitted = [.. used.Concat(dips).Order()];
        var mean = used.Average(Weight);
        var grid = new FrequencyGrid([.. fitted.Select(i => input.Hertz[i])], input.SampleRateHertz);
        var model = new EqualiserModel(
            grid, [.. fitted.Select(i => input.MeasuredDecibels[i] - input.TargetDecibels[i])], [.. fitted.Select(i => dips.Contains(i) ? 1 : Weight(i) / mean)], [],
            [.. Enumerable.Range(0, fitted.Length).Where(k => dips.Contains(fitted[k]))]);
        var search = new EqualiserSearch(model, [.. grid.Hertz], limits, input.Starts, input.Seed, progress, cancellationToken);
        var (parameters, kinds, _) = search.Run();

        // Finer than any processor and any ear; the last digits differ between machines.
        var offset = Math.Round(parameters[0], 3);
        var filters = Settings(parameters, kinds).Where(filter => Math.Abs(filter.GainDecibels) >= 0.05).OrderBy(filter => filter.Hertz).ToList();
        var everywhere = new FrequencyGrid(input.Hertz, input.SampleRateHertz);
        double[] change = [.. everywhere.Response(filters.Select(filter => CookbookFilters.Design(filter, input.SampleRateHertz))).Select(value => 20 * Math.Log10(value.Magnitude) + offset)];
        double[] predicted = [.. input.MeasuredDecibels.Zip(change, (measured, by) => measured + by)];
        var worst = used.MaxBy(i => Math.Abs(predicted[i] - input.TargetDecibels[i]));
        var result = new EqualiserFitResult
        {
            Filters = filters,
            OffsetDecibels = offset,
            RmsBeforeDecibels = Math.Round(Math.Sqrt(search.CostByCount[0] / used.Length), 5),
            RmsDecibels = Math.Sqrt(used.Average(i => Weight(i) / mean * Math.Pow(predicted[i] - input.TargetDecibels[i], 2))),
            RmsByCountDecibels = [.. search.CostByCount.Select(sum => Math.Round(Math.Sqrt(sum / used.Length), 4))],
            LargestErrorDecibels = predicted[worst] - input.TargetDecibels[worst],
            LargestErrorHertz = input.Hertz[worst],
            PredictedDecibels = predicted,
            Nulls = nulls,
            HeadroomLostDecibels = Math.Max(0, change.Max()),
            LocalFits = search.Fits,
            Findings = [],
            Explanation = new Explanation("", "", [], [], [], null),
        };
        return result with { Findings = EqualiserWords.Findings(input, result, text), Explanation = EqualiserWords.Explain(input, result, used.Length, text) };
    }

    private static IEnumerable<FilterSetting> Settings(double[] parameters, IReadOnlyList<FilterKind> kinds) => kinds.Select((kind, k) => new FilterSetting
    {
        Kind = kind, Hertz = Math.Round(Math.Pow(2, parameters[1 + 3 * k]), 2), GainDecibels = Math.Round(parameters[2 + 3 * k], 3), Q = Math.Round(Math.Pow(2, parameters[3 + 3 * k]), 3),
    });
}
