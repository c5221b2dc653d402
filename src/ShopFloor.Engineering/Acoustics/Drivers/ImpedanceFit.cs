using System.Numerics;
using ShopFloor.Engineering.Numerics;

namespace ShopFloor.Engineering.Acoustics.Drivers;

/// <summary>A value found by a fit.</summary>
/// <param name="Value">The value.</param>
/// <param name="ShareError">Half of its 95 % interval as a share of the value, if the residuals are chance alone; null when it was entered, or the data do not tell it.</param>
public sealed record FittedValue(double Value, double? ShareError);

/// <summary>A driver's impedance as its electrical parameters.</summary>
public sealed record ImpedanceFitResult
{
    /// <summary>DC resistance, Ω.</summary>
    public required FittedValue ReOhms { get; init; }

    /// <summary>Resonance, Hz.</summary>
    public required FittedValue ResonanceHertz { get; init; }

    /// <summary>Mechanical Q.</summary>
    public required FittedValue Qms { get; init; }

    /// <summary>Electrical Q.</summary>
    public required FittedValue Qes { get; init; }

    /// <summary>Total Q: Qes·Qms/(Qes + Qms).</summary>
    public required double Qts { get; init; }

    /// <summary>Inductance in series, H.</summary>
    public required FittedValue LeHenries { get; init; }

    /// <summary>Second, lossy part of the inductance, H; null when the data do not ask for it.</summary>
    public required FittedValue? LossHenries { get; init; }

    /// <summary>Resistance across it, Ω.</summary>
    public required FittedValue? LossOhms { get; init; }

    /// <summary>Root mean square difference of the magnitude, dB.</summary>
    public required double MagnitudeDecibels { get; init; }

    /// <summary>Root mean square difference of the phase, °; null without phase.</summary>
    public required double? PhaseDegrees { get; init; }

    /// <summary>Points used.</summary>
    public required int Points { get; init; }

    /// <summary>Whether the fit settled.</summary>
    public required bool Converged { get; init; }

    /// <summary>The fitted impedance at a frequency, Ω.</summary>
    /// <param name="hertz">Frequency, Hz, above 0.</param>
    public Complex At(double hertz) =>
        ImpedanceFit.Impedance(hertz, ReOhms.Value, ResonanceHertz.Value, Qms.Value, Qes.Value, LeHenries.Value, LossHenries?.Value ?? 0, LossOhms?.Value ?? 0);
}

/// <summary>Finds a driver's electrical parameters from its measured impedance.</summary>
/// <remarks>
/// Z = Re + jωLe + (jωL2 ∥ R2) + Res/(1 + jQms·(f/fs − fs/f)), Res = Re·Qms/Qes (Small, "Direct-Radiator Loudspeaker System Analysis", JAES 20,
/// 1972; the lossy coil as a second inductance bridged by a resistance: Dodd, Klippel and Oclee-Brown, AES 117, 2004, from memory). Relative
/// least squares over magnitude, and phase where it was measured. The second inductance is kept when it lowers the information criterion of
/// Schwarz (1978).
/// </remarks>
public static class ImpedanceFit
{
    /// <summary>Fewest points of a sweep.</summary>
    public const int FewestPoints = 12;

    private const double LeastProminence = 0.2;

    /// <summary>Why a sweep cannot be fitted; null when it can.</summary>
    /// <param name="points">Points with rising frequency.</param>
    public static string? Refusal(IReadOnlyList<ImpedancePoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (points.Count < FewestPoints)
            return $"{points.Count} points are too few; measure at least {FewestPoints}, closer together around the peak.";
        return Peak(points) is null
            ? "no peak of a resonance stands between the first and the last frequency; sweep from well below to well above it."
            : null;
    }

    /// <summary>Fits a sweep.</summary>
    /// <param name="points">Points with rising frequency.</param>
    /// <param name="reOhms">DC resistance measured with a meter, Ω; null to find it.</param>
    /// <exception cref="ArgumentException"><see cref="Refusal"/> says why it cannot be fitted, or the resistance is not above 0.</exception>
    public static ImpedanceFitResult Of(IReadOnlyList<ImpedancePoint> points, double? reOhms = null)
    {
        if (Refusal(points) is { } reason)
            throw new ArgumentException(reason, nameof(points));
        if (reOhms is { } entered)
            ArgumentOutOfRangeException.ThrowIfNegativeOrZero(entered, nameof(reOhms));
        var start = Start(points, reOhms);
        var plain = Fit(points, reOhms, start);
        // Start the lossy part where the inductance is seen.
        var split = plain.Values[3];
        double[] longer = [plain.Values[0], plain.Values[1], plain.Values[2], split - Math.Log(2), split, split + Math.Log(2 * Math.PI * 500), .. plain.Values.Skip(4)];
        var lossy = points.Count > longer.Length + 4 ? Fit(points, reOhms, longer) : null;
        var best = lossy is not null && Criterion(lossy, points) < Criterion(plain, points) && lossy.Values.All(value => Math.Abs(value) < 30) ? lossy : plain;
        return Describe(points, reOhms, best);
    }

    internal static Complex Impedance(double hertz, double re, double fs, double qms, double qes, double le, double lossHenries, double lossOhms)
    {
        var s = new Complex(0, 2 * Math.PI * hertz);
        var coil = re + s * le;
        if (lossHenries > 0)
            coil += s * lossHenries * lossOhms / (s * lossHenries + lossOhms);
        return coil + re * qms / qes / new Complex(1, qms * (hertz / fs - fs / hertz));
    }

    // Logarithms: fs, Qms, Qes, Le, then L2 and R2 of a lossy coil, then Re unless it was entered.
    private static LeastSquaresFit Fit(IReadOnlyList<ImpedancePoint> points, double? reOhms, double[] start) => LeastSquares.Fit(p => Residuals(points, reOhms, p), start);

    private static Complex At(double hertz, double? reOhms, double[] p)
    {
        var lossy = p.Length >= 6;
        return Impedance(hertz, reOhms ?? Math.Exp(p[^1]), Math.Exp(p[0]), Math.Exp(p[1]), Math.Exp(p[2]), Math.Exp(p[3]), lossy ? Math.Exp(p[4]) : 0, lossy ? Math.Exp(p[5]) : 0);
    }

    private static double[] Residuals(IReadOnlyList<ImpedancePoint> points, double? reOhms, double[] p)
    {
        var residuals = new List<double>(2 * points.Count);
        foreach (var point in points)
        {
            var model = At(point.Hertz, reOhms, p);
            residuals.Add(Math.Log(model.Magnitude / point.Ohms));
            if (point.Degrees is { } degrees)
                residuals.Add(Math.IEEERemainder(model.Phase - degrees * Math.PI / 180, 2 * Math.PI));
        }

        return [.. residuals];
    }

    private static double Criterion(LeastSquaresFit fit, IReadOnlyList<ImpedancePoint> points)
    {
        var count = points.Count + points.Count(point => point.Degrees is not null);
        return count * Math.Log(Math.Max(1e-24, fit.RootMeanSquare * fit.RootMeanSquare)) + fit.Values.Count * Math.Log(count);
    }

    // The point that stands highest over the lowest on both its sides, on a logarithmic scale.
    private static int? Peak(IReadOnlyList<ImpedancePoint> points)
    {
        var after = new double[points.Count];
        after[^1] = points[^1].Ohms;
        for (var n = points.Count - 2; n >= 0; n--)
            after[n] = Math.Min(after[n + 1], points[n].Ohms);
        var (best, height, before) = (-1, LeastProminence, points[0].Ohms);
        for (var n = 1; n < points.Count - 1; n++)
        {
            before = Math.Min(before, points[n].Ohms);
            if (Math.Log(points[n].Ohms / Math.Max(before, after[n])) is var over && over > height)
                (best, height) = (n, over);
        }

        return best < 0 ? null : best;
    }

    // Small (1972): r0 = Zmax/Re; where |Z| = Re·√r0 on both sides, Qms = fs·√r0/(f2 − f1) and Qes = Qms/(r0 − 1).
    private static double[] Start(IReadOnlyList<ImpedancePoint> points, double? reOhms)
    {
        var peak = Peak(points)!.Value; // refused before
        var re = reOhms ?? 0.97 * Math.Min(points.Take(peak).Min(point => point.Ohms), points.Skip(peak).Min(point => point.Ohms));
        var (fs, ratio) = (points[peak].Hertz, Math.Max(1.1, points[peak].Ohms / re));
        var level = re * Math.Sqrt(ratio);
        var low = points.Take(peak).LastOrDefault(point => point.Ohms < level)?.Hertz ?? points[0].Hertz;
        var high = points.Skip(peak).FirstOrDefault(point => point.Ohms < level)?.Hertz ?? points[^1].Hertz;
        var qms = Math.Max(0.3, fs * Math.Sqrt(ratio) / (high - low));
        var last = points[^1];
        var reactance = Math.Sqrt(Math.Max(0.01 * re * re, last.Ohms * last.Ohms - re * re));
        double[] start = [Math.Log(fs), Math.Log(qms), Math.Log(qms / (ratio - 1)), Math.Log(reactance / (2 * Math.PI * last.Hertz))];
        return reOhms is null ? [.. start, Math.Log(re)] : start;
    }

    private static ImpedanceFitResult Describe(IReadOnlyList<ImpedancePoint> points, double? reOhms, LeastSquaresFit fit)
    {
        double[] p = [.. fit.Values];
        var lossy = p.Length >= 6;
        FittedValue Value(int n) => new(Math.Exp(p[n]), double.IsFinite(fit.StandardErrors[n]) ? 1.96 * fit.StandardErrors[n] : null);
        var (qms, qes) = (Value(1), Value(2));
        var magnitude = points.Average(point => Math.Pow(20 * Math.Log10(At(point.Hertz, reOhms, p).Magnitude / point.Ohms), 2));
        double[] turns = [.. points.Where(point => point.Degrees is not null).Select(point => Math.IEEERemainder(At(point.Hertz, reOhms, p).Phase * 180 / Math.PI - point.Degrees!.Value, 360))]; // filtered
        return new ImpedanceFitResult
        {
            ReOhms = reOhms is { } entered ? new FittedValue(entered, null) : Value(p.Length - 1),
            ResonanceHertz = Value(0),
            Qms = qms,
            Qes = qes,
            Qts = qms.Value * qes.Value / (qms.Value + qes.Value),
            LeHenries = Value(3),
            LossHenries = lossy ? Value(4) : null,
            LossOhms = lossy ? Value(5) : null,
            MagnitudeDecibels = Math.Sqrt(magnitude),
            PhaseDegrees = turns.Length > 0 ? Math.Sqrt(turns.Average(turn => turn * turn)) : null,
            Points = points.Count,
            Converged = fit.Converged,
        };
    }
}
