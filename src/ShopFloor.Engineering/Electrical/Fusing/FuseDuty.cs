using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Fusing;

/// <summary>What a fuse is good for in its place.</summary>
/// <param name="CapacityAmperes">Load it may carry for hours here, A.</param>
/// <param name="WeakestConductor">The conductor downstream that may carry least.</param>
/// <param name="EarliestSeconds">Earliest opening at the far-end fault, s, or null when the fault or the curve is not known.</param>
/// <param name="LatestSeconds">Latest opening at the far-end fault, s; infinite when it need not open; null as above.</param>
/// <param name="KeepsAllLimits">Whether nothing has to stop the work.</param>
/// <param name="Findings">What was found.</param>
/// <param name="Explanation">How it was reached, with every limit checked.</param>
public sealed record FuseDutyResult(
    double CapacityAmperes, ProtectedConductor WeakestConductor, double? EarliestSeconds, double? LatestSeconds, bool KeepsAllLimits,
    IReadOnlyList<Finding> Findings, Explanation Explanation);

/// <summary>Judges a fuse in its place: load, conductors, voltage, short circuit and distance from the source.</summary>
public static class FuseDuty
{
    private const string VoltageRule = "33 CFR 183.455(d)";
    private const string InterruptRule = "fuse makers' selection guides: interrupt rating at least the prospective current";
    private const string ConductorRule = "FAA AC 43.13-1B, chapter 11: the protector opens before the rating of the wire is exceeded";

    /// <summary>Judges the fuse.</summary>
    /// <param name="input">The fuse in its place.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="FuseDutyInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static FuseDutyResult Check(FuseDutyInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        var temperature = Math.Min(1, 1 - input.DeratingPerCelsius * (input.AmbientCelsius - 25));
        var capacity = input.RatingAmperes * input.ContinuousLoading * temperature;
        var weakest = input.Conductors.MinBy(c => c.DeratedAmperes)!; // validated: there is one
        var curve = input.MakerCurve ?? input.Series.Curve;
        var (earliest, latest) = Opening(input, curve);
        var limits = Limits(input, capacity, weakest);
        var findings = FuseDutyFindings.Find(input, capacity, weakest, curve, latest, text);
        var explanation = new Explanation(
            $"{input.Name}: is {text.Amperes(input.RatingAmperes)} right here?",
            findings.Any(f => f.Severity == Severity.Stop) ? "No, see what was found." : $"Yes: it may carry {text.Amperes(capacity)} for hours and protects {weakest.Name}.",
            [
                new ExplainedInput("Rating", input.RatingAmperes, "A", input.Series.Source),
                new ExplainedInput("Continuous load", input.ContinuousAmperes, "A", "entered"),
                new ExplainedInput("Ambient", input.AmbientCelsius, "°C", "entered"),
                new ExplainedInput("Interrupt rating", input.Series.InterruptAmperes, "A", input.Series.Source),
            ],
            [
                new ExplainedStep(
                    "Load it may carry for hours", "I = I_rated · loading · (1 − d·(T_amb − 25))",
                    $"{text.Number(input.RatingAmperes)} · {text.Number(input.ContinuousLoading)} · {text.Number(temperature)}", text.Amperes(capacity),
                    input.DeratingPerCelsius > 0 ? $"{RunFindings.FuseSource}; temperature: general guide for small fuses" : RunFindings.FuseSource),
                new ExplainedStep(
                    "Opening at the far-end fault", "log t straight over log I between the points of the curve",
                    input.FarEndFaultAmperes is { } fault ? text.Amperes(fault) : "not known",
                    latest is { } late ? double.IsPositiveInfinity(late) ? "need not open" : $"{text.Number(earliest!.Value)} to {text.Number(late)} s" : "not known",
                    curve?.Source ?? "no curve for this form; use the maker's"),
            ],
            limits,
            limits.FirstOrDefault(l => !l.Passed)?.Name);
        return new FuseDutyResult(capacity, weakest, earliest, latest, findings.All(f => f.Severity != Severity.Stop), findings, explanation);
    }

    private static (double? Earliest, double? Latest) Opening(FuseDutyInput input, FuseCurve? curve)
    {
        if (curve is null || input.FarEndFaultAmperes is not { } fault)
            return (null, null);
        var percent = 100 * fault / input.RatingAmperes;
        return (curve.MinSeconds(percent), curve.MaxSeconds(percent));
    }

    private static List<LimitCheck> Limits(FuseDutyInput input, double capacity, ProtectedConductor weakest)
    {
        var limits = new List<LimitCheck>
        {
            new("Continuous load within what the fuse may carry for hours", input.ContinuousAmperes, capacity, "A",
                FuseRatings.AtLeast(capacity, input.ContinuousAmperes), RunFindings.FuseSource),
            new($"Fuse not above what {weakest.Name} may carry", input.RatingAmperes, weakest.DeratedAmperes, "A",
                FuseRatings.AtLeast(weakest.DeratedAmperes, input.RatingAmperes), ConductorRule),
            new("Fuse voltage rating at least the circuit voltage", input.Series.VoltageRating, input.CircuitVolts, "V",
                input.Series.VoltageRating >= input.CircuitVolts, VoltageRule),
        };
        if (input.ProspectiveAmperes is { } prospective)
        {
            limits.Add(new("Interrupt rating at least the prospective current", input.Series.InterruptAmperes, prospective, "A",
                input.Series.InterruptAmperes >= prospective, InterruptRule));
        }

        limits.AddRange(FusePosition.Limits(Placement(input)));
        return limits;
    }

    internal static FusePlacement Placement(FuseDutyInput input) =>
        new(input.Id, input.Name, input.FedFromBattery, input.SheathedWholeWay, input.SourceToFuseMeters);

    /// <summary>Findings of a fuse in its place.</summary>
    private static class FuseDutyFindings
    {
        // Common practice, no source: a short circuit should be gone within a few seconds.
        private const double SlowSeconds = 5;

        public static List<Finding> Find(
            FuseDutyInput input, double capacity, ProtectedConductor weakest, FuseCurve? curve, double? latest, UnitText text)
        {
            var findings = new List<Finding>();
            void Add(string code, Severity severity, string what, string remedy, string source) =>
                findings.Add(new Finding(code, severity, input.Id, input.Name, what, remedy, source));

            var rating = text.Amperes(input.RatingAmperes);
            if (!FuseRatings.AtLeast(capacity, input.ContinuousAmperes))
            {
                Add("fuse-below-load", Severity.Stop, $"The fuse of {rating} may carry {text.Amperes(capacity)} for hours here; the load is {text.Amperes(input.ContinuousAmperes)}.",
                    "Choose the next larger fuse if every conductor behind it carries that, move the fuse somewhere cooler, or split the load.", RunFindings.FuseSource);
            }

            if (!FuseRatings.AtLeast(weakest.DeratedAmperes, input.RatingAmperes))
            {
                Add("fuse-above-ampacity", Severity.Stop, $"{weakest.Name} may carry {text.Amperes(weakest.DeratedAmperes)} and is protected by {rating}: it can burn before the fuse opens.",
                    "Choose a smaller fuse, a thicker conductor, or give that conductor its own fuse where it starts.", ConductorRule);
            }

            if (input.Series.VoltageRating < input.CircuitVolts)
            {
                Add("fuse-voltage", Severity.Stop, $"The fuse is made for up to {text.Volts(input.Series.VoltageRating)}; the circuit has {text.Volts(input.CircuitVolts)}: it may keep arcing.",
                    "Use a form rated for the voltage.", VoltageRule);
            }

            if (input.ProspectiveAmperes is not { } prospective)
            {
                Add("prospective-unknown", Severity.Warn, "The short-circuit current at the fuse is not known yet.",
                    "Compute it from battery and cable, or use a bolt-in fuse at the battery.", InterruptRule);
            }
            else if (input.Series.InterruptAmperes < prospective)
            {
                Add("fuse-interrupt", Severity.Stop, $"A short circuit gives up to {text.Amperes(prospective)}; the fuse interrupts {text.Amperes(input.Series.InterruptAmperes)} and may burst.",
                    "Use a form with a higher interrupt rating, such as a bolt-in fuse, or move it behind more cable.", $"{InterruptRule}; {input.Series.Source}");
            }

            AddOpening(Add, input, curve, latest, text);
            if (FusePosition.Find(Placement(input), text) is { } position)
                findings.Add(position);
            if (input.SourceToFuseMeters is { } unfused && unfused > 0)
            {
                Add("unfused-length", Severity.Note, $"{text.Meters(unfused)} from the source to the fuse has no protection of its own.",
                    "Keep it short, covered and away from edges, heat and moving parts; follow the vehicle maker's instructions.", FusePosition.SourceRule);
            }

            return findings;
        }

        private static void AddOpening(
            Action<string, Severity, string, string, string> add, FuseDutyInput input, FuseCurve? curve, double? latest, UnitText text)
        {
            if (curve is null)
            {
                add("fuse-curve-unknown", Severity.Note, "No opening times are known for this form.", "Enter the maker's curve.", ElectricalDefaults.FromMemory);
                return;
            }

            if (latest is not { } seconds || input.FarEndFaultAmperes is not { } fault)
                return;
            if (double.IsPositiveInfinity(seconds))
            {
                add("fault-never-clears", Severity.Stop, $"A short circuit at the far end gives {text.Amperes(fault)}, which need not open {text.Amperes(input.RatingAmperes)} at all.",
                    "Use a thicker or shorter conductor, or a smaller fuse.", curve.Source);
            }
            else if (seconds > SlowSeconds)
            {
                add("fault-clears-slowly", Severity.Warn, $"A short circuit at the far end gives {text.Amperes(fault)}; the fuse may take {text.Number(seconds)} s to open.",
                    "Use a thicker or shorter conductor, or a smaller fuse.", $"{curve.Source}; {text.Number(SlowSeconds)} s: {Unsourced.CommonPractice}");
            }
        }
    }
}
