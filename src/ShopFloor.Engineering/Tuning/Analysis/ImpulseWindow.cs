using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Analysis;

/// <summary>How a half window falls from 1 at the reference to its end.</summary>
public enum HalfWindow
{
    /// <summary>1 to the end.</summary>
    Rectangular,

    /// <summary>Half a cosine all the way.</summary>
    Hann,

    /// <summary>1, then half a cosine over the taper.</summary>
    Tukey,
}

/// <summary>What of an impulse response is looked at: two half windows around a time (Harris, Proc. IEEE 66, 1978, for the shapes).</summary>
public sealed record ImpulseWindow
{
    /// <summary>Time of the reference, s; null for the strongest sample.</summary>
    public double? ReferenceSeconds { get; init; }

    /// <summary>Length before it, s (0 to 10).</summary>
    public double LeftSeconds { get; init; } = 0.002;

    /// <summary>Length after it, s (0.0005 to 20): echoes later than that are left out, and nothing below its inverse is resolved.</summary>
    public double RightSeconds { get; init; } = 0.3;

    /// <summary>Shape before.</summary>
    public HalfWindow Left { get; init; } = HalfWindow.Tukey;

    /// <summary>Shape after.</summary>
    public HalfWindow Right { get; init; } = HalfWindow.Tukey;

    /// <summary>Share of a Tukey half window that is tapered (0.01 to 1).</summary>
    public double TaperShare { get; init; } = 0.25;

    /// <summary>What is wrong; empty when it can be used.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(ReferenceSeconds), "Reference in s", ReferenceSeconds, -60, 120);
        checks.InRange(nameof(LeftSeconds), "Length before in s", LeftSeconds, 0, 10);
        checks.InRange(nameof(RightSeconds), "Length after in s", RightSeconds, 0.0005, 20);
        checks.InRange(nameof(TaperShare), "Taper", TaperShare, 0.01, 1);
        checks.Known(nameof(Left), "Shape before", Left);
        checks.Known(nameof(Right), "Shape after", Right);
        return checks.Problems;
    }

    /// <summary>Value of a half window.</summary>
    /// <param name="shape">Its shape.</param>
    /// <param name="share">Place from 0 at the reference to 1 at the end; 0 beyond.</param>
    /// <param name="taper">Tapered share of a Tukey window.</param>
    public static double Value(HalfWindow shape, double share, double taper) => share switch
    {
        > 1 => 0,
        _ when shape == HalfWindow.Rectangular => 1,
        _ when shape == HalfWindow.Hann => 0.5 + 0.5 * Math.Cos(Math.PI * share),
        _ => share <= 1 - taper ? 1 : 0.5 + 0.5 * Math.Cos(Math.PI * (share - 1 + taper) / taper),
    };

    /// <summary>The response with the window on it, cut to the window.</summary>
    /// <param name="response">The response, without problems.</param>
    /// <exception cref="ArgumentOutOfRangeException">A field is out of range, or the window lies outside the response.</exception>
    public ImpulseResponse Apply(ImpulseResponse response)
    {
        ArgumentNullException.ThrowIfNull(response);
        InputChecks.ThrowIfAny(Validate());
        InputChecks.ThrowIfAny(response.Validate());
        var samples = response.Samples;
        var reference = ReferenceSeconds is { } seconds ? response.IndexAt(seconds) : Strongest(samples);
        var (left, right) = (LeftSeconds * response.SampleRateHertz, RightSeconds * response.SampleRateHertz);
        var (from, to) = ((int)Math.Max(Math.Ceiling(reference - left), 0), (int)Math.Min(Math.Floor(reference + right), samples.Length - 1));
        if (to - from < 15)
            throw new ArgumentOutOfRangeException(nameof(response), "The window covers fewer than 16 samples of the response; move or widen it.");
        var cut = new double[to - from + 1];
        for (var n = 0; n < cut.Length; n++)
        {
            var at = from + n - reference;
            cut[n] = samples[from + n] * (at < 0 ? Value(Left, left > 0 ? -at / left : 0, TaperShare) : Value(Right, at / right, TaperShare));
        }

        return new ImpulseResponse(response.SampleRateHertz, cut, response.SecondsAt(from));
    }

    internal static int Strongest(double[] samples)
    {
        var best = 0;
        for (var n = 1; n < samples.Length; n++)
        {
            if (Math.Abs(samples[n]) > Math.Abs(samples[best]))
                best = n;
        }

        return best;
    }
}
