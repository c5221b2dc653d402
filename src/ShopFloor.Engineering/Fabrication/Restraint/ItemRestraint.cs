using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Safety;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Restraint;

/// <summary>How it is held in one direction.</summary>
/// <param name="Direction">Where the force points.</param>
/// <param name="ForceNewtons">Force to hold, N.</param>
/// <param name="WorstFastenerId">The fastener that bears most.</param>
/// <param name="TensionNewtons">Its pull, N; null when nothing can hold the tipping.</param>
/// <param name="ShearNewtons">Its force across, N.</param>
/// <param name="Margin">What it bears over what it has to; null when nothing can hold the tipping, which counts as 0.</param>
public sealed record DirectionHold(ForceDirection Direction, double ForceNewtons, string WorstFastenerId, double? TensionNewtons, double ShearNewtons, double? Margin);

/// <summary>How an item is held.</summary>
/// <param name="Directions">Each direction.</param>
/// <param name="LeastMargin">Smallest margin; null when tipping is not held.</param>
/// <param name="TensionNewtons">Pull one fastener bears, N.</param>
/// <param name="ShearNewtons">Force across one fastener bears, N.</param>
/// <param name="Findings">What was found, gravest first.</param>
/// <param name="Cautions">What to keep clear of.</param>
/// <param name="Explanation">How it was reached.</param>
public sealed record RestraintResult(
    IReadOnlyList<DirectionHold> Directions, double? LeastMargin, double TensionNewtons, double ShearNewtons, IReadOnlyList<Finding> Findings, IReadOnlyList<SafetyText> Cautions, Explanation Explanation);

/// <summary>Force of a mass at a deceleration, shared over its fasteners.</summary>
/// <remarks>
/// F = m·a at the centre of mass; weight and friction are left out. Across: F/n, and the turn about the middle of the fasteners by their distance
/// from it. Tipping about the edge of the base the force points to: pull of each as its distance from that edge, T = F·h·d/Σd² (rigid base).
/// Pull and force across together: margin = 1/√((T/T₀)² + (V/V₀)²), the ellipse used for bolts (from memory).
/// </remarks>
public static class ItemRestraint
{
    /// <summary>Standard gravity, m/s² (ISO 80000-3).</summary>
    public const double Gravity = 9.80665;

    /// <summary>Below this margin it is warned of. Common practice, no source.</summary>
    public const double GoodMargin = 1.5;

    private const string Statics = "equilibrium of a rigid base; friction and weight left out";

    /// <summary>Checks every direction.</summary>
    /// <param name="input">Item, fasteners and decelerations.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="RestraintInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static RestraintResult Compute(RestraintInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        DirectionHold[] directions = [.. Enum.GetValues<ForceDirection>().Select(direction => Worst(input, direction))];
        var worst = directions.MinBy(direction => direction.Margin ?? 0)!; // five
        LimitCheck[] limits = [.. directions.Select(direction => new LimitCheck($"{Words(direction.Direction)}: margin", direction.Margin ?? 0, 1, "", direction.Margin >= 1, input.Hold.Source))];
        return new RestraintResult(
            directions,
            worst.Margin,
            input.Hold.TensionNewtons,
            input.Hold.ShearNewtons,
            RestraintFindings.Find(input, directions, text),
            [new SafetyText("keep clear", WorkSafety.KeepClear, true, Unsourced.CommonPractice), .. input.Hold is MagnetHold ? WorkSafety.Materials([MaterialHazard.Magnet]) : []],
            new Explanation(
                $"{input.Name}: is it held?",
                worst.Margin is { } margin ? $"least margin {text.Number(margin)}, {Words(worst.Direction)}" : $"not held against tipping, {Words(worst.Direction)}",
                [
                    new ExplainedInput("Mass", input.Kilograms, "kg", "entered"),
                    new ExplainedInput("Height of the centre of mass", input.CenterHeightMeters, "m", "entered"),
                    new ExplainedInput("Fasteners", input.Fasteners.Count, "", "entered"),
                    .. directions.Select(direction => new ExplainedInput($"Deceleration, {Words(direction.Direction)}", input.Decelerations.Of(direction.Direction), "g", "setting; default: UN Regulations No. 67 and 100 along and across, from memory; up: common practice, no source")),
                ],
                [
                    new ExplainedStep($"Force, {Words(worst.Direction)}", "F = m·a", $"{text.Number(input.Kilograms)} kg × {text.Number(input.Decelerations.Of(worst.Direction))} × 9.80665 m/s²", text.With(worst.ForceNewtons, "N"), Statics),
                    new ExplainedStep("Pull of the worst fastener", "T = F·h·d/Σd²", $"fastener {worst.WorstFastenerId}", worst.TensionNewtons is { } tension ? text.With(tension, "N") : "none", Statics),
                    new ExplainedStep("Force across of the worst fastener", "V = F/n and its turn", $"fastener {worst.WorstFastenerId}", text.With(worst.ShearNewtons, "N"), Statics),
                    new ExplainedStep("Margin", "1/√((T/T₀)² + (V/V₀)²)", $"T₀ {text.With(input.Hold.TensionNewtons, "N")}, V₀ {text.With(input.Hold.ShearNewtons, "N")}", text.Number(worst.Margin ?? 0), input.Hold.Source),
                ],
                limits,
                limits.FirstOrDefault(limit => !limit.Passed)?.Name));
    }

    internal static string Words(ForceDirection direction) => direction switch
    {
        ForceDirection.Forward => "to the front",
        ForceDirection.Rearward => "to the rear",
        ForceDirection.Left => "to the left",
        ForceDirection.Right => "to the right",
        _ => "upward",
    };

    private static DirectionHold Worst(RestraintInput input, ForceDirection direction)
    {
        var force = input.Kilograms * input.Decelerations.Of(direction) * Gravity;
        var loads = direction == ForceDirection.Up ? Lifted(input, force) : Pushed(input, direction, force);
        return loads
            .Select(load => new DirectionHold(direction, force, load.Id, load.Tension, load.Shear, load.Tension is { } tension ? Margin(input.Hold, tension, load.Shear) : null))
            .MinBy(hold => hold.Margin ?? 0)!; // at least one fastener
    }

    private static double Margin(Hold hold, double tension, double shear) => 1 / Math.Sqrt(Math.Pow(tension / hold.TensionNewtons, 2) + Math.Pow(shear / hold.ShearNewtons, 2));

    private static IEnumerable<(string Id, double? Tension, double Shear)> Pushed(RestraintInput input, ForceDirection direction, double force)
    {
        var (ahead, aside) = direction switch { ForceDirection.Forward => (1, 0), ForceDirection.Rearward => (-1, 0), ForceDirection.Left => (0, 1), _ => (0, -1) };
        var edge = ahead != 0 ? input.BaseLengthMeters / 2 : input.BaseWidthMeters / 2;
        // Distance from the edge it tips over, which lies in the direction of the force.
        double Distance(FastenerPlace place) => edge - (ahead * place.ForwardMeters + aside * place.LeftMeters);
        var squares = input.Fasteners.Sum(place => Distance(place) * Distance(place));
        var tipping = force * input.CenterHeightMeters;
        var middle = (Forward: input.Fasteners.Average(place => place.ForwardMeters), Left: input.Fasteners.Average(place => place.LeftMeters));
        var polar = input.Fasteners.Sum(place => Math.Pow(place.ForwardMeters - middle.Forward, 2) + Math.Pow(place.LeftMeters - middle.Left, 2));
        // Turn about the upright axis, to the left.
        var turn = force * (aside * (input.CenterForwardMeters - middle.Forward) - ahead * (input.CenterLeftMeters - middle.Left));
        var unturned = Math.Abs(turn) > 1e-9 * force && polar < 1e-9;
        foreach (var place in input.Fasteners)
        {
            var (x, y) = (place.ForwardMeters - middle.Forward, place.LeftMeters - middle.Left);
            var across = polar < 1e-9 ? force / input.Fasteners.Count : Math.Sqrt(
                Math.Pow(ahead * force / input.Fasteners.Count - turn * y / polar, 2) + Math.Pow(aside * force / input.Fasteners.Count + turn * x / polar, 2));
            double? tension = tipping == 0 ? 0 : squares < 1e-9 ? null : tipping * Distance(place) / squares;
            yield return (place.Id, unturned ? null : tension, across);
        }
    }

    // Pulled off the surface: F/n and the moments of a centre of mass beside the middle of the fasteners, shared by distance from it.
    private static IEnumerable<(string Id, double? Tension, double Shear)> Lifted(RestraintInput input, double force)
    {
        var middle = (Forward: input.Fasteners.Average(place => place.ForwardMeters), Left: input.Fasteners.Average(place => place.LeftMeters));
        var (xx, yy, xy) = (0.0, 0.0, 0.0);
        foreach (var place in input.Fasteners)
        {
            var (x, y) = (place.ForwardMeters - middle.Forward, place.LeftMeters - middle.Left);
            (xx, yy, xy) = (xx + x * x, yy + y * y, xy + x * y);
        }

        var (mx, my) = (force * (input.CenterForwardMeters - middle.Forward), force * (input.CenterLeftMeters - middle.Left));
        var determinant = xx * yy - xy * xy;
        // In one row, only a moment along the row can be held.
        var row = determinant <= 1e-12 * Math.Max(1e-6, xx + yy) * (xx + yy);
        var along = xx + yy;
        var held = !row || along < 1e-12
            ? along >= 1e-12 || Math.Abs(mx) + Math.Abs(my) <= 1e-9 * force
            : Math.Abs(mx * Math.Sqrt(yy / along) - Math.Sign(xy == 0 ? 1 : xy) * my * Math.Sqrt(xx / along)) <= 1e-9 * force;
        foreach (var place in input.Fasteners)
        {
            var (x, y) = (place.ForwardMeters - middle.Forward, place.LeftMeters - middle.Left);
            var extra = along < 1e-12 ? 0
                : row ? (mx * x + my * y) / along
                : ((mx * yy - my * xy) * x + (my * xx - mx * xy) * y) / determinant;
            yield return (place.Id, held ? Math.Max(0, force / input.Fasteners.Count + extra) : null, 0);
        }
    }
}
