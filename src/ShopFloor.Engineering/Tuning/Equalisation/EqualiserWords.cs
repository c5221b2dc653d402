using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Equalisation;

/// <summary>What a fit says about itself.</summary>
internal static class EqualiserWords
{
    public static IReadOnlyList<Finding> Findings(EqualiserFitInput input, EqualiserFitResult result, UnitText text)
    {
        var findings = new FindingList("equaliser", "Equaliser");
        foreach (var one in result.Nulls.Where(one => one.DeepestHertz >= input.Limits.FromHertz && one.DeepestHertz <= input.Limits.ToHertz))
        {
            findings.About(
                $"null-{one.DeepestHertz:0}", "Dip", "null-left-alone", Severity.Note,
                $"A dip of {text.With(one.DepthDecibels, "dB", 2)} at {text.With(one.DeepestHertz, "Hz")} is left alone: sound cancels itself there.",
                "Look for a reflection, a crossover or a polarity; a filter would only cost power.", Unsourced.CommonPractice);
        }

        if (result.HeadroomLostDecibels > 3)
        {
            findings.Add(
                "headroom-lost", Severity.Warn, $"Filters and level together raise the signal by up to {text.With(result.HeadroomLostDecibels, "dB", 2)}.",
                $"Keep the input {text.With(result.HeadroomLostDecibels, "dB", 2)} below full scale, or allow less boost.", Unsourced.CommonPractice);
        }

        if (result.RmsByCountDecibels is [.., var before, var last] && before - last < 0.03 && result.Filters.Count > 1)
        {
            findings.Add(
                "filter-without-use", Severity.Note, $"The last filter takes off {text.With(before - last, "dB", 2)} rms only.",
                "Fewer filters do as well here.", "computed");
        }

        return findings.Sorted;
    }

    public static Explanation Explain(EqualiserFitInput input, EqualiserFitResult result, int points, UnitText text)
    {
        var limits = input.Limits;
        return new Explanation(
            "Which filters bring the response to the target?",
            $"{result.Filters.Count} filters and {text.With(result.OffsetDecibels, "dB", 3)}: {text.With(result.RmsBeforeDecibels, "dB", 3)} rms before, {text.With(result.RmsDecibels, "dB", 3)} after.",
            [
                new ExplainedInput("Points fitted", points, "", "entered"),
                new ExplainedInput("Filters at most", limits.Filters, "", "entered"),
                new ExplainedInput("Largest boost", limits.LargestGainDecibels, "dB", "entered"),
                new ExplainedInput("Largest cut", limits.LeastGainDecibels, "dB", "entered"),
                new ExplainedInput("Sample rate", input.SampleRateHertz, "Hz", "entered"),
            ],
            [
                new ExplainedStep("Level of a bell", "10·lg((d² + (A/Q)²)/(d² + 1/(AQ)²)), d = x − 1/x, x = tan(w/2)/tan(w0/2)", $"{result.Filters.Count} filters", $"{text.With(result.RmsDecibels, "dB", 3)} rms left", "Audio EQ Cookbook, R. Bristow-Johnson, W3C Note"),
                new ExplainedStep("Search", "add the most useful filter, refit all; then move some, refit, keep what is better", $"{result.LocalFits} local fits, seed {input.Seed}", string.Join(", ", result.RmsByCountDecibels.Select(rms => text.Number(rms, 3))) + " dB by number of filters", "Levenberg 1944, Marquardt 1963, within bounds"),
            ],
            [
                new LimitCheck("Largest error", Math.Abs(result.LargestErrorDecibels), 3, "dB", Math.Abs(result.LargestErrorDecibels) <= 3, Unsourced.CommonPractice),
                new LimitCheck("Headroom lost", result.HeadroomLostDecibels, 3, "dB", result.HeadroomLostDecibels <= 3, Unsourced.CommonPractice),
            ],
            result.Filters.Count == limits.Filters ? "number of filters" : null);
    }
}
