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

    /// <summary>High-pass before the amplifier; null for none.</summary>
    public HighPass? HighPass { get; init; }

    /// <summary>Excursion one way at which the cone strikes or is torn, m (1e-5 to 0.2); null when its maker does not say.</summary>
    public double? MechanicalMeters { get; init; }

    /// <summary>Corner of the pressure zone of the cabin, Hz (10 to 300); null for free air only.</summary>
    public double? CabinCornerHertz { get; init; }

    /// <summary>Frequency below which the rise in the cabin stops, Hz (1 to 100); null for a tight one.</summary>
    public double? CabinLeakHertz { get; init; }

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
        checks.InRange($"{nameof(HighPass)}.{nameof(HighPass.Hertz)}", "High-pass in Hz", HighPass?.Hertz, 1, 1_000);
        checks.InRange($"{nameof(HighPass)}.{nameof(HighPass.Order)}", "Order of the high-pass", HighPass?.Order, 1, 8);
        checks.InRange(nameof(MechanicalMeters), "Mechanical limit of the cone", MechanicalMeters, 1e-5, 0.2, QuantityKind.SmallLength);
        checks.InRange(nameof(CabinCornerHertz), "Corner of the cabin in Hz", CabinCornerHertz, 10, 300);
        checks.InRange(nameof(CabinLeakHertz), "Leak of the cabin in Hz", CabinLeakHertz, 1, 100);
        checks.InRange(nameof(Ports), "Ports", Ports, 1, 8);
        checks.InRange(nameof(JudgedFromHertz), "Limits judged from, in Hz", JudgedFromHertz, 5, 100);
        return checks.Problems;
    }
}
