using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Templates;

/// <summary>A hole to drill.</summary>
/// <param name="Number">From 1, anticlockwise.</param>
/// <param name="Center">Its middle from the middle of the template, m; x to the right, y up.</param>
/// <param name="DiameterMeters">Diameter, m.</param>
public sealed record TemplateHole(int Number, Point2 Center, double DiameterMeters);

/// <summary>A template worked out; what is drawn follows from this record.</summary>
public sealed record TemplateResult
{
    /// <summary>What was asked.</summary>
    public required TemplateInput Input { get; init; }

    /// <summary>Holes.</summary>
    public required IReadOnlyList<TemplateHole> Holes { get; init; }

    /// <summary>Area that is left of the board, m².</summary>
    public required double NetSquareMeters { get; init; }

    /// <summary>Extent along x, m.</summary>
    public required double LengthMeters { get; init; }

    /// <summary>Extent along y, m.</summary>
    public required double WidthMeters { get; init; }

    /// <summary>Straight distance between the middles of neighbouring holes, m; null with fewer than two.</summary>
    public required double? BetweenHolesMeters { get; init; }

    /// <summary>Least board between a hole and the cut-out, m; null without holes.</summary>
    public required double? HoleToCutOutMeters { get; init; }

    /// <summary>Least board between a hole and the outside, m; null without holes.</summary>
    public required double? HoleToOutsideMeters { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}

/// <summary>Places and checks of a ring or adapter template.</summary>
/// <remarks>Hole k of n stands at (r·cos φ, r·sin φ) with φ = φ₁ + 360°·k/n; neighbours are the chord 2·r·sin(180°/n) apart.</remarks>
public static class RingTemplate
{
    private const string Practice = Unsourced.CommonPractice;
    private const string Geometry = "plane geometry";

    /// <summary>Computes the template.</summary>
    /// <param name="input">Sizes.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="TemplateInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static TemplateResult Compute(TemplateInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        var holes = Holes(input);
        var hole = input.HoleMeters ?? 0;
        double? between = holes.Count < 2 ? null : input.BoltCircleMeters!.Value * Math.Sin(Math.PI / holes.Count);
        double? inner = holes.Count == 0 ? null : (input.BoltCircleMeters!.Value - input.CutOutMeters - hole) / 2;
        double? outer = holes.Count == 0 ? null : holes.Min(one => input.Outside.EdgeMeters(one.Center.X, one.Center.Y)) - hole / 2;
        var limits = new List<LimitCheck>();
        if (inner is { } toCutOut && outer is { } toOutside)
        {
            var least = input.EdgeRatio * hole;
            limits.Add(new LimitCheck("Board between holes and cut-out", toCutOut * 1000, least * 1000, "mm", toCutOut >= least - 1e-9, Practice));
            limits.Add(new LimitCheck("Board between holes and outside", toOutside * 1000, least * 1000, "mm", toOutside >= least - 1e-9, Practice));
            if (between is { } apart)
                limits.Add(new LimitCheck("Board between holes", (apart - hole) * 1000, least * 1000, "mm", apart - hole >= least - 1e-9, Practice));
        }

        return new TemplateResult
        {
            Input = input,
            Holes = holes,
            NetSquareMeters = input.Outside.SquareMeters - Math.PI / 4 * (input.CutOutMeters * input.CutOutMeters + holes.Count * hole * hole),
            LengthMeters = input.Outside.Around.Length,
            WidthMeters = input.Outside.Around.Width,
            BetweenHolesMeters = between,
            HoleToCutOutMeters = inner,
            HoleToOutsideMeters = outer,
            Findings = Find(input, limits, text),
            Explanation = Explain(input, holes, between, limits, text),
        };
    }

    private static List<TemplateHole> Holes(TemplateInput input) =>
        [.. Enumerable.Range(0, input.Holes).Select(n =>
        {
            var angle = double.DegreesToRadians(input.FirstHoleDegrees + 360.0 * n / input.Holes);
            var radius = input.BoltCircleMeters!.Value / 2;
            return new TemplateHole(n + 1, new Point2(radius * Math.Cos(angle), radius * Math.Sin(angle)), input.HoleMeters!.Value);
        })];

    private static IReadOnlyList<Finding> Find(TemplateInput input, List<LimitCheck> limits, UnitText text)
    {
        var found = new FindingList("template", input.Name);
        foreach (var limit in limits.Where(limit => !limit.Passed))
        {
            var cut = limit.Actual <= 0;
            found.Add(cut ? "template-holes-cut" : "template-edge-thin", cut ? Severity.Stop : Severity.Warn,
                cut ? $"{limit.Name}: the holes run into it by {text.Millimeters(-limit.Actual / 1000)}."
                    : $"{limit.Name}: {text.Millimeters(limit.Actual / 1000)} is less than {text.Millimeters(limit.Limit / 1000)}; the board may break out.",
                "Change the bolt circle, take smaller holes or a larger outside.", cut ? Geometry : Practice);
        }

        foreach (var ring in input.Rings)
        {
            if (input.Outside.EdgeMeters(0, 0) <= ring.DiameterMeters / 2)
                found.Add("template-ring-outside", Severity.Stop, $"{ring.Name}: {text.Of(ring.DiameterMeters, QuantityKind.SmallLength, 4)} reaches beyond the outside.", "Take a smaller step or a larger outside.", Geometry);
            if (ring.DepthMeters > input.ThicknessMeters / 2 && !ring.IsChamfer)
                found.Add("template-ring-deep", Severity.Warn, $"{ring.Name}: {text.Millimeters(input.ThicknessMeters - ring.DepthMeters)} of {text.Millimeters(input.ThicknessMeters)} are left under the bolts.", "Take thicker board or a shallower step.", Practice);
        }

        return found.Sorted;
    }

    private static Explanation Explain(TemplateInput input, List<TemplateHole> holes, double? between, List<LimitCheck> limits, UnitText text)
    {
        var steps = new List<ExplainedStep>();
        if (holes.Count > 0)
        {
            steps.Add(new("Holes", "x = r · cos φ, y = r · sin φ, φ = φ₁ + 360° · k / n", $"r {text.Of(input.BoltCircleMeters!.Value / 2, QuantityKind.SmallLength, 5)}, φ₁ {text.Number(input.FirstHoleDegrees)}°, n {holes.Count}",
                $"first at {text.Of(holes[0].Center.X, QuantityKind.SmallLength, 5)}, {text.Of(holes[0].Center.Y, QuantityKind.SmallLength, 5)}", Geometry));
        }

        if (between is { } apart)
            steps.Add(new("Neighbouring holes", "2 · r · sin(180° / n)", "", text.Of(apart, QuantityKind.SmallLength, 5), Geometry));
        return new Explanation($"{input.Name}: where do the holes go?", holes.Count == 0 ? "No holes" : $"{holes.Count} holes on {text.Of(input.BoltCircleMeters!.Value, QuantityKind.SmallLength, 5)}",
            [new("Cut-out", input.CutOutMeters * 1000, "mm", "entered"), new("Least board beside a hole over its diameter", input.EdgeRatio, "", "entered, or 1: " + Practice)],
            steps, limits, limits.FirstOrDefault(limit => !limit.Passed)?.Name);
    }
}
