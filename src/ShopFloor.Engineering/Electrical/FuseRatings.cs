using ShopFloor.Engineering.Electrical.Fusing;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Standard fuse ratings and the rule that picks the smallest rating for a load.</summary>
public static class FuseRatings
{
    private const double Rounding = 1e-9;

    /// <summary>Small blade, 2 to 30 A.</summary>
    public static FuseSeries MiniBlade { get; } = new(
        FuseForm.MiniBlade, "small blade", [2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30], 1000, 32,
        "range and 32 V: ISO 8820; single ratings and interrupt rating typical, from memory")
    {
        Curve = FuseCurves.Blade,
    };

    /// <summary>Blade, 1 to 40 A.</summary>
    public static FuseSeries Blade { get; } = new(
        FuseForm.Blade, "blade", [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40], 1000, 32,
        "range and 32 V: ISO 8820; single ratings and interrupt rating typical, from memory")
    {
        Curve = FuseCurves.Blade,
    };

    /// <summary>High-current blade, 20 to 120 A.</summary>
    public static FuseSeries HighCurrentBlade { get; } = new(
        FuseForm.HighCurrentBlade, "high-current blade", [20, 30, 40, 50, 60, 70, 80, 100, 120], 1000, 32,
        "range: ISO 8820; single ratings, voltage and interrupt rating typical, from memory")
    {
        Curve = FuseCurves.HighCurrentBlade,
    };

    /// <summary>Small bolt-in, 30 to 200 A.</summary>
    public static FuseSeries BoltInSmall { get; } = new(
        FuseForm.BoltInSmall, "small bolt-in", [30, 40, 50, 60, 70, 80, 100, 125, 150, 175, 200], 1000, 32,
        "from memory; use the maker's data")
    {
        Curve = FuseCurves.BoltIn,
    };

    /// <summary>Large bolt-in, 60 to 500 A.</summary>
    public static FuseSeries BoltInLarge { get; } = new(
        FuseForm.BoltInLarge, "large bolt-in",
        [60, 80, 100, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500], 2000, 32,
        "from memory; use the maker's data")
    {
        Curve = FuseCurves.BoltIn,
    };

    /// <summary>Large bolt-in for systems above 32 V, 60 to 500 A.</summary>
    public static FuseSeries BoltInLarge58Volts { get; } =
        BoltInLarge with { Name = "large bolt-in, 58 V", VoltageRating = 58, Source = "58 V form: makers' guides; ratings and interrupt rating from memory, use the maker's data" };

    /// <summary>Block with female contacts, 20 to 140 A.</summary>
    public static FuseSeries FemaleBlock { get; } = new(
        FuseForm.FemaleBlock, "female block", [20, 25, 30, 40, 50, 60, 70, 80, 100, 120, 140], 1000, 32,
        "range, 32 V and 58 V, 1000 A: ISO 8820-4; single ratings from memory");

    /// <summary>Block with female contacts for systems above 32 V, 20 to 140 A.</summary>
    public static FuseSeries FemaleBlock58Volts { get; } = FemaleBlock with { Name = "female block, 58 V", VoltageRating = 58 };

    /// <summary>Long bolted strip, 35 to 750 A. Interrupt rating differs by maker: the least remembered is used.</summary>
    public static FuseSeries Strip { get; } = new(
        FuseForm.Strip, "bolted strip",
        [35, 40, 50, 60, 80, 100, 130, 150, 175, 200, 225, 250, 275, 300, 325, 350, 400, 500, 600, 675, 750], 2700, 32,
        "from memory; use the maker's data");

    /// <summary>Further series a shop can add to its rules, the strip kept in reserve by them already; without a time-current band of their own unless one is shown.</summary>
    public static IReadOnlyList<FuseSeries> Further { get; } = [BoltInLarge58Volts, FemaleBlock, FemaleBlock58Volts, Strip];

    /// <summary>Every series, in the order a distribution point prefers them when ratings are equal.</summary>
    public static IReadOnlyList<FuseSeries> All { get; } = [Blade, MiniBlade, HighCurrentBlade, BoltInSmall, BoltInLarge];

    /// <summary>Smallest rating that may carry a continuous load: I / loading, more in hot surroundings when asked.</summary>
    /// <remarks>
    /// Loading 0.75 to 0.80 is fuse makers' handbook practice. The temperature term kT = 1 − derating·(Ta − 25) is for small fuses
    /// (0.002 per °C, a generic derating guide); it is off unless a derating is given.
    /// </remarks>
    /// <param name="continuousAmperes">Load, A.</param>
    /// <param name="loading">Share of the rating that may flow for hours.</param>
    /// <param name="ambientCelsius">Ambient of the fuse, °C.</param>
    /// <param name="deratingPerCelsius">Rating lost per °C above 25 °C, for example 0.002.</param>
    /// <returns>The least rating, A; the fuse is the next standard rating at or above it.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite, the load is negative, or no loading is left.</exception>
    public static double MinimumRating(
        double continuousAmperes, double loading = ElectricalDefaults.ContinuousLoading, double ambientCelsius = 25, double deratingPerCelsius = 0)
    {
        if (!double.IsFinite(continuousAmperes) || continuousAmperes < 0)
            throw new ArgumentOutOfRangeException(nameof(continuousAmperes), continuousAmperes, "Enter a current of 0 A or more.");
        if (!(loading > 0 && loading <= 1))
            throw new ArgumentOutOfRangeException(nameof(loading), loading, "Enter a share above 0 and up to 1.");
        var temperature = Math.Min(1, 1 - deratingPerCelsius * (ambientCelsius - 25));
        if (!(temperature > 0))
            throw new ArgumentOutOfRangeException(nameof(ambientCelsius), ambientCelsius, "No rating is left at this ambient.");
        return continuousAmperes / (loading * temperature);
    }

    /// <summary>Smallest standard rating in a window, or null. At equal ratings the earlier series wins.</summary>
    /// <param name="series">Series to choose from.</param>
    /// <param name="fromAmperes">Least rating, A.</param>
    /// <param name="toAmperes">Largest rating, A.</param>
    /// <param name="circuitVolts">Circuit voltage, V; series rated below it are left out (33 CFR 183.455(d)).</param>
    public static FuseChoice? Smallest(IReadOnlyList<FuseSeries> series, double fromAmperes, double toAmperes, double circuitVolts) =>
        Within(series, fromAmperes, toAmperes, circuitVolts).MinBy(c => c.RatingAmperes);

    /// <summary>Largest standard rating in a window, or null. At equal ratings the earlier series wins.</summary>
    /// <inheritdoc cref="Smallest"/>
    public static FuseChoice? Largest(IReadOnlyList<FuseSeries> series, double fromAmperes, double toAmperes, double circuitVolts) =>
        Within(series, fromAmperes, toAmperes, circuitVolts).MaxBy(c => c.RatingAmperes);

    /// <summary>
    /// Least rating of a fuse before others. One behind it guards the same load, so an equal rating does. Of several the one before has to be
    /// larger, or a fault on one run takes all of them down. Common practice, no source.
    /// </summary>
    /// <param name="behindAmperes">Ratings of the next fuses behind it, A.</param>
    /// <returns>A, or null when there is none behind it.</returns>
    public static double? LeastBefore(IReadOnlyList<double> behindAmperes)
    {
        // Smaller than any step between standard ratings: only asks for "larger than".
        const double LeastRatingStepAmperes = 0.1;
        ArgumentNullException.ThrowIfNull(behindAmperes);
        return behindAmperes.Count switch
        {
            0 => null,
            1 => behindAmperes[0],
            _ => behindAmperes.Max() + LeastRatingStepAmperes,
        };
    }

    /// <summary>The series with the figure a maker states for one of their ratings in place of that of the form.</summary>
    /// <param name="series">Series.</param>
    /// <param name="fuse">The fuse; a form or rating that is not among the series changes nothing.</param>
    public static IReadOnlyList<FuseSeries> WithFigure(IReadOnlyList<FuseSeries> series, FittedFuse fuse)
    {
        ArgumentNullException.ThrowIfNull(series);
        ArgumentNullException.ThrowIfNull(fuse);
        return [.. series.SelectMany(s => s.Form != fuse.Form || !s.RatingsAmperes.Contains(fuse.RatingAmperes) ? [s] : Split(s))];

        IEnumerable<FuseSeries> Split(FuseSeries s)
        {
            yield return s with { RatingsAmperes = [fuse.RatingAmperes], InterruptAmperes = fuse.InterruptAmperes, InterruptSource = "the maker's figure on the fuse part" };
            if (s.RatingsAmperes.Count > 1)
                yield return s with { RatingsAmperes = [.. s.RatingsAmperes.Where(r => r != fuse.RatingAmperes)] };
        }
    }

    internal static bool AtLeast(double value, double limit) => value >= limit * (1 - Rounding);

    private static IEnumerable<FuseChoice> Within(IReadOnlyList<FuseSeries> series, double least, double most, double volts) =>
        from s in series
        where s.VoltageRating >= volts
        from rating in s.RatingsAmperes
        where AtLeast(rating, least) && AtLeast(most, rating)
        select new FuseChoice(rating, s.Form, s.Name, s.InterruptAmperes, s.VoltageRating) { InterruptSource = s.InterruptSource };
}
