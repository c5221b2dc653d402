using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Measurements;

/// <summary>What is to be looked at in a sweep's recording.</summary>
internal static class SweepFindings
{
    private const string Practice = "common practice, no source";
    private const string LongerSweep = "Farina, AES 108, preprint 5093, 2000; the limits are common practice, no source";
    public const string OtherSweep = "sweep-other";
    private const double FullScale = 0.999;
    private const int ClippedRun = 3;

    public static IReadOnlyList<Finding> Of(SweepRecording input, SweepPassageResult? heard, IReadOnlyList<HarmonicResponse> harmonics, double peakToNoise, double? recordingToNoise, UnitText words)
    {
        var findings = new FindingList("sweep", "Sweep");
        if (heard is not null && !heard.Fits(input.Sweep))
        {
            findings.Add(OtherSweep, Severity.Stop, $"Another sweep was played: in the recording the frequency rises by e in {words.With(heard.RateSeconds, "s", 3)}, in the sweep that is chosen in {words.With(input.Sweep.RateSeconds, "s", 3)}.",
                "Choose the sweep that was played; with another one the response is smeared.", SweepDeconvolution.Farina);
        }

        if (Clipped(input.Recorded) is { } at)
            findings.Add("sweep-recording-clipped", Severity.Stop, $"The recording is at full scale from {words.With(at / (double)input.Sweep.SampleRateHertz, "s", 4)}.", "Turn the microphone's gain down and measure again.", Practice);
        if (input.Loopback is { } loopback && Clipped(loopback) is { } clipped)
            findings.Add("sweep-loopback-clipped", Severity.Stop, $"The loopback is at full scale from {words.With(clipped / (double)input.Sweep.SampleRateHertz, "s", 4)}.", "Turn the loopback's gain down and measure again.", Practice);
        if (peakToNoise < 40 || recordingToNoise < 20)
        {
            findings.Add("sweep-noisy", Severity.Warn, $"The response stands {words.With(peakToNoise, "dB")} above the noise.",
                "Switch fans and engine off, measure louder or with a longer sweep; twice the length gains 3 dB.", LongerSweep);
        }

        if (recordingToNoise is null)
            findings.Add("sweep-no-silence", Severity.Note, "The recording ends within 50 ms after the sweep.", "Record on for the time the cabin rings, half a second or more.", Practice);
        var shortest = input.Sweep.HarmonicLeadSeconds(2);
        if (shortest < 0.1)
        {
            findings.Add("sweep-short", Severity.Note, $"The second harmonic comes {words.With(shortest * 1e3, "ms")} before the linear response; what rings longer than that runs into it.",
                "Use a longer sweep when distortion matters.", SweepDeconvolution.Farina);
        }

        if (harmonics.Count > 0 && harmonics.Max(one => one.PeakDecibels) > -20)
        {
            var worst = harmonics.MaxBy(one => one.PeakDecibels)!; // there is one
            findings.Add("sweep-distorted", Severity.Warn, $"Harmonic {worst.Order} reaches {words.With(worst.PeakDecibels, "dB")} against the linear response.", "Play quieter: what limits here is not the response.", Practice);
        }

        return findings.Sorted;
    }

    private static int? Clipped(double[] samples)
    {
        var run = 0;
        for (var n = 0; n < samples.Length; n++)
        {
            run = Math.Abs(samples[n]) >= FullScale ? run + 1 : 0;
            if (run >= ClippedRun)
                return n - run + 1;
        }

        return null;
    }
}
