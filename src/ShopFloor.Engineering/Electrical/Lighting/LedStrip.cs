using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Lighting;

/// <summary>Current, voltage drop, feed points and supply of a light strip.</summary>
/// <remarks>
/// By symmetry a strip with n evenly spaced feed points is 2·(n − 1) equal sections fed at one end. A section is a ladder of segments:
/// it is walked from its far end, where the current starts at nothing. With constant current a section of current I and resistance R
/// drops I·R/2. With resistors the current of a segment goes with V − V_f, so the ladder is linear and is scaled to the supply. All
/// colours are taken together at full brightness, on one pair of conductors.
/// </remarks>
public static class LedStrip
{
    private const string Ladder = "Kirchhoff's laws on a ladder of segments";
    private const int MostFeedPoints = 50;
    // ISO 8820-3 blade ratings as marked on fuses; the list is from memory.
    private static readonly double[] _bladeAmperes = [1, 2, 3, 5, 7.5, 10, 15, 20, 25, 30];

    /// <summary>Computes the strip.</summary>
    /// <param name="input">Strip and feed.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="LedStripInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static LedStripResult Compute(LedStripInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));

        var channels = input.Channels.Select(c => new LedChannelCurrent(c.Name, c.AmperesPerMeter * input.LengthMeters)).ToList();
        var full = channels.Sum(c => c.Amperes);
        var section = Fed(input, full, input.FeedPoints);
        var allowed = input.SupplyVolts * input.MaxDropPercent / 100;
        int? least = null;
        for (var n = 1; n <= MostFeedPoints && least is null; n++)
        {
            if (Fed(input, full, n).DropVolts <= allowed)
                least = n;
        }

        var ratingAmperes = full / ElectricalDefaults.ContinuousLoading;
        // A relative tolerance keeps 6 A / 0.8 at 7.5 A in spite of rounding.
        var fuse = _bladeAmperes.Where(a => a >= ratingAmperes * (1 - 1e-9)).Select(a => (double?)a).FirstOrDefault();
        var limit = new LimitCheck("Drop to the worst-fed segment", section.DropVolts, allowed, "V", section.DropVolts <= allowed, ElectricalDefaults.CommonPractice);
        return new LedStripResult
        {
            Channels = channels,
            FullAmperes = full,
            DrawnAmperes = section.TotalAmperes,
            AverageAmperes = section.TotalAmperes * input.Duty,
            DropVolts = section.DropVolts,
            DimmestShare = section.DimmestShare,
            LeastFeedPoints = least,
            SupplyRatingWatts = ratingAmperes * input.SupplyVolts,
            SupplyRatingAmperes = ratingAmperes,
            FuseAmperes = fuse,
            Findings = Findings(input, section, allowed, least, fuse, ratingAmperes, text),
            Explanation = new Explanation(
                $"{input.Name}: which supply, and where to feed it?",
                $"{text.Amperes(full)}, supply of {text.Watts(ratingAmperes * input.SupplyVolts)}" + (least is { } points ? $", {points} feed {(points == 1 ? "point" : "points")}" : ""),
                [
                    new ExplainedInput("Length", input.LengthMeters, "m", "entered"),
                    new ExplainedInput("Resistance of the strip", input.LoopOhmsPerMeter, "Ω/m", ElectricalDefaults.Origin(input.LoopOhmsPerMeter, 0.1, ElectricalDefaults.FromMemory)),
                    new ExplainedInput("Feed points", input.FeedPoints, "", "entered"),
                ],
                [
                    new ExplainedStep("Worst case, all colours", "I = L · Σ I'", $"{text.Number(input.LengthMeters)} · {text.Number(full / input.LengthMeters)}", text.Amperes(full), "sum"),
                    new ExplainedStep("Drop to the worst-fed segment", input.Kind == LedStripKind.ConstantCurrent ? "I_section · R_section / 2 + I_feed · R_feeder" : "ladder with I ∝ V − V_f", $"{input.FeedPoints} feed points", text.Volts(section.DropVolts), Ladder),
                    new ExplainedStep("Supply", "P = I · U / 0.8", $"{text.Number(full)} · {text.Number(input.SupplyVolts)} / 0.8", text.Watts(ratingAmperes * input.SupplyVolts), "80 % loading, " + ElectricalDefaults.CommonPractice),
                ],
                [limit], limit.Passed ? null : limit.Name),
        };
    }

    /// <summary>The worst-fed section of a strip with evenly spaced feed points.</summary>
    private static (double DropVolts, double TotalAmperes, double DimmestShare) Fed(LedStripInput input, double fullAmperes, int feedPoints)
    {
        var sections = feedPoints == 1 ? 1 : 2 * (feedPoints - 1);
        var length = input.LengthMeters / sections;
        var segments = Math.Max(1, (int)Math.Round(length * input.SegmentsPerMeter));
        var step = input.LoopOhmsPerMeter * length / segments;
        var nominal = fullAmperes / sections / segments;
        // An inner feed point carries two sections.
        var feeder = input.FeederLoopOhms * (feedPoints > 2 ? 2 : 1);
        if (input.Kind == LedStripKind.ConstantCurrent)
        {
            var amperes = fullAmperes / sections;
            var strip = amperes * step * segments / 2;
            return (strip + amperes * feeder, fullAmperes, 1);
        }

        // u is the voltage above the forward voltage, in units of that at the far end; the first segment lies half a step from the feed.
        var swing = input.SupplyVolts - input.SegmentForwardVolts;
        var siemens = nominal / swing;
        double u = 1, current = siemens;
        for (var i = 1; i < segments; i++)
        {
            u += step * current;
            current += siemens * u;
        }

        var source = u + (step / 2 + feeder) * current;
        return (swing * (1 - 1 / source), current * swing / source * sections, 1 / u);
    }

    private static IReadOnlyList<Finding> Findings(
        LedStripInput input, (double DropVolts, double TotalAmperes, double DimmestShare) section, double allowed, int? least, double? fuse, double rating, UnitText text)
    {
        var findings = new FindingList(input.Name, input.Name);
        if (section.DropVolts > allowed)
        {
            findings.Add("led-drop-too-large", Severity.Warn, $"The worst-fed LEDs get {text.Volts(section.DropVolts)} less than the supply; {text.Volts(allowed)} are allowed. Colours shift and light fades along the strip.",
                least is { } n ? $"Feed it at {n} evenly spaced points, both ends included." : "Use a strip of higher voltage, shorter pieces or thicker feeders.", Ladder);
        }

        if (fuse is null)
            findings.Add("led-fuse-split", Severity.Warn, $"It asks for a fuse of {text.Amperes(rating)}, above the blade fuses.", "Split it into zones, each with its own fuse.", "ISO 8820-3 blade fuses, list from memory");
        if (input.SupplyVolts is > 5.5 and < 15 && input.Kind == LedStripKind.ResistorLimited)
            findings.Add("led-charging-voltage", Severity.Note, "A strip made for 12 V gets up to about 14.4 V with the engine running and then draws more and ages faster.", "Enter the voltage it really gets, or feed it from a regulated supply.", ElectricalDefaults.CommonPractice);
        findings.Add("led-heat-and-fuse", Severity.Note, "Strips get warm and their conductors are thin.", "Fuse every feed at its source, mount on metal or an open surface, keep clear of airbags and seat tracks.", ElectricalDefaults.CommonPractice);
        if (input.VisibleFromOutside)
        {
            findings.Add("led-road-legal", Severity.Stop, "Light that can be seen from outside is regulated: colour, place, flashing and use while driving are restricted, red to the front and blue nearly everywhere.",
                "Ask the local authority; wire it so that it cannot be lit while driving unless it is approved.", "road vehicle lighting law of the place; in the United States 49 CFR 571.108 and state law");
        }

        return findings.Sorted;
    }
}
