using ShopFloor.Engineering.Tuning.Filters;

namespace ShopFloor.Engineering.Tuning.Equalisation;

/// <summary>Left and right brought to the same curve first, each with filters of its own, then both to the target with the same filters, which cannot part them again.</summary>
public sealed record PairFitResult
{
    /// <summary>Filters of the left channel: its own, then the common ones.</summary>
    public required IReadOnlyList<FilterSetting> LeftFilters { get; init; }

    /// <summary>Filters of the right channel: its own, then the common ones.</summary>
    public required IReadOnlyList<FilterSetting> RightFilters { get; init; }

    /// <summary>Change of level of the left, dB.</summary>
    public required double LeftOffsetDecibels { get; init; }

    /// <summary>Change of level of the right, dB.</summary>
    public required double RightOffsetDecibels { get; init; }

    /// <summary>Difference of left and right before, dB rms.</summary>
    public required double DifferenceBeforeDecibels { get; init; }

    /// <summary>Difference of left and right after, dB rms.</summary>
    public required double DifferenceDecibels { get; init; }

    /// <summary>Error of both against the target after, dB rms.</summary>
    public required double RmsDecibels { get; init; }
}

/// <summary>Fits a left and a right channel together.</summary>
public static class PairFit
{
    /// <summary>Fits.</summary>
    /// <param name="left">Left: response, target and limits; the number of filters is that of each channel.</param>
    /// <param name="rightDecibels">Response of the right at the same frequencies, dB.</param>
    /// <param name="ownFilters">How many of the filters of each channel are its own; the others are common.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancellationToken">Ends it.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range; the parameter name is the field.</exception>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    public static PairFitResult Compute(EqualiserFitInput left, IReadOnlyList<double> rightDecibels, int ownFilters, IProgress<TuningProgress>? progress = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(left);
        ArgumentNullException.ThrowIfNull(rightDecibels);
        ArgumentOutOfRangeException.ThrowIfNegative(ownFilters);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(ownFilters, left.Limits.Filters);
        ArgumentOutOfRangeException.ThrowIfNotEqual(rightDecibels.Count, left.Hertz.Count);
        // A dip of one side is no dip of the car: their mean is what both can reach.
        double[] mean = [.. left.MeasuredDecibels.Zip(rightDecibels, (l, r) => (l + r) / 2)];
        var own = left.Limits with { Filters = ownFilters, LowShelf = false, HighShelf = false };
        var matchLeft = EqualiserFit.Compute(left with { TargetDecibels = mean, Limits = own }, progress, null, cancellationToken);
        var matchRight = EqualiserFit.Compute(left with { MeasuredDecibels = rightDecibels, TargetDecibels = mean, Limits = own }, progress, null, cancellationToken);
        double[] matched = [.. matchLeft.PredictedDecibels.Zip(matchRight.PredictedDecibels, (l, r) => (l + r) / 2)];
        var common = EqualiserFit.Compute(left with { MeasuredDecibels = matched, Limits = left.Limits with { Filters = left.Limits.Filters - ownFilters } }, progress, null, cancellationToken);
        double[] change = [.. common.PredictedDecibels.Zip(matched, (after, before) => after - before)];
        int[] used = [.. Enumerable.Range(0, left.Hertz.Count).Where(i => left.Hertz[i] >= left.Limits.FromHertz && left.Hertz[i] <= left.Limits.ToHertz)];
        double Rms(Func<int, double> value) => Math.Sqrt(used.Average(i => value(i) * value(i)));
        return new PairFitResult
        {
            LeftFilters = [.. matchLeft.Filters, .. common.Filters],
            RightFilters = [.. matchRight.Filters, .. common.Filters],
            LeftOffsetDecibels = matchLeft.OffsetDecibels + common.OffsetDecibels,
            RightOffsetDecibels = matchRight.OffsetDecibels + common.OffsetDecibels,
            DifferenceBeforeDecibels = Rms(i => left.MeasuredDecibels[i] - rightDecibels[i]),
            DifferenceDecibels = Rms(i => matchLeft.PredictedDecibels[i] - matchRight.PredictedDecibels[i]),
            RmsDecibels = Math.Sqrt((Square(Rms(i => matchLeft.PredictedDecibels[i] + change[i] - left.TargetDecibels[i])) + Square(Rms(i => matchRight.PredictedDecibels[i] + change[i] - left.TargetDecibels[i]))) / 2),
        };
    }

    private static double Square(double value) => value * value;
}
