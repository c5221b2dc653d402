using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Tuning.Measurements;

/// <summary>A measurement with the microphone's own response taken out.</summary>
/// <param name="Response">The corrected response.</param>
/// <param name="Findings">Where the calibration does not reach.</param>
public sealed record CalibratedResponse(FrequencyResponse Response, IReadOnlyList<Finding> Findings);

/// <summary>Takes a microphone's calibration curve out of a measurement.</summary>
public static class MicrophoneCalibration
{
    private const string Practice = "common practice, no source";

    /// <summary>Subtracts the curve: where the microphone reads 2 dB too high, 2 dB are taken off; its phase as well, where both have one.</summary>
    /// <param name="measured">The measurement, without problems.</param>
    /// <param name="curve">What the microphone shows of a flat sound, dB; its end values are held beyond its ends.</param>
    /// <exception cref="ArgumentOutOfRangeException">A response has a problem; the parameter name is the field.</exception>
    public static CalibratedResponse Apply(FrequencyResponse measured, FrequencyResponse curve)
    {
        ArgumentNullException.ThrowIfNull(measured);
        ArgumentNullException.ThrowIfNull(curve);
        InputChecks.ThrowIfAny(measured.Validate());
        InputChecks.ThrowIfAny(curve.Validate());
        var findings = new FindingList("microphone", "Microphone");
        if (!curve.Covers(measured.Hertz[0]) || !curve.Covers(measured.Hertz[^1]))
        {
            findings.Add("calibration-too-narrow", Severity.Note,
                FormattableString.Invariant($"The calibration reaches from {curve.Hertz[0]:0.#} to {curve.Hertz[^1]:0.#} Hz, the measurement from {measured.Hertz[0]:0.#} to {measured.Hertz[^1]:0.#} Hz."),
                "Take levels outside the calibration with care; its end values were held.", Practice);
        }

        if (curve.Decibels.Max(Math.Abs) > 40)
        {
            findings.Add("calibration-large", Severity.Warn, FormattableString.Invariant($"The calibration corrects by up to {curve.Decibels.Max(Math.Abs):0.#} dB."),
                "Check that the file is a calibration against 0 dB and not a level or a sensitivity.", Practice);
        }

        double[] decibels = [.. measured.Hertz.Select((hertz, n) => measured.Decibels[n] - curve.DecibelsAt(hertz))];
        var phases = measured.PhaseRadians is { } own && curve.PhaseRadians is not null ? [.. measured.Hertz.Select((hertz, n) => own[n] - curve.PhaseAt(hertz))] : measured.PhaseRadians;
        return new CalibratedResponse(new FrequencyResponse(measured.Hertz, decibels, phases), findings.Sorted);
    }
}
