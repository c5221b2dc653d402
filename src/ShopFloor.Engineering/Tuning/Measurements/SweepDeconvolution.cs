using System.Numerics;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Numerics;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Measurements;

/// <summary>Impulse response and harmonics from a recorded exponential sweep.</summary>
/// <remarks>
/// Spectral division: H = Y·X*/(|X|² + ε), ε a share of the largest |X|² inside the sweep's band and, rising over half an octave, all of it
/// outside (Kirkeby and Nelson, JAES 47, 1999, for the form; the rise is common practice, no source). Inverse filter: Farina, AES 108, 2000.
/// </remarks>
public static class SweepDeconvolution
{
    internal const string Farina = "Farina, AES 108, preprint 5093, 2000";

    /// <summary>Computes the response.</summary>
    /// <param name="input">Sweep and recording.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="SweepRecording.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static SweepResult Compute(SweepRecording input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        InputChecks.ThrowIfAny(input.Validate(text));
        var words = text ?? UnitText.Invariant;
        var (sweep, rate) = (input.Sweep, input.Sweep.SampleRateHertz);
        var (whole, heard) = input.Method == DeconvolutionMethod.InverseFilter ? ByInverseFilter(input) : ByDivision(input);

        var peak = HarmonicSeparation.Peak(whole, 0, Math.Min(whole.Length / 4, (int)(input.KeptSeconds * rate) + 1), (int)(input.BeforeSeconds * rate));
        var before = (int)Math.Round(input.BeforeSeconds * rate);
        var kept = Math.Min((int)Math.Round(input.KeptSeconds * rate), whole.Length / 2 - 1);
        var impulse = new ImpulseResponse(rate, whole.Slice(-before, before + kept), -(double)before / rate);

        var harmonics = HarmonicSeparation.Separate(whole, sweep, peak.Index, input.HighestOrder);
        var silence = input.Recorded.Length - sweep.Length;
        var tail = Math.Clamp(silence, Math.Min(kept, 64), kept);
        var noise = Rms(whole.Slice(tail * 3 / 4, Math.Max(tail / 4, 16)));
        var peakToNoise = Decibels(impulse.Samples.Max(Math.Abs) / Math.Max(noise, 1e-300));
        double? recordingToNoise = silence >= 0.05 * rate
            ? Decibels(Rms(input.Recorded.AsSpan(0, sweep.Length)) / Math.Max(Rms(input.Recorded.AsSpan(input.Recorded.Length - silence / 4)), 1e-300))
            : null;
        var findings = SweepFindings.Of(input, heard, harmonics, peakToNoise, recordingToNoise, words);
        return new SweepResult(impulse, harmonics, peakToNoise, recordingToNoise, findings, Explain(input, impulse.SampleRateHertz, peak.Index, peakToNoise, words));
    }

    /// <summary>How much of a channel's response to a sweep comes at once, dB against the rest of it: a cable far more than a loudspeaker in a room.</summary>
    /// <param name="recording">Sweep and recording; the loopback is not looked at.</param>
    internal static double DirectToRestDecibels(SweepRecording recording)
    {
        var (whole, _) = ByDivision(recording with { Loopback = null });
        var rate = recording.Sweep.SampleRateHertz;
        var (direct, near) = ((int)(Math.Max(1e-3, 3 / recording.Sweep.ToHertz) * rate), Math.Min(rate / 2, whole.Length / 4));
        var strongest = 0;
        for (var n = 1; n < whole.Length; n++)
        {
            if (Math.Abs(whole.Samples[n]) > Math.Abs(whole.Samples[strongest]))
                strongest = n;
        }

        var around = whole.Slice(strongest - near, 2 * near);
        var (at, all) = (Rms(around.AsSpan(near - direct, 2 * direct)), Rms(around));
        var (inside, rest) = (at * at * 2 * direct, all * all * 2 * near - at * at * 2 * direct);
        return 10 * Math.Log10(Math.Clamp(inside / Math.Max(rest, 1e-300), 1e-15, 1e15));
    }

    private static (CircularResponse Whole, SweepPassageResult? Heard) ByDivision(SweepRecording input)
    {
        var sweep = input.Sweep;
        var played = input.Loopback ?? sweep.Samples();
        var length = Fft.LengthFor((long)input.Recorded.Length + played.Length);
        var (x, y) = (Fft.OfReal(played, length), Fft.OfReal(input.Recorded, length));
        var heard = SweepPassage.OfBins(y, input.Recorded.Length, sweep.SampleRateHertz);
        var largest = 0.0;
        foreach (var bin in x)
            largest = Math.Max(largest, Power(bin));
        var inside = largest * Share(Math.Sqrt(sweep.FromHertz * sweep.ToHertz));
        var (lowest, highest) = (sweep.FromHertz * length / sweep.SampleRateHertz, sweep.ToHertz * length / sweep.SampleRateHertz);
        for (var k = 0; k < y.Length; k++)
        {
            var held = Power(x[k]) + (k >= lowest && k <= highest ? inside : largest * Share((double)k * sweep.SampleRateHertz / length));
            y[k] = new Complex((y[k].Real * x[k].Real + y[k].Imaginary * x[k].Imaginary) / held, (y[k].Imaginary * x[k].Real - y[k].Real * x[k].Imaginary) / held);
        }

        return (new CircularResponse(Fft.ToReal(y), 0), heard);

        double Share(double hertz)
        {
            var outside = hertz <= 0 ? 1e9 : Math.Max(Math.Log2(sweep.FromHertz / hertz), Math.Log2(hertz / sweep.ToHertz));
            return Math.Pow(10, input.RegularisationDecibels / 10 * (1 - Math.Clamp(outside / 0.5, 0, 1)));
        }
    }

    private static (CircularResponse Whole, SweepPassageResult? Heard) ByInverseFilter(SweepRecording input)
    {
        var inverse = input.Sweep.InverseFilter();
        var length = Fft.LengthFor((long)input.Recorded.Length + inverse.Length);
        var (x, y) = (Fft.OfReal(inverse, length), Fft.OfReal(input.Recorded, length));
        var heard = SweepPassage.OfBins(y, input.Recorded.Length, input.Sweep.SampleRateHertz);
        for (var k = 0; k < y.Length; k++)
            y[k] *= x[k];
        return (new CircularResponse(Fft.ToReal(y), inverse.Length - 1), heard);
    }

    private static Explanation Explain(SweepRecording input, int rate, double peakIndex, double peakToNoise, UnitText words)
    {
        var sweep = input.Sweep;
        return new Explanation(
            "What does the sweep say?",
            $"Strongest after {words.With(peakIndex / rate * 1e3, "ms", 4)}, {words.With(peakToNoise, "dB")} above the noise.",
            [
                new ExplainedInput("From", sweep.FromHertz, "Hz", "entered"),
                new ExplainedInput("To", sweep.ToHertz, "Hz", "entered"),
                new ExplainedInput("Length", sweep.Seconds, "s", "entered"),
                new ExplainedInput("Regularisation", input.RegularisationDecibels, "dB", "entered"),
            ],
            [
                new ExplainedStep("Rate of the sweep", "L = T/ln(f2/f1)", $"{words.Number(sweep.Seconds)}/ln({words.Number(sweep.ToHertz)}/{words.Number(sweep.FromHertz)})", words.With(sweep.RateSeconds, "s", 4), Farina),
                new ExplainedStep("Second harmonic comes before", "L·ln 2", $"{words.Number(sweep.RateSeconds, 4)}·ln 2", words.With(sweep.HarmonicLeadSeconds(2) * 1e3, "ms", 4), Farina),
            ],
            [],
            null);
    }

    private static double Power(Complex value) => value.Real * value.Real + value.Imaginary * value.Imaginary;

    private static double Decibels(double ratio) => 20 * Math.Log10(Math.Clamp(ratio, 1e-15, 1e15));

    private static double Rms(ReadOnlySpan<double> samples)
    {
        var sum = 0.0;
        foreach (var sample in samples)
            sum += sample * sample;
        return Math.Sqrt(sum / Math.Max(samples.Length, 1));
    }
}
