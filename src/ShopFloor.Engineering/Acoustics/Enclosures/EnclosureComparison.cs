using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>One of several boxes to choose from.</summary>
/// <param name="Name">Name, unique in the input.</param>
/// <param name="Input">Driver, box, voltage; its band is the one looked at.</param>
/// <param name="Filters">Filters before the amplifier; null for none.</param>
public sealed record EnclosureAlternative(string Name, EnclosureInput Input, IReadOnlyList<FilterSection>? Filters = null);

/// <summary>Boxes to compare.</summary>
public sealed record EnclosureComparisonInput
{
    /// <summary>The boxes, 1 to 12.</summary>
    public required IReadOnlyList<EnclosureAlternative> Alternatives { get; init; }

    /// <summary>The cabin; null for none.</summary>
    public CabinLift? Cabin { get; init; }

    /// <summary>Where the largest level is told, Hz, 1 to 30 frequencies.</summary>
    public IReadOnlyList<double> LevelsAtHertz { get; init; } = [25, 31.5, 40, 50, 63, 80];

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        if (Alternatives.Count is 0 or > 12)
            checks.Add(nameof(Alternatives), $"Boxes: {Alternatives.Count} are not accepted; enter 1 to 12.");
        checks.Distinct(nameof(Alternatives), "Boxes", Alternatives.Select(alternative => alternative.Name));
        for (var n = 0; n < Alternatives.Count; n++)
        {
            var path = $"{nameof(Alternatives)}[{n}]";
            checks.Named($"{path}.Name", "Name of the box", Alternatives[n].Name);
            checks.AddRange(Alternatives[n].Input.Validate(text).Select(problem => problem with { Field = $"{path}.Input.{problem.Field}" }));
            for (var f = 0; f < (Alternatives[n].Filters?.Count ?? 0); f++)
                Alternatives[n].Filters![f].Check(checks, $"{path}.Filters[{f}]"); // counted
        }

        checks.InRange($"{nameof(Cabin)}.CornerHertz", "Corner of the cabin in Hz", Cabin?.CornerHertz, 20, 200);
        checks.InRange($"{nameof(Cabin)}.LeakHertz", "Frequency the cabin leaks below in Hz", Cabin?.LeakHertz, 1, 100);
        if (LevelsAtHertz.Count is 0 or > 30)
            checks.Add(nameof(LevelsAtHertz), $"Frequencies: {LevelsAtHertz.Count} are not accepted; enter 1 to 30.");
        for (var n = 0; n < LevelsAtHertz.Count; n++)
            checks.InRange($"{nameof(LevelsAtHertz)}[{n}]", "Frequency in Hz", LevelsAtHertz[n], 1, 20_000);
        return checks.Problems;
    }
}

/// <summary>One box beside the others.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Summary">Its numbers at its voltage.</param>
/// <param name="Largest">Largest level of one tone with the cabin, dB, at each frequency asked for.</param>
public sealed record ComparedEnclosure(string Name, BoxSummary Summary, IReadOnlyList<LargestLevelPoint> Largest);

/// <summary>Several boxes side by side, in the order given.</summary>
public static class EnclosureComparison
{
    /// <summary>Compares the boxes.</summary>
    /// <param name="input">Boxes, cabin and frequencies.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="EnclosureComparisonInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static IReadOnlyList<ComparedEnclosure> Compute(EnclosureComparisonInput input)
    {
        ArgumentNullException.ThrowIfNull(input);
        InputChecks.ThrowIfAny(input.Validate());
        return [.. input.Alternatives.Select(alternative =>
        {
            var one = alternative.Input;
            var air = Air.At(one.AirCelsius);
            var driver = DriverCompletion.Complete(one.Driver, air).Parameters!.Joined(one.Count, one.InSeries, one.Isobaric); // checked
            // A filter takes from level and limits alike, so the largest level of one tone is that without it.
            var largest = LargestLevel.Of(EnclosureResponse.Over(driver, one.Box, air, one.Volts, input.LevelsAtHertz), one.Volts, driver, new LevelLimits(one.AmplifierVolts));
            return new ComparedEnclosure(
                alternative.Name,
                BoxSummary.Of(driver, one.Box, air, one.Volts, (one.FromHertz, one.ToHertz), input.Cabin, alternative.Filters ?? []),
                input.Cabin is not { } cabin ? largest : [.. largest.Select(point => point with { LevelDecibels = point.LevelDecibels + cabin.Decibels(point.Hertz) })]);
        })];
    }
}
