using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Mass;

/// <summary>Readings of four scales, kg (0 to 5000 each).</summary>
/// <param name="FrontLeft">Front left.</param>
/// <param name="FrontRight">Front right.</param>
/// <param name="RearLeft">Rear left.</param>
/// <param name="RearRight">Rear right.</param>
public sealed record CornerReadings(double FrontLeft, double FrontRight, double RearLeft, double RearRight)
{
    /// <summary>Sum, kg.</summary>
    public double TotalKilograms => FrontLeft + FrontRight + RearLeft + RearRight;

    internal double[] All => [FrontLeft, FrontRight, RearLeft, RearRight];
}

/// <summary>A vehicle on four scales before and after a build.</summary>
public sealed record CornerLoadsInput
{
    /// <summary>Wheelbase, m (1 to 7).</summary>
    public required double WheelbaseMeters { get; init; }

    /// <summary>Track, m (0.8 to 2.5), of both axles.</summary>
    public required double TrackMeters { get; init; }

    /// <summary>Before the build.</summary>
    public required CornerReadings Before { get; init; }

    /// <summary>After the build; null before it is weighed again.</summary>
    public CornerReadings? After { get; init; }

    /// <summary>What was put in, and with negative mass taken out; may be empty.</summary>
    public IReadOnlyList<PlacedMass> Masses { get; init; } = [];

    /// <summary>Error of one scale as a share of its reading (0 to 0.1). 0.002 is common practice, no source.</summary>
    public double ScaleShare { get; init; } = 0.002;

    /// <summary>Step of a scale, kg (0 to 20).</summary>
    public double ScaleStepKilograms { get; init; } = 0.5;

    /// <summary>Fuel, driver and load that differ between the weighings, kg (0 to 200): added to what may differ in the sum.</summary>
    public double OtherKilograms { get; init; }

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.AddRange(new AxleLoadsInput { WheelbaseMeters = WheelbaseMeters, TrackMeters = TrackMeters, Masses = Masses }.Validate(text));
        foreach (var (field, label, readings) in new[] { (nameof(Before), "Before", (CornerReadings?)Before), (nameof(After), "After", After) })
        {
            if (readings is null)
                continue;
            checks.InRange($"{field}.FrontLeft", $"{label}, front left", readings.FrontLeft, 0, 5_000, QuantityKind.Mass);
            checks.InRange($"{field}.FrontRight", $"{label}, front right", readings.FrontRight, 0, 5_000, QuantityKind.Mass);
            checks.InRange($"{field}.RearLeft", $"{label}, rear left", readings.RearLeft, 0, 5_000, QuantityKind.Mass);
            checks.InRange($"{field}.RearRight", $"{label}, rear right", readings.RearRight, 0, 5_000, QuantityKind.Mass);
            if (readings.TotalKilograms is >= 0 and < 100)
                checks.Add(field, $"{label}: the four readings sum to less than a vehicle; enter all four.");
        }

        checks.InRange(nameof(ScaleShare), "Error of a scale, share", ScaleShare, 0, 0.1);
        checks.InRange(nameof(ScaleStepKilograms), "Step of a scale", ScaleStepKilograms, 0, 20, QuantityKind.Mass);
        checks.InRange(nameof(OtherKilograms), "Other differences", OtherKilograms, 0, 200, QuantityKind.Mass);
        return checks.Problems;
    }
}

/// <summary>What four readings say.</summary>
/// <param name="Corners">The readings, kg.</param>
/// <param name="TotalKilograms">Sum, kg.</param>
/// <param name="FrontShare">Share on the front axle.</param>
/// <param name="LeftShare">Share on the left wheels.</param>
/// <param name="CrossShare">Share on front right and rear left.</param>
/// <param name="CenterRearwardMeters">Centre of mass behind the front axle, m.</param>
/// <param name="CenterLeftMeters">Centre of mass left of the middle, m.</param>
public sealed record CornerBalance(CornerReadings Corners, double TotalKilograms, double FrontShare, double LeftShare, double CrossShare, double CenterRearwardMeters, double CenterLeftMeters);

/// <summary>A predicted value beside the measured one.</summary>
/// <param name="Name">Plain name.</param>
/// <param name="PredictedKilograms">Change by the masses and moments, kg.</param>
/// <param name="MeasuredKilograms">Change on the scales, kg.</param>
/// <param name="ToleranceKilograms">What the scales leave open, kg.</param>
/// <param name="Agrees">Whether they differ by no more.</param>
public sealed record CornerReconciliation(string Name, double PredictedKilograms, double MeasuredKilograms, double ToleranceKilograms, bool Agrees);

/// <summary>Corner loads before, predicted and after.</summary>
/// <param name="Before">Before.</param>
/// <param name="Predicted">By the masses.</param>
/// <param name="After">After; null before it is weighed again.</param>
/// <param name="Reconciled">Sum, axle and side: predicted against measured; empty before it is weighed again.</param>
/// <param name="Findings">What was found, gravest first.</param>
/// <param name="Explanation">How it was reached.</param>
public sealed record CornerLoadsResult(
    CornerBalance Before, CornerBalance Predicted, CornerBalance? After, IReadOnlyList<CornerReconciliation> Reconciled, IReadOnlyList<Finding> Findings, Explanation Explanation);

/// <summary>Corner loads by moments, and what the scales say of them.</summary>
/// <remarks>
/// Four corners of a rigid body are one more than equilibrium tells. Each mass is shared front to rear and left to right by its place and each
/// corner gets the product of both shares, as if roll stiffness were the same front and rear. Sums, axles and sides are exact; single corners hang
/// on springs and tyre pressures, so only sum, axle and side are reconciled.
/// </remarks>
public static class CornerLoads
{
    private const string Moments = "equilibrium of moments about the axles and the middle";

    /// <summary>Works the corners out.</summary>
    /// <param name="input">Vehicle, readings and masses.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="CornerLoadsInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static CornerLoadsResult Compute(CornerLoadsInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        var change = Change(input.Masses, input.WheelbaseMeters, input.TrackMeters);
        var before = input.Before;
        var expected = new CornerReadings(before.FrontLeft + change.FrontLeft, before.FrontRight + change.FrontRight, before.RearLeft + change.RearLeft, before.RearRight + change.RearRight);
        var predicted = Balance(expected, input);
        var after = input.After is { } weighed ? Balance(weighed, input) : null;
        var reconciled = input.After is { } measured ? Reconcile(input, change, measured) : [];
        LimitCheck[] limits = [.. reconciled.Select(row => new LimitCheck($"{row.Name}: difference", Math.Abs(row.PredictedKilograms - row.MeasuredKilograms), row.ToleranceKilograms, "kg", row.Agrees, "error and step of the scales"))];
        return new CornerLoadsResult(Balance(before, input), predicted, after, reconciled, Findings(after ?? predicted, reconciled, text), new Explanation(
            "What does the build change at the wheels?",
            $"{text.Kilograms(change.TotalKilograms)} predicted" + (input.After is { } seen ? $", {text.Kilograms(seen.TotalKilograms - before.TotalKilograms)} measured" : ""),
            [new ExplainedInput("Wheelbase", input.WheelbaseMeters, "m", "entered"), new ExplainedInput("Track", input.TrackMeters, "m", "entered"), new ExplainedInput("Sum before", before.TotalKilograms, "kg", "scales")],
            [
                new ExplainedStep("Corner of a mass", "Δ = m·(1 − x/L or x/L)·(1/2 ± y/T)", $"{input.Masses.Count} masses", $"{text.Number(change.FrontLeft)}, {text.Number(change.FrontRight)}, {text.Number(change.RearLeft)}, {text.Number(change.RearRight)} kg", Moments + "; equal roll stiffness front and rear assumed"),
                new ExplainedStep("Centre of mass", "x = R·L/m, y = (Left − Right)·T/(2m)", $"{text.Number((after ?? predicted).TotalKilograms)} kg", $"{text.Meters((after ?? predicted).CenterRearwardMeters)} behind the front axle", Moments),
            ],
            limits,
            limits.FirstOrDefault(limit => !limit.Passed)?.Name));
    }

    /// <summary>What masses change at each wheel, kg; the corners share as told above.</summary>
    /// <param name="masses">What is put in, and with negative mass taken out.</param>
    /// <param name="wheelbaseMeters">Wheelbase, m (1 to 7).</param>
    /// <param name="trackMeters">Track, m (0.8 to 2.5), of both axles.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range; the parameter name is the field.</exception>
    public static CornerReadings Change(IReadOnlyList<PlacedMass> masses, double wheelbaseMeters, double trackMeters)
    {
        ArgumentNullException.ThrowIfNull(masses);
        InputChecks.ThrowIfAny(new AxleLoadsInput { WheelbaseMeters = wheelbaseMeters, TrackMeters = trackMeters, Masses = masses }.Validate());
        return masses.Aggregate(new CornerReadings(0, 0, 0, 0), (sum, mass) =>
        {
            var (rear, left) = (mass.RearwardMeters / wheelbaseMeters, 0.5 + mass.LeftMeters / trackMeters);
            return new CornerReadings(
                sum.FrontLeft + mass.Kilograms * (1 - rear) * left, sum.FrontRight + mass.Kilograms * (1 - rear) * (1 - left),
                sum.RearLeft + mass.Kilograms * rear * left, sum.RearRight + mass.Kilograms * rear * (1 - left));
        });
    }

    private static CornerBalance Balance(CornerReadings corners, CornerLoadsInput input)
    {
        var total = corners.TotalKilograms;
        var (front, left) = ((corners.FrontLeft + corners.FrontRight) / total, (corners.FrontLeft + corners.RearLeft) / total);
        return new CornerBalance(corners, total, front, left, (corners.FrontRight + corners.RearLeft) / total, (1 - front) * input.WheelbaseMeters, (left - 0.5) * input.TrackMeters);
    }

    private static CornerReconciliation[] Reconcile(CornerLoadsInput input, CornerReadings change, CornerReadings after)
    {
        var before = input.Before;
        // Independent errors of the scales, each with half a step of reading: the root of the sum of squares, twice for 95 %.
        double Tolerance(params double[] readings) => 2 * Math.Sqrt(readings.Sum(reading => Math.Pow(input.ScaleShare * reading, 2) + Math.Pow(input.ScaleStepKilograms / 2, 2) / 3));
        CornerReconciliation Row(string name, double predicted, double measured, double tolerance) => new(name, predicted, measured, tolerance, Math.Abs(predicted - measured) <= tolerance);
        return
        [
            Row("Sum", change.TotalKilograms, after.TotalKilograms - before.TotalKilograms, Tolerance([.. before.All, .. after.All]) + input.OtherKilograms),
            Row("Front axle", change.FrontLeft + change.FrontRight, after.FrontLeft + after.FrontRight - before.FrontLeft - before.FrontRight,
                Tolerance(before.FrontLeft, before.FrontRight, after.FrontLeft, after.FrontRight) + input.OtherKilograms),
            Row("Rear axle", change.RearLeft + change.RearRight, after.RearLeft + after.RearRight - before.RearLeft - before.RearRight,
                Tolerance(before.RearLeft, before.RearRight, after.RearLeft, after.RearRight) + input.OtherKilograms),
            Row("Left side", change.FrontLeft + change.RearLeft, after.FrontLeft + after.RearLeft - before.FrontLeft - before.RearLeft,
                Tolerance(before.FrontLeft, before.RearLeft, after.FrontLeft, after.RearLeft) + input.OtherKilograms),
        ];
    }

    private static IReadOnlyList<Finding> Findings(CornerBalance last, IReadOnlyList<CornerReconciliation> reconciled, UnitText text)
    {
        var findings = new FindingList("corner-loads", "Corner loads");
        foreach (var row in reconciled.Where(row => !row.Agrees))
        {
            findings.About($"corner-{row.Name.ToLowerInvariant().Replace(' ', '-')}", row.Name, "corner-differs", Severity.Warn,
                $"{text.Kilograms(row.MeasuredKilograms)} measured, {text.Kilograms(row.PredictedKilograms)} predicted; the scales leave {text.Kilograms(row.ToleranceKilograms)} open.",
                "Look for parts without a mass or place in the list, fuel, load, and a scale that was not zeroed or level.", "error and step of the scales");
        }

        if (Math.Abs(last.CrossShare - 0.5) > 0.02)
        {
            findings.Add("cross-weight", Severity.Note, $"{text.Percent(100 * last.CrossShare)} stand on front right and rear left.", "Tyre pressures, level floor and springs: 48 to 52 % are usual.", Unsourced.CommonPractice);
        }

        if (Math.Abs(last.LeftShare - 0.5) > 0.04)
            findings.Add("side-heavy", Severity.Warn, $"{text.Percent(100 * last.LeftShare)} stand on the left wheels.", "Move heavy parts to the other side.", Unsourced.CommonPractice);
        return findings.Sorted;
    }
}
