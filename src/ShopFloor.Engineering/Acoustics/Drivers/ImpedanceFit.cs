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

    /// <summary>Which model of the coil the data ask for.</summary>
    public required CoilModel Coil { get; init; }

    /// <summary>Inductance in series, H; with <see cref="LossHenries"/> the nearest lumped coil of a semi-inductance.</summary>
    public required FittedValue LeHenries { get; init; }

    /// <summary>Semi-inductance; null for the other models.</summary>
    public required SemiInductance? Semi { get; init; }

    /// <summary>Second, lossy part of the inductance, H; null when the data do not ask for it.</summary>
    public required FittedValue? LossHenries { get; init; }

    /// <summary>Resistance across it, Ω.</summary>
    public required FittedValue? LossOhms { get; init; }

    /// <summary>Lowest magnitude that was measured, Ω: what an amplifier has to bear at least.</summary>
    public required double LeastOhms { get; init; }

    /// <summary>Where it lies, Hz.</summary>
    public required double LeastHertz { get; init; }

    /// <summary>Root mean square difference of the magnitude, dB.</summary>
    public required double MagnitudeDecibels { get; init; }

    /// <summary>Root mean square difference of the phase, °; null without phase.</summary>
    public required double? PhaseDegrees { get; init; }

    /// <summary>Points used.</summary>
    public required int Points { get; init; }

    /// <summary>Whether the fit settled.</summary>
    public required bool Converged { get; init; }
}

/// <summary>Finds a driver's electrical parameters from its measured impedance.</summary>
/// <remarks>
/// Z = Re + Zcoil + Res/(1 + jQms·(f/fs − fs/f)), Res = Re·Qms/Qes (Small, "Direct-Radiator Loudspeaker System Analysis", JAES 20, 1972), the
/// coil by each <see cref="CoilModel"/>. Relative least squares over magnitude, and phase where it was measured. A larger model is
/// kept when the information criterion of Schwarz (1978) is lower by strong evidence: a coil taken for a plain inductance falsifies Re and both Q.
/// </remarks>
public static class ImpedanceFit
{
    /// <summary>Fewest points of a sweep.</summary>
    public const int FewestPoints = 12;

    private const double LeastProminence = 0.2;

    // Difference of the criterion that is very strong evidence (Kass and Raftery, J. Am. Stat. Assoc. 90, 1995).
    private const double Evidence = 10;

    /// <summary>Why a sweep cannot be fitted; null when it can.</summary>
    /// <param name="points">Points with rising frequency.</param>
    public static string? Refusal(IReadOnlyList<ImpedancePoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (points.Count < FewestPoints)
            return $"{(points.Count == 1 ? "1 point is" : $"{points.Count} points are")} too few; measure at least {FewestPoints}, closer together around the peak.";
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
        var best = (Model: CoilModel.Inductance, Fit: Fit(points, reOhms, CoilModel.Inductance, start));
        var plain = best.Fit.Values;
        foreach (var model in new[] { CoilModel.LossyInductance, CoilModel.SemiInductance })
        {
            double[] longer = [.. plain.Take(Coil.First), .. Coil.Start(model, plain[Coil.First]), .. plain.Skip(Coil.First + 1)];
            if (points.Count < longer.Length + 5)
                continue;
            var fit = Fit(points, reOhms, model, longer);
            // A part that ran off to nothing or without end is none.
            if (fit.Values.All(value => Math.Abs(value) < 30) && Criterion(fit, points) < Criterion(best.Fit, points) - Evidence)
                best = (model, fit);
        }

        return Describe(points, reOhms, best.Model, best.Fit);
    }

    /// <summary>Impedance of a fit at a frequency, Ω.</summary>
    /// <param name="fit">The fit.</param>
    /// <param name="hertz">Frequency, Hz, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">The frequency is not above 0.</exception>
    public static Complex Impedance(ImpedanceFitResult fit, double hertz)
    {
        ArgumentNullException.ThrowIfNull(fit);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(hertz);
        double[] coil = fit switch
        {
            { Semi: { } semi } => [Math.Log(semi.OhmsAtKilohertz), Math.Log(semi.Exponent / (1 - semi.Exponent))],
            { LossHenries: { } loss, LossOhms: { } ohms } => [Math.Log(fit.LeHenries.Value), Math.Log(loss.Value), Math.Log(ohms.Value)],
            _ => [Math.Log(fit.LeHenries.Value)],
        };
        return At(hertz, fit.ReOhms.Value, fit.Coil, [Math.Log(fit.ResonanceHertz.Value), Math.Log(fit.Qms.Value), Math.Log(fit.Qes.Value), .. coil]);
    }

    private static LeastSquaresFit Fit(IReadOnlyList<ImpedancePoint> points, double? reOhms, CoilModel model, double[] start) =>
        LeastSquares.Fit(p => Residuals(points, reOhms, model, p), start);

    // Logarithms: fs, Qms, Qes, the coil's, then Re unless it was entered.
    private static Complex At(double hertz, double? reOhms, CoilModel model, double[] p)
    {
        var (re, fs, qms, qes) = (reOhms ?? Math.Exp(p[^1]), Math.Exp(p[0]), Math.Exp(p[1]), Math.Exp(p[2]));
        return re + Coil.Impedance(model, p, new Complex(0, 2 * Math.PI * hertz)) + re * qms / qes / new Complex(1, qms * (hertz / fs - fs / hertz));
    }

    private static double[] Residuals(IReadOnlyList<ImpedancePoint> points, double? reOhms, CoilModel coil, double[] p)
    {
        var residuals = new List<double>(2 * points.Count);
        foreach (var point in points)
        {
            var model = At(point.Hertz, reOhms, coil, p);
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

    private static ImpedanceFitResult Describe(IReadOnlyList<ImpedancePoint> points, double? reOhms, CoilModel model, LeastSquaresFit fit)
    {
        double[] p = [.. fit.Values];
        FittedValue Value(int n) => new(Math.Exp(p[n]), double.IsFinite(fit.StandardErrors[n]) ? 1.96 * fit.StandardErrors[n] : null);
        var (qms, qes) = (Value(1), Value(2));
        var semi = model == CoilModel.SemiInductance ? new SemiInductance(Math.Exp(p[Coil.First]), Coil.Exponent(p[Coil.First + 1])) : null;
        var (le, loss, lossOhms) = (Value(Coil.First), model == CoilModel.LossyInductance ? Value(Coil.First + 1) : null, model == CoilModel.LossyInductance ? Value(Coil.First + 2) : null);
        if (semi is not null)
        {
            var lumped = Coil.Lumped(semi, points[0].Hertz, points[^1].Hertz);
            (le, loss, lossOhms) = (new FittedValue(lumped.Le, null), new FittedValue(lumped.Loss, null), new FittedValue(lumped.LossOhms, null));
        }

        var magnitude = points.Average(point => Math.Pow(20 * Math.Log10(At(point.Hertz, reOhms, model, p).Magnitude / point.Ohms), 2));
        double[] turns = [.. points.Where(point => point.Degrees is not null).Select(point => Math.IEEERemainder(At(point.Hertz, reOhms, model, p).Phase * 180 / Math.PI - point.Degrees!.Value, 360))]; // filtered
        var least = points.MinBy(point => point.Ohms)!; // enough points
        return new ImpedanceFitResult
        {
            LeastOhms = least.Ohms,
            LeastHertz = least.Hertz,
            ReOhms = reOhms is { } entered ? new FittedValue(entered, null) : Value(p.Length - 1),
            ResonanceHertz = Value(0),
            Qms = qms,
            Qes = qes,
            Qts = qms.Value * qes.Value / (qms.Value + qes.Value),
            Coil = model,
            LeHenries = le,
            Semi = semi,
            LossHenries = loss,
            LossOhms = lossOhms,
            MagnitudeDecibels = Math.Sqrt(magnitude),
            PhaseDegrees = turns.Length > 0 ? Math.Sqrt(turns.Average(turn => turn * turn)) : null,
            Points = points.Count,
            Converged = fit.Converged,
        };
    }
}
