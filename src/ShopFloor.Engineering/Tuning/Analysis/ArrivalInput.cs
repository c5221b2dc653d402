using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Analysis;

/// <summary>How an arrival time is found.</summary>
public enum ArrivalMethod
{
    /// <summary>The strongest place of the response. The driver's and filter's own rise is in it.</summary>
    Peak,

    /// <summary>Where it first comes within 20 dB of the strongest place (ISO 3382-1 asks for at least 20 dB). A part of the rise is in it.</summary>
    Threshold,

    /// <summary>Where a tenth of its energy has come. The rise is in it.</summary>
    Energy,

    /// <summary>Correlation with its own minimum-phase form, in the band it has: the rise falls out.</summary>
    Correlation,

    /// <summary>Slope of the phase left over by the minimum phase, in the band it has: the rise falls out.</summary>
    ExcessPhase,

    /// <summary>Correlation with the response given as reference: time against that.</summary>
    Reference,
}

/// <summary>An impulse response whose arrival is asked for.</summary>
public sealed record ArrivalInput
{
    /// <summary>The response.</summary>
    public required ImpulseResponse Response { get; init; }

    /// <summary>Another response of the same sample rate to time it against: the other side, or the known filter; null for none.</summary>
    public ImpulseResponse? Reference { get; init; }

    /// <summary>Band looked at, lowest frequency, Hz (1 to 20,000); null for where it stands out of the noise.</summary>
    public double? FromHertz { get; init; }

    /// <summary>Band looked at, highest frequency, Hz (10 to 192,000); null for where it stands out of the noise.</summary>
    public double? ToHertz { get; init; }

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.AddRange(Response.Validate(text).Select(problem => problem with { Field = $"{nameof(Response)}.{problem.Field}" }));
        checks.InRange(nameof(FromHertz), "Lowest frequency in Hz", FromHertz, 1, 20_000);
        checks.InRange(nameof(ToHertz), "Highest frequency in Hz", ToHertz, 10, 192_000);
        if (FromHertz * 1.2 > ToHertz)
            checks.Add(nameof(ToHertz), $"Highest frequency: {ToHertz} Hz is not a fifth above the lowest, {FromHertz} Hz.");
        if (Reference is { } reference)
        {
            checks.AddRange(reference.Validate(text).Select(problem => problem with { Field = $"{nameof(Reference)}.{problem.Field}" }));
            if (reference.SampleRateHertz != Response.SampleRateHertz)
                checks.Add($"{nameof(Reference)}.{nameof(ImpulseResponse.SampleRateHertz)}", $"Sample rate: {reference.SampleRateHertz} Hz; it must be that of the response, {Response.SampleRateHertz} Hz.");
        }

        return checks.Problems;
    }
}

/// <summary>An arrival time by one method.</summary>
/// <param name="Method">The method.</param>
/// <param name="Seconds">The time, s; of <see cref="ArrivalMethod.Reference"/> against the reference.</param>
/// <param name="Confidence">
/// 0 to 1. Correlations: the correlation's peak over that of a pure delay. Excess phase: 1 − rms of what the line leaves over π/2.
/// Others: from 0 at a peak 20 dB above the noise to 1 at 60 dB.
/// </param>
/// <param name="IsPropagation">Whether the rise of driver and filter is out of it, so that it stands for the path alone.</param>
public sealed record ArrivalEstimate(ArrivalMethod Method, double Seconds, double Confidence, bool IsPropagation);

/// <summary>When a sound arrives.</summary>
/// <param name="Estimates">Every method's time.</param>
/// <param name="Seconds">The time to work with: the most confident that stands for the path alone.</param>
/// <param name="Method">Its method.</param>
/// <param name="SpreadSeconds">Largest less smallest of the methods without a reference, s.</param>
/// <param name="PropagationSpreadSeconds">The same of those that stand for the path alone, s.</param>
/// <param name="IsInverted">Whether the first swing goes the other way: the correlation's sign.</param>
/// <param name="PolarityConfidence">0 to 1: how far the correlation's peak stands above the strongest of the other sign.</param>
/// <param name="FromHertz">Lowest frequency looked at, Hz.</param>
/// <param name="ToHertz">Highest frequency looked at, Hz.</param>
/// <param name="PeakToNoiseDecibels">Peak over the rms of the last tenth, dB.</param>
/// <param name="Findings">What to look at.</param>
/// <param name="Explanation">How it was reached.</param>
public sealed record ArrivalResult(
    IReadOnlyList<ArrivalEstimate> Estimates,
    double Seconds,
    ArrivalMethod Method,
    double SpreadSeconds,
    double PropagationSpreadSeconds,
    bool IsInverted,
    double PolarityConfidence,
    double FromHertz,
    double ToHertz,
    double PeakToNoiseDecibels,
    IReadOnlyList<Finding> Findings,
    Explanation Explanation);
