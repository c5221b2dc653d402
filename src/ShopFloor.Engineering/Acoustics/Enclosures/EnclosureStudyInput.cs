using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>A box at the power it gets, in the car it is for.</summary>
public sealed record EnclosureStudyInput
{
    /// <summary>What findings are about.</summary>
    public required string Id { get; init; }

    /// <summary>Name for texts.</summary>
    public required string Name { get; init; }

    /// <summary>Driver, box, voltage and limits.</summary>
    public required EnclosureInput Simulation { get; init; }

    /// <summary>Filters before the amplifier.</summary>
    public IReadOnlyList<FilterSection> Filters { get; init; } = [];

    /// <summary>Excursion one way at which the cone strikes or is torn, m (1e-5 to 0.2); null when its maker does not say.</summary>
    public double? MechanicalMeters { get; init; }

    /// <summary>The cabin; null for free air only.</summary>
    public CabinLift? Cabin { get; init; }

    /// <summary>Ports alike that share the cross-section, 1 to 8.</summary>
    public int Ports { get; init; } = 1;

    /// <summary>Ends of a port in the open or in a wall.</summary>
    public (PortEnd Outer, PortEnd Inner) Ends { get; init; } = (PortEnd.Flush, PortEnd.Free);

    /// <summary>Lowest frequency at which limits are judged, Hz (5 to 100). Music has little below 20 Hz: common practice, no source.</summary>
    public double JudgedFromHertz { get; init; } = 20;

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.AddRange(Simulation.Validate(text).Select(problem => problem with { Field = $"{nameof(Simulation)}.{problem.Field}" }));
        for (var n = 0; n < Filters.Count; n++)
            Filters[n].Check(checks, $"{nameof(Filters)}[{n}]");
        checks.InRange(nameof(MechanicalMeters), "Mechanical limit of the cone", MechanicalMeters, 1e-5, 0.2, QuantityKind.SmallLength);
        if (Cabin?.Measured is { } measured)
            checks.AddRange(measured.Validate(text).Select(problem => problem with { Field = $"{nameof(Cabin)}.{nameof(CabinLift.Measured)}.{problem.Field}" }));
        checks.InRange($"{nameof(Cabin)}.{nameof(CabinLift.CornerHertz)}", "Corner of the cabin in Hz", Cabin?.CornerHertz, 10, 300);
        checks.InRange($"{nameof(Cabin)}.{nameof(CabinLift.LeakHertz)}", "Leak of the cabin in Hz", Cabin?.LeakHertz, 1, 100);
        checks.InRange(nameof(Ports), "Ports", Ports, 1, 8);
        checks.InRange(nameof(JudgedFromHertz), "Limits judged from, in Hz", JudgedFromHertz, 5, 100);
        return checks.Problems;
    }
}
