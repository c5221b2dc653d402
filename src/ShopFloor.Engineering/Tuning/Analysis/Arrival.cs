using System.Numerics;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Numerics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Analysis;

/// <summary>Arrival time and polarity of an impulse response by several methods.</summary>
/// <remarks>
/// Peak, threshold and energy are found between samples by band-limited interpolation. The correlation with the response's own minimum-phase
/// form and the slope of its excess phase leave out the delay of drivers, filters and weaker reflections, all of which are minimum-phase;
/// a reflection stronger than the direct sound is not and moves them.
/// </remarks>
public static class Arrival
{
    private const double ThresholdRatio = 0.1;
    private const double EnergyShare = 0.1;
    private const string Practice = "common practice, no source";
    private const string Onset = "ISO 3382-1; JASA 124 (2008) EL248 compares methods";
    private const string Cepstrum = "Oppenheim and Schafer, Discrete-Time Signal Processing (minimum phase)";

    /// <summary>Computes the arrival.</summary>
    /// <param name="input">The response and what it is timed against.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="ArrivalInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static ArrivalResult Compute(ArrivalInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        InputChecks.ThrowIfAny(input.Validate(text));
        var (response, words) = (input.Response, text ?? UnitText.Invariant);
        var band = new BandInNoise(response, input.FromHertz, input.ToHertz);
        var strongest = ImpulseWindow.Strongest(response.Samples);
        var peakToNoise = band.NoiseRms > 0 ? 20 * Math.Log10(Math.Abs(response.Samples[strongest]) / band.NoiseRms) : 300;
        var clear = Math.Clamp((peakToNoise - 20) / 40, 0, 1);

        // Noise outside the band shifts the top of a slow peak.
        var cleaned = band.Cleaned();
        var around = ImpulseWindow.Strongest(cleaned[..response.Samples.Length]);
        var from = Math.Max(around - 8_192, 0);
        var fine = Oversampled.Of(cleaned, from, around + 64 - from);
        var (peakIndex, peakValue) = fine.Strongest();
        var correlation = Correlate(band, Minimum(band));
        var excess = ExcessSlope(band, strongest);
        List<ArrivalEstimate> estimates =
        [
            new(ArrivalMethod.Peak, response.SecondsAt(peakIndex), clear, false),
            new(ArrivalMethod.Threshold, response.SecondsAt(Crossing(fine, Math.Abs(peakValue) * ThresholdRatio)), clear, false),
            new(ArrivalMethod.Energy, response.SecondsAt(EnergyIndex(cleaned[..response.Samples.Length])), clear, false),
            new(ArrivalMethod.Correlation, response.SecondsAt(correlation.Index), correlation.Height, true),
            new(ArrivalMethod.ExcessPhase, response.SecondsAt(excess.Index), excess.Confidence, true),
        ];
        var chosen = estimates.Where(one => one.IsPropagation).MaxBy(one => one.Confidence)!; // two are
        var spread = Spread(estimates);
        var propagation = Spread(estimates.Where(one => one.IsPropagation));
        if (input.Reference is { } reference)
        {
            var other = Fft.OfReal(Padded(reference.Samples, band.Length), band.Length);
            var against = Correlate(band, other);
            estimates.Add(new ArrivalEstimate(ArrivalMethod.Reference, against.Index / band.Rate + response.StartSeconds - reference.StartSeconds, against.Height, true));
        }

        var findings = Find(estimates, chosen, propagation, peakToNoise, correlation, words);
        var (low, high) = (band.FromHertz, band.ToHertz);
        return new ArrivalResult(estimates, chosen.Seconds, chosen.Method, spread, propagation, correlation.Sign < 0, correlation.SignConfidence, low, high, peakToNoise, findings, Explain(estimates, chosen, low, high, words));
    }

    private static double Spread(IEnumerable<ArrivalEstimate> estimates) => estimates.Max(one => one.Seconds) - estimates.Min(one => one.Seconds);

    private static double[] Padded(double[] samples, int length) => samples.Length <= length ? samples : samples[..length];

    // In the band alone, as nothing else is looked at.
    private static Complex[] Minimum(BandInNoise band)
    {
        var minimum = new Complex[band.Bins.Length];
        for (var k = band.From; k <= band.To; k++)
            minimum[k] = Complex.FromPolarCoordinates(Math.Exp(band.Decibels[k] * Math.Log(10) / 20), band.MinimumRadians[k]);
        return minimum;
    }

    // Correlation in the band; its peak over the sum of the amounts is 1 for a pure delay.
    private static (double Index, double Height, int Sign, double SignConfidence) Correlate(BandInNoise band, Complex[] other)
    {
        var product = new Complex[band.Bins.Length];
        var sum = 0.0;
        for (var k = band.From; k <= band.To; k++)
        {
            product[k] = band.Weight(k) * band.Bins[k] * Complex.Conjugate(other[k]);
            sum += product[k].Magnitude;
        }

        var round = Fft.ToReal(product);
        // Turned by half a round, so that a delay below 0 stands before one above.
        double[] straight = [.. round[(round.Length / 2)..], .. round[..(round.Length / 2)]];
        var strongest = ImpulseWindow.Strongest(straight);
        var fine = Oversampled.Of(straight, strongest - 16, 33);
        var (index, value) = fine.Strongest();
        // The other sign's strongest within a period of the band's middle.
        var reach = (int)Math.Min(band.Rate / Math.Sqrt(band.FromHertz * band.ToHertz), straight.Length / 4.0);
        var opposite = Enumerable.Range(Math.Max(strongest - reach, 0), 2 * reach + 1).Where(n => n < straight.Length).Max(n => Math.Max(-Math.Sign(value) * straight[n], 0));
        var height = sum > 0 ? Math.Clamp(Math.Abs(value) * round.Length / (2 * sum), 0, 1) : 0;
        return (index - round.Length / 2, height, Math.Sign(value), Math.Clamp(1 - opposite / Math.Abs(value), 0, 1));
    }

    // Least squares of phase over frequency, weighted by power, after the strongest sample's delay is taken out.
    private static (double Index, double Confidence) ExcessSlope(BandInNoise band, int strongest)
    {
        var (radians, before, started) = (new double[band.Bins.Length], 0.0, false);
        double w = 0, wx = 0, wy = 0, wxx = 0, wxy = 0;
        for (var k = band.From; k <= band.To; k++)
        {
            var turn = 2 * Math.PI * ((double)k * strongest / band.Length % 1);
            var phase = (band.Bins[k] * Complex.FromPolarCoordinates(1, turn - band.MinimumRadians[k])).Phase;
            before = started ? before + Math.IEEERemainder(phase - before, 2 * Math.PI) : phase;
            (radians[k], started) = (before, true);
            var weight = band.Weight(k) * band.Bins[k].Real * band.Bins[k].Real + band.Weight(k) * band.Bins[k].Imaginary * band.Bins[k].Imaginary;
            (w, wx, wy, wxx, wxy) = (w + weight, wx + weight * k, wy + weight * before, wxx + weight * k * k, wxy + weight * k * before);
        }

        var slope = (w * wxy - wx * wy) / (w * wxx - wx * wx);
        var start = (wy - slope * wx) / w;
        var left = 0.0;
        for (var k = band.From; k <= band.To; k++)
            left += band.Weight(k) * Math.Pow(band.Bins[k].Magnitude * (radians[k] - start - slope * k), 2);
        return (strongest - slope * band.Length / (2 * Math.PI), Math.Clamp(1 - Math.Sqrt(left / w) / (Math.PI / 2), 0, 1));
    }

    private static double Crossing(Oversampled fine, double level)
    {
        var at = Array.FindIndex(fine.Samples, sample => Math.Abs(sample) >= level);
        if (at <= 0)
            return fine.IndexOf(0);
        var (a, b) = (Math.Abs(fine.Samples[at - 1]), Math.Abs(fine.Samples[at]));
        return fine.IndexOf(at - 1 + (level - a) / (b - a));
    }

    private static double EnergyIndex(double[] samples)
    {
        var (wanted, sum) = (EnergyShare * samples.Sum(sample => sample * sample), 0.0);
        for (var n = 0; n < samples.Length; n++)
        {
            var next = sum + samples[n] * samples[n];
            if (next >= wanted)
                return n - 0.5 + (wanted - sum) / (next - sum);
            sum = next;
        }

        return samples.Length - 1;
    }

    private static IReadOnlyList<Finding> Find(
        List<ArrivalEstimate> estimates, ArrivalEstimate chosen, double propagation, double peakToNoise, (double Index, double Height, int Sign, double SignConfidence) correlation, UnitText words)
    {
        var findings = new FindingList("arrival", "Arrival");
        string Milliseconds(double seconds) => words.With(seconds * 1e3, "ms", 4);
        if (peakToNoise < 30)
            findings.Add("arrival-noisy", Severity.Warn, $"The response stands {words.With(peakToNoise, "dB")} above the noise.", "Measure louder or longer before setting a delay by it.", Practice);
        if (propagation > 1e-4)
        {
            findings.Add("arrival-methods-differ", Severity.Warn, $"Methods that stand for the path differ by {Milliseconds(propagation)}.",
                "Look at strong reflections and at the band; check the distance with a tape.", Practice);
        }

        if (chosen.Confidence < 0.6)
            findings.Add("arrival-uncertain", Severity.Warn, $"The surest method reaches a confidence of {words.Number(chosen.Confidence)} of 1.", "Check the distance with a tape, or time it by its crossover band.", Practice);
        var peak = estimates.First(one => one.Method == ArrivalMethod.Peak);
        if (peak.Seconds - chosen.Seconds > 1e-4)
        {
            findings.Add("arrival-peak-late", Severity.Note, $"The peak comes {Milliseconds(peak.Seconds - chosen.Seconds)} after the arrival: that is the rise of driver and filter.",
                "Do not set delays of different bands by their peaks.", Onset);
        }

        if (correlation.Sign < 0)
            findings.Add("arrival-inverted", Severity.Warn, "The first swing goes the other way.", "Check the polarity of the cable, and whether the crossover asks for it.", Practice);
        if (correlation.SignConfidence < 0.2)
            findings.Add("polarity-uncertain", Severity.Note, "The band is too narrow to tell the polarity from the sound.", "Check it with polarity pulses or a battery.", Practice);
        return findings.Sorted;
    }

    private static Explanation Explain(List<ArrivalEstimate> estimates, ArrivalEstimate chosen, double low, double high, UnitText words) => new(
        "When does it arrive?",
        words.With(chosen.Seconds * 1e3, "ms", 5),
        [new ExplainedInput("Band from", low, "Hz", "found above the noise, or entered"), new ExplainedInput("Band to", high, "Hz", "found above the noise, or entered")],
        [.. estimates.Select(one => new ExplainedStep(one.Method.ToString(), Formula(one.Method), $"confidence {words.Number(one.Confidence)}", words.With(one.Seconds * 1e3, "ms", 5), one.IsPropagation ? Cepstrum : Onset))],
        [],
        chosen.Method.ToString());

    private static string Formula(ArrivalMethod method) => method switch
    {
        ArrivalMethod.Peak => "max |h(t)|",
        ArrivalMethod.Threshold => "first |h(t)| ≥ max/10",
        ArrivalMethod.Energy => "∫h² = 10 % of all",
        ArrivalMethod.Correlation => "max |∫H·Hmin*·e^(iωt)|",
        ArrivalMethod.ExcessPhase => "−d(φ − φmin)/dω",
        _ => "max |∫H·R*·e^(iωt)|",
    };
}
