using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Runs;

/// <summary>Roll-off of a first-order low-pass: the source impedance in parallel with the input impedance into the capacitance of the cable.</summary>
public static class SignalRun
{
    private const string LowPass = "first-order RC low-pass";

    /// <summary>Computes the roll-off.</summary>
    /// <param name="input">Source, cable and input.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="SignalRunInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static SignalRunResult Compute(SignalRunInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));

        var farads = input.LengthMeters * input.FaradsPerMeter;
        var ohms = input.SourceOhms * input.InputOhms / (input.SourceOhms + input.InputOhms);
        var corner = 1 / (2 * Math.PI * ohms * farads);
        var ratio = 20_000 / corner;
        var loss = 10 * Math.Log10(1 + ratio * ratio);
        var bridging = 20 * Math.Log10((input.SourceOhms + input.InputOhms) / input.InputOhms);
        var limit = new LimitCheck("Loss at 20 kHz", loss, 0.5, "dB", loss <= 0.5, Unsourced.CommonPractice);

        var findings = new FindingList(input.Id, input.Name);
        if (!limit.Passed)
        {
            findings.Add("signal-run-treble-loss", Severity.Warn, $"The cable takes {text.With(loss, "dB")} at 20 kHz.",
                "Shorten the run, use cable of less capacitance, or a source of lower output impedance.", LowPass);
        }

        if (input.InputOhms < 10 * input.SourceOhms)
        {
            findings.Add("signal-run-bridging", Severity.Note, $"The input impedance is under ten times the output impedance; {text.With(bridging, "dB")} are lost at every frequency.",
                "Use a source of lower output impedance, or make up for it in the gain.", "voltage divider; ten times: " + Unsourced.CommonPractice);
        }

        return new SignalRunResult
        {
            CapacitanceFarads = farads,
            CornerHertz = corner,
            LossAt20KilohertzDecibels = loss,
            BridgingLossDecibels = bridging,
            Findings = findings.Sorted,
            Explanation = new Explanation(
                $"{input.Name}: does the cable take treble?", $"{text.With(loss, "dB")} at 20 kHz, 3 dB down at {text.With(corner / 1000, "kHz")}",
                [
                    new ExplainedInput("Length", input.LengthMeters, "m", "entered"),
                    new ExplainedInput("Output impedance", input.SourceOhms, "Ω", "part data"),
                    new ExplainedInput("Input impedance", input.InputOhms, "Ω", "part data"),
                    new ExplainedInput("Capacitance of the cable", input.FaradsPerMeter * 1e12, "pF/m", ElectricalDefaults.Origin(input.FaradsPerMeter, 150e-12, ElectricalDefaults.FromMemory)),
                ],
                [
                    new ExplainedStep("3 dB down", "f = 1 / (2π · R · C), R = R_source ∥ R_input", $"R = {text.With(ohms, "Ω")}, C = {text.With(farads * 1e12, "pF")}", text.With(corner / 1000, "kHz"), LowPass),
                    new ExplainedStep("Loss at 20 kHz", "10 · log10(1 + (20 kHz / f)²)", $"{text.Number(ratio)}", text.With(loss, "dB"), LowPass),
                ],
                [limit], limit.Passed ? null : limit.Name),
        };
    }
}
