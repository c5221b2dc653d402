using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Mass;

/// <summary>A mass with its place. Coordinates from the middle of the front axle: x rearward, y to the left.</summary>
/// <param name="Id">Identifier, unique in the input.</param>
/// <param name="Name">Name for texts.</param>
/// <param name="Kilograms">Mass, kg, negative for what is taken out (−2,000 to 2,000).</param>
/// <param name="RearwardMeters">x, m (−3 to 12).</param>
/// <param name="LeftMeters">y, m (−2 to 2).</param>
public sealed record PlacedMass(string Id, string Name, double Kilograms, double RearwardMeters, double LeftMeters = 0);

/// <summary>Loads of axles before, and what is put in and taken out.</summary>
public sealed record AxleLoadsInput
{
    /// <summary>Wheelbase, m (1 to 7).</summary>
    public required double WheelbaseMeters { get; init; }

    /// <summary>Track, m (0.8 to 2.5); null when corners are not asked for.</summary>
    public double? TrackMeters { get; init; }

    /// <summary>Load of the front axle before, kg (0 to 20,000); null when not weighed.</summary>
    public double? FrontKilograms { get; init; }

    /// <summary>Load of the rear axle before, kg (0 to 20,000); null when not weighed.</summary>
    public double? RearKilograms { get; init; }

    /// <summary>Front gross axle weight rating of the label, kg; null when not known.</summary>
    public double? FrontRatingKilograms { get; init; }

    /// <summary>Rear gross axle weight rating of the label, kg; null when not known.</summary>
    public double? RearRatingKilograms { get; init; }

    /// <summary>Gross vehicle weight rating of the label, kg (300 to 40,000); null when not known.</summary>
    public double? GrossRatingKilograms { get; init; }

    /// <summary>The masses; may be empty.</summary>
    public required IReadOnlyList<PlacedMass> Masses { get; init; }

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(WheelbaseMeters), "Wheelbase", WheelbaseMeters, 1, 7, QuantityKind.Length);
        checks.InRange(nameof(TrackMeters), "Track", TrackMeters, 0.8, 2.5, QuantityKind.Length);
        checks.InRange(nameof(FrontKilograms), "Load of the front axle", FrontKilograms, 0, 20_000, QuantityKind.Mass);
        checks.InRange(nameof(RearKilograms), "Load of the rear axle", RearKilograms, 0, 20_000, QuantityKind.Mass);
        checks.InRange(nameof(FrontRatingKilograms), "Rating of the front axle", FrontRatingKilograms, 100, 20_000, QuantityKind.Mass);
        checks.InRange(nameof(RearRatingKilograms), "Rating of the rear axle", RearRatingKilograms, 100, 20_000, QuantityKind.Mass);
        checks.InRange(nameof(GrossRatingKilograms), "Gross vehicle weight rating", GrossRatingKilograms, 300, 40_000, QuantityKind.Mass);
        checks.Distinct(nameof(Masses), "Masses", Masses.Select(mass => mass.Id));
        for (var i = 0; i < Masses.Count; i++)
        {
            var mass = Masses[i];
            checks.InRange($"{nameof(Masses)}[{i}].Kilograms", $"{mass.Name}, mass", mass.Kilograms, -2_000, 2_000, QuantityKind.Mass);
            checks.InRange($"{nameof(Masses)}[{i}].RearwardMeters", $"{mass.Name}, place behind the front axle", mass.RearwardMeters, -3, 12, QuantityKind.Length);
            checks.InRange($"{nameof(Masses)}[{i}].LeftMeters", $"{mass.Name}, place to the left", mass.LeftMeters, -2, 2, QuantityKind.Length);
        }

        return checks.Problems;
    }
}

/// <summary>Change of axle and corner loads.</summary>
public sealed record AxleLoadsResult
{
    /// <summary>Mass put in less mass taken out, kg.</summary>
    public required double AddedKilograms { get; init; }

    /// <summary>Change of the front axle, kg.</summary>
    public required double FrontChangeKilograms { get; init; }

    /// <summary>Change of the rear axle, kg.</summary>
    public required double RearChangeKilograms { get; init; }

    /// <summary>Change of the left wheels, kg; null without a track.</summary>
    public required double? LeftChangeKilograms { get; init; }

    /// <summary>Front axle after, kg; null when it was not weighed.</summary>
    public required double? FrontKilograms { get; init; }

    /// <summary>Rear axle after, kg; null when it was not weighed.</summary>
    public required double? RearKilograms { get; init; }

    /// <summary>Centre of mass behind the front axle before, m; null when not weighed.</summary>
    public required double? CenterBeforeMeters { get; init; }

    /// <summary>Centre of mass behind the front axle after, m; null when not weighed.</summary>
    public required double? CenterAfterMeters { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}

/// <summary>Axle loads by moments about the front axle: ΔR = Σ m·x / wheelbase, ΔF = Σ m − ΔR.</summary>
public static class AxleLoads
{
    private const string Moments = "equilibrium of moments about the axles";

    /// <summary>Computes the change.</summary>
    /// <param name="input">Vehicle and masses.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="AxleLoadsInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static AxleLoadsResult Compute(AxleLoadsInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        var added = input.Masses.Sum(mass => mass.Kilograms);
        var rear = input.Masses.Sum(mass => mass.Kilograms * mass.RearwardMeters) / input.WheelbaseMeters;
        var front = added - rear;
        var (frontAfter, rearAfter) = (input.FrontKilograms + front, input.RearKilograms + rear);
        var limits = new List<LimitCheck>();
        var findings = new List<Finding>();
        Limit("front", "Front axle", frontAfter, input.FrontRatingKilograms);
        Limit("rear", "Rear axle", rearAfter, input.RearRatingKilograms);
        Limit("gross", "Vehicle", frontAfter + rearAfter, input.GrossRatingKilograms);
        if (frontAfter < 0.2 * (frontAfter + rearAfter))
            findings.Add(new Finding("front-axle-light", Severity.Warn, "front", "Front axle", $"Only {text.Percent(100 * frontAfter!.Value / (frontAfter.Value + rearAfter!.Value))} of the mass is on the front axle.", "Move mass forward; steering and braking suffer.", Unsourced.CommonPractice)); // compared above
        return new AxleLoadsResult
        {
            AddedKilograms = added,
            FrontChangeKilograms = front,
            RearChangeKilograms = rear,
            LeftChangeKilograms = input.TrackMeters is { } track ? added / 2 + input.Masses.Sum(mass => mass.Kilograms * mass.LeftMeters) / track : null,
            FrontKilograms = frontAfter,
            RearKilograms = rearAfter,
            CenterBeforeMeters = Center(input.FrontKilograms, input.RearKilograms, input.WheelbaseMeters),
            CenterAfterMeters = Center(frontAfter, rearAfter, input.WheelbaseMeters),
            Findings = [.. findings.OrderByDescending(finding => finding.Severity)],
            Explanation = new Explanation(
                "How do the axle loads change?",
                $"front {text.Kilograms(front)}, rear {text.Kilograms(rear)}",
                [new ExplainedInput("Wheelbase", input.WheelbaseMeters, "m", "entered"), .. input.Masses.Select(mass => new ExplainedInput($"{mass.Name}, {text.Meters(mass.RearwardMeters)} behind the front axle", mass.Kilograms, "kg", "parts list"))],
                [
                    new ExplainedStep("Rear axle", "ΔR = Σ m·x / wheelbase", $"{text.Number(rear * input.WheelbaseMeters)} kg·m / {text.Number(input.WheelbaseMeters)} m", text.Kilograms(rear), Moments),
                    new ExplainedStep("Front axle", "ΔF = Σ m − ΔR", $"{text.Number(added)} − {text.Number(rear)}", text.Kilograms(front), Moments),
                ],
                limits,
                limits.FirstOrDefault(limit => !limit.Passed)?.Name),
        };

        void Limit(string id, string name, double? after, double? rating)
        {
            if (after is not { } load || rating is not { } most)
                return;
            var (code, remedy, label) = id == "gross"
                ? ("vehicle-over-rating", "Take mass out.", "gross vehicle weight rating of the vehicle's label (49 CFR 567)")
                : ("axle-over-rating", "Take mass off this axle, or move it towards the other.", "gross axle weight rating of the vehicle's label (49 CFR 567)");
            limits.Add(new LimitCheck(name, load, most, "kg", load <= most, label));
            if (load > most)
                findings.Add(new Finding(code, Severity.Stop, id, name, $"It carries {text.Kilograms(load)}; its rating is {text.Kilograms(most)}.", remedy, label));
        }
    }

    private static double? Center(double? front, double? rear, double wheelbase) => front + rear > 0 ? rear / (front + rear) * wheelbase : null;
}
