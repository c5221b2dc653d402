using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Safety;

namespace ShopFloor.Engineering.Fabrication.Laminates;

/// <summary>A material to get, as it becomes a line of a parts list.</summary>
/// <param name="Name">Name.</param>
/// <param name="Quantity">How much, in <paramref name="Unit"/>, with what is lost.</param>
/// <param name="Unit">m², m or kg.</param>
/// <param name="TakenKilograms">Mass to get, kg; null where it does not matter, such as film and tape.</param>
/// <param name="StayingKilograms">Mass that stays in the part, kg; 0 for consumables.</param>
public sealed record MaterialRow(string Name, double Quantity, string Unit, double? TakenKilograms, double StayingKilograms);

/// <summary>A layer worked out.</summary>
/// <param name="Name">Name.</param>
/// <param name="Plies">How many plies; 1 for a core.</param>
/// <param name="PlyMeters">Thickness of one, m.</param>
/// <param name="FibreVolumeShare">Fibre share by volume; 0 for a core.</param>
/// <param name="Pascals">Modulus along the length, Pa.</param>
/// <param name="ResinKilogramsPerSquareMeter">Resin in all its plies, kg/m².</param>
/// <param name="KilogramsPerSquareMeter">Mass with resin in all its plies, kg/m².</param>
public sealed record LayerResult(string Name, int Plies, double PlyMeters, double FibreVolumeShare, double Pascals, double ResinKilogramsPerSquareMeter, double KilogramsPerSquareMeter)
{
    /// <summary>Resin over fibre by mass; 0 for a core.</summary>
    public double ResinOverFibre => FibreVolumeShare > 0 ? ResinKilogramsPerSquareMeter / (KilogramsPerSquareMeter - ResinKilogramsPerSquareMeter) : 0;
}

/// <summary>How the resin is mixed.</summary>
/// <param name="Batches">How many cups.</param>
/// <param name="ResinKilograms">Resin in each, kg.</param>
/// <param name="HardenerKilograms">Hardener in each, kg.</param>
/// <param name="Minutes">Time one takes to wet out, min.</param>
/// <param name="LimitedByPotLife">Whether the pot life decides the size; else the cup.</param>
public sealed record ResinBatches(int Batches, double ResinKilograms, double HardenerKilograms, double Minutes, bool LimitedByPotLife);

/// <summary>A laminate planned.</summary>
public sealed record LaminateResult
{
    /// <summary>Area, m².</summary>
    public required double SquareMeters { get; init; }

    /// <summary>Layers in the order given.</summary>
    public required IReadOnlyList<LayerResult> Layers { get; init; }

    /// <summary>Thickness, m.</summary>
    public required double ThicknessMeters { get; init; }

    /// <summary>Mass of a square metre, kg/m², without what goes on the outside.</summary>
    public required double KilogramsPerSquareMeter { get; init; }

    /// <summary>Mass of the part, kg, with what stays on its outside.</summary>
    public required double Kilograms { get; init; }

    /// <summary>Resin and hardener in the part, kg.</summary>
    public required double ResinKilograms { get; init; }

    /// <summary>Resin and hardener to mix, with what is lost, kg.</summary>
    public required double MixedKilograms { get; init; }

    /// <summary>Modulus in tension along the length over the whole thickness, Pa.</summary>
    public required double TensilePascals { get; init; }

    /// <summary>Bending stiffness of one metre of width, N·m, about the neutral axis.</summary>
    public required double BendingNewtonMeters { get; init; }

    /// <summary>Modulus of a solid plate of the same thickness and bending stiffness, Pa: 12·D/t³.</summary>
    public required double BendingPascals { get; init; }

    /// <summary>Cups; null when not asked for.</summary>
    public required ResinBatches? Batches { get; init; }

    /// <summary>What to get.</summary>
    public required IReadOnlyList<MaterialRow> Materials { get; init; }

    /// <summary>Cautions of the materials and the process.</summary>
    public required IReadOnlyList<SafetyText> Cautions { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
