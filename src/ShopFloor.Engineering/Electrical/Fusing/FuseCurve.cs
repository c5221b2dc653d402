using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Fusing;

/// <summary>Opening times of a fuse at one current.</summary>
/// <param name="Percent">Current in percent of the rating.</param>
/// <param name="MinSeconds">It does not open earlier, s; null when nothing is said.</param>
/// <param name="MaxSeconds">It has opened by then, s; null when it need not open at all.</param>
public sealed record FuseCurvePoint(double Percent, double? MinSeconds, double? MaxSeconds);

/// <summary>How fast fuses of a form open: a band between the earliest and the latest time. A maker's own curve takes its place.</summary>
/// <remarks>
/// Between two points both times are interpolated by straight lines of log time over log current. Up to 100 %, and not yet at the
/// first point, no opening is expected; below the first point with a latest time it need not open. Beyond the last point the earliest
/// time falls as the melting heat I²·t stays the same, and the latest time stays where it is: both are the cautious side.
/// </remarks>
public sealed record FuseCurve
{
    /// <summary>Name shown with every result.</summary>
    public required string Name { get; init; }

    /// <summary>Standard or maker's sheet.</summary>
    public required string Source { get; init; }

    /// <summary>Whether the times were recalled without the text at hand.</summary>
    public bool IsFromMemory { get; init; }

    /// <summary>Points, rising current.</summary>
    public required IReadOnlyList<FuseCurvePoint> Points { get; init; }

    /// <summary>Earliest opening, s; infinite where no opening is expected.</summary>
    /// <param name="percent">Current in percent of the rating, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The current is negative or not finite.</exception>
    public double MinSeconds(double percent)
    {
        Require(percent);
        var known = Points.Where(p => p.MinSeconds is not null).Select(p => (p.Percent, Seconds: p.MinSeconds!.Value)).ToList();
        if (known.Count == 0)
            return percent <= 100 ? double.PositiveInfinity : 0;
        if (percent < known[0].Percent)
            return percent <= 100 ? double.PositiveInfinity : known[0].Seconds;
        var last = known[^1];
        return percent >= last.Percent
            ? last.Seconds * (last.Percent / percent) * (last.Percent / percent)
            : Between(known, percent);
    }

    /// <summary>Latest opening, s; infinite where it need not open.</summary>
    /// <param name="percent">Current in percent of the rating, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The current is negative or not finite.</exception>
    public double MaxSeconds(double percent)
    {
        Require(percent);
        var known = Points.Where(p => p.MaxSeconds is not null).Select(p => (p.Percent, Seconds: p.MaxSeconds!.Value)).ToList();
        if (known.Count == 0 || percent < known[0].Percent)
            return double.PositiveInfinity;
        return percent >= known[^1].Percent ? known[^1].Seconds : Between(known, percent);
    }

    /// <summary>What is wrong with a curve someone entered; empty when it can be used.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        text ??= UnitText.Invariant;
        var checks = new InputChecks(text);
        checks.Named(nameof(Name), "Curve name", Name);
        checks.Named(nameof(Source), "Curve source", Source);
        if (!Points.Any(p => p.MinSeconds is not null) || !Points.Any(p => p.MaxSeconds is not null))
            checks.Add(nameof(Points), "Curve: enter at least one earliest and one latest opening time.");
        (double? Min, double? Max) before = (null, null);
        for (var i = 0; i < Points.Count; i++)
        {
            var point = Points[i];
            var (field, label) = ($"{nameof(Points)}[{i}]", $"Point {i + 1}");
            checks.InRange($"{field}.Percent", $"{label}, current in percent", point.Percent, 50, 100_000);
            checks.InRange($"{field}.MinSeconds", $"{label}, earliest time in seconds", point.MinSeconds, 1e-6, 1e7);
            checks.InRange($"{field}.MaxSeconds", $"{label}, latest time in seconds", point.MaxSeconds, 1e-6, 1e7);
            if (i > 0 && point.Percent <= Points[i - 1].Percent)
                checks.Add($"{field}.Percent", $"{label}, current: {text.Number(point.Percent)} % does not come after {text.Number(Points[i - 1].Percent)} %; enter points in rising order.");
            if (point.MinSeconds > point.MaxSeconds)
                checks.Add($"{field}.MaxSeconds", $"{label}, latest time: {text.Number(point.MaxSeconds.Value)} s is before the earliest, {text.Number(point.MinSeconds.Value)} s.");
            if (point.MinSeconds > before.Min)
                checks.Add($"{field}.MinSeconds", $"{label}, earliest time: {text.Number(point.MinSeconds.Value)} s is above {text.Number(before.Min.Value)} s at a smaller current; a larger current cannot take longer.");
            if (point.MaxSeconds > before.Max)
                checks.Add($"{field}.MaxSeconds", $"{label}, latest time: {text.Number(point.MaxSeconds.Value)} s is above {text.Number(before.Max.Value)} s at a smaller current; a larger current cannot take longer.");
            before = (point.MinSeconds ?? before.Min, point.MaxSeconds ?? before.Max);
        }

        return checks.Problems;
    }

    private static double Between(List<(double Percent, double Seconds)> known, double percent)
    {
        var i = known.FindIndex(p => p.Percent >= percent);
        var (a, b) = (known[i - 1 < 0 ? 0 : i - 1], known[i]);
        if (a.Percent == b.Percent || percent == b.Percent)
            return b.Seconds;
        var share = Math.Log(percent / a.Percent) / Math.Log(b.Percent / a.Percent);
        return a.Seconds * Math.Pow(b.Seconds / a.Seconds, share);
    }

    private static void Require(double percent)
    {
        if (!double.IsFinite(percent) || percent < 0)
            throw new ArgumentOutOfRangeException(nameof(percent), percent, "Enter a current of 0 % or more.");
    }
}
