using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Equalisation;

/// <summary>A point of a target.</summary>
/// <param name="Hertz">Frequency, Hz (5 to 40,000).</param>
/// <param name="Decibels">Level wanted, dB against the target's own zero (−60 to 60).</param>
/// <param name="AboveDecibels">How far above is still within, dB (0.1 to 20).</param>
/// <param name="BelowDecibels">How far below is still within, dB (0.1 to 20).</param>
public sealed record TargetPoint(double Hertz, double Decibels, double AboveDecibels = 3, double BelowDecibels = 3);

/// <summary>A response wanted at the seat, by points joined straight over log frequency; level beyond the ends.</summary>
public sealed record TargetCurve
{
    /// <summary>Name for people.</summary>
    public required string Name { get; init; }

    /// <summary>What it is for.</summary>
    public string Note { get; init; } = "";

    /// <summary>2 to 64 points, rising in frequency.</summary>
    public required IReadOnlyList<TargetPoint> Points { get; init; }

    /// <summary>The targets that come with the program: starting points to edit, none of them a standard. Common practice, no source.</summary>
    public static IReadOnlyList<TargetCurve> BuiltIn { get; } =
    [
        new()
        {
            Name = "Level", Note = "The same level everywhere; for measuring, bright to listen to.",
            Points = [new(20, 0, 3, 6), new(40, 0), new(10_000, 0), new(20_000, 0, 3, 6)],
        },
        new()
        {
            Name = "Even slope", Note = "Falls evenly from bass to treble; small raise in the bass.",
            Points = [new(20, 6, 3, 6), new(60, 6), new(200, 2), new(1_000, 0, 2, 2), new(10_000, -3), new(20_000, -5, 3, 6)],
        },
        new()
        {
            Name = "Road", Note = "More bass, which road noise covers first, and a quiet treble.",
            Points = [new(20, 9, 3, 6), new(50, 9), new(100, 6), new(160, 2.5), new(300, 0, 2, 2), new(1_000, 0, 2, 2), new(3_000, -1.5, 2, 3), new(10_000, -4), new(20_000, -7, 3, 6)],
        },
        new()
        {
            Name = "Loud bass", Note = "For a system built around its subwoofer.",
            Points = [new(20, 13, 4, 6), new(45, 14, 4, 4), new(80, 11), new(140, 4), new(300, 0), new(1_000, 0, 2, 2), new(4_000, -2), new(20_000, -6, 3, 6)],
        },
        new()
        {
            Name = "Stage", Note = "For judging: little bass raise, even middle, narrow limits.",
            Points = [new(20, 4, 3, 5), new(60, 4, 2, 2), new(125, 2, 1.5, 1.5), new(250, 0, 1.5, 1.5), new(2_000, 0, 1.5, 1.5), new(8_000, -2, 2, 2), new(20_000, -4, 3, 6)],
        },
    ];

    /// <summary>What is wrong; empty when it can be used.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.Named(nameof(Name), "Name of the target", Name);
        checks.InRange(nameof(Points), "Points of the target", Points.Count, 2, 64);
        foreach (var (point, at) in Points.Take(64).Select((point, at) => (point, at)))
        {
            checks.InRange($"{nameof(Points)}[{at}].{nameof(point.Hertz)}", "Frequency in Hz", point.Hertz, 5, 40_000);
            checks.InRange($"{nameof(Points)}[{at}].{nameof(point.Decibels)}", "Level in dB", point.Decibels, -60, 60);
            checks.InRange($"{nameof(Points)}[{at}].{nameof(point.AboveDecibels)}", "Limit above in dB", point.AboveDecibels, 0.1, 20);
            checks.InRange($"{nameof(Points)}[{at}].{nameof(point.BelowDecibels)}", "Limit below in dB", point.BelowDecibels, 0.1, 20);
            if (at > 0 && !(point.Hertz > Points[at - 1].Hertz))
                checks.Add($"{nameof(Points)}[{at}].{nameof(point.Hertz)}", $"Frequency in Hz: {point.Hertz:0.##} is not above the point before it, {Points[at - 1].Hertz:0.##}.");
        }

        return checks.Problems;
    }

    /// <summary>Level wanted and its limits at a frequency.</summary>
    /// <param name="hertz">Frequency, Hz, above 0.</param>
    public TargetPoint At(double hertz)
    {
        var above = 0;
        while (above < Points.Count && Points[above].Hertz < hertz)
            above++;
        var (a, b) = (Points[Math.Max(above - 1, 0)], Points[Math.Min(above, Points.Count - 1)]);
        var share = ReferenceEquals(a, b) ? 0 : Math.Log(hertz / a.Hertz) / Math.Log(b.Hertz / a.Hertz);
        double Between(double from, double to) => from + share * (to - from);
        return new TargetPoint(hertz, Between(a.Decibels, b.Decibels), Between(a.AboveDecibels, b.AboveDecibels), Between(a.BelowDecibels, b.BelowDecibels));
    }
}
