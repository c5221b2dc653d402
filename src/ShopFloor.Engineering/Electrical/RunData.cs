using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>A conductor's way through the vehicle.</summary>
public sealed record RunData
{
    /// <summary>Length one way along the route, m (0.05 to 30); null when not yet known.</summary>
    public double? LengthMeters { get; init; }

    /// <summary>How the current gets back.</summary>
    public ReturnPath ReturnPath { get; init; } = ReturnPath.DedicatedConductor;

    /// <summary>Measured resistance of the body with its joints, Ω (0 to 0.1); null takes the default. Only for a body return.</summary>
    public double? BodyReturnOhms { get; init; }

    /// <summary>Resistance of the run's lugs, joints and holders together, Ω (0 to 0.05); 0 leaves them out.</summary>
    public double TerminationOhms { get; init; }

    /// <summary>Temperature class printed on the cable, °C.</summary>
    public double InsulationCelsius { get; init; } = ElectricalDefaults.InsulationCelsius;

    /// <summary>Warmest surroundings along the route, °C (−40 to 150).</summary>
    public double AmbientCelsius { get; init; } = ElectricalDefaults.AmbientCelsius;

    /// <summary>Whether any part of the route is in the engine space.</summary>
    public bool EngineSpace { get; init; }

    /// <summary>Current-carrying conductors bundled together, this one and any return conductor included (1 to 200).</summary>
    public int BundledConductors { get; init; } = 1;

    /// <summary>Whether the conductor is copper-clad aluminium; it is then chosen from <see cref="SizingRules.CopperClad"/>.</summary>
    public bool CopperClad { get; init; }

    /// <summary>Whether the conductor is in a sheath, conduit or enclosure the whole way from the source to the fuse.</summary>
    public bool SheathedWholeWay { get; init; }

    /// <summary>Distance from the source to the fuse along the conductor, m; null when not yet measured.</summary>
    public double? SourceToFuseMeters { get; init; }

    /// <summary>Label of a size someone chose, or null to have it chosen.</summary>
    public string? ForcedSize { get; init; }

    /// <summary>Fuse rating someone chose, A, or null to have it chosen.</summary>
    public double? ForcedFuseAmperes { get; init; }

    /// <summary>The fuse at hand for the run whose maker states what it interrupts; null takes the figures of the forms.</summary>
    public FittedFuse? Fitted { get; init; }

    internal IReadOnlyList<InputProblem> Validate(string name, AmpacityTable table, UnitText text)
    {
        var checks = new InputChecks(text);
        checks.InRange(nameof(LengthMeters), $"{name}, length one way", LengthMeters, 0.05, 30, QuantityKind.Length);
        checks.Known(nameof(ReturnPath), $"{name}, return path", ReturnPath);
        checks.InRange(nameof(BodyReturnOhms), $"{name}, resistance of the body return in ohms", BodyReturnOhms, 0, 0.1);
        checks.InRange(nameof(TerminationOhms), $"{name}, resistance of the terminations in ohms", TerminationOhms, 0, 0.05);
        var coolest = table.InsulationCelsius.Count > 0 ? table.InsulationCelsius[0] : 0;
        checks.InRange(nameof(InsulationCelsius), $"{name}, insulation class", InsulationCelsius, coolest, 300, QuantityKind.Temperature);
        checks.InRange(nameof(AmbientCelsius), $"{name}, ambient", AmbientCelsius, -40, 150, QuantityKind.Temperature);
        checks.InRange(nameof(BundledConductors), $"{name}, bundled conductors", BundledConductors, 1, 200);
        checks.InRange(
            nameof(SourceToFuseMeters), $"{name}, distance from the source to the fuse", SourceToFuseMeters, 0, LengthMeters is { } l && l is > 0 and <= 30 ? l : 30, QuantityKind.Length);
        checks.InRange(nameof(ForcedFuseAmperes), $"{name}, chosen fuse", ForcedFuseAmperes, 0.5, 1000, QuantityKind.Current);
        checks.InRange($"{nameof(Fitted)}.{nameof(FittedFuse.InterruptAmperes)}", $"{name}, short-circuit current its fuse interrupts", Fitted?.InterruptAmperes, 10, 1_000_000, QuantityKind.Current);
        if (ForcedSize is not null && table.Row(ForcedSize) is null)
        {
            var known = string.Join(", ", table.Rows.Select(r => r.Conductor.Label));
            checks.Add(nameof(ForcedSize), $"{name}, chosen size: \u201c{ForcedSize}\u201d is not in {table.Name}; use one of {known}.");
        }

        return checks.Problems;
    }
}
