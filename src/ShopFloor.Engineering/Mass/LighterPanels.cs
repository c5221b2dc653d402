using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Mass;

/// <summary>A thickness a material is sold in.</summary>
/// <param name="ThicknessMeters">Thickness, m (0.0002 to 0.1).</param>
/// <param name="PricePerSquareMeter">Price of a square metre in the shop's currency (0 to 100,000); null when not known.</param>
public sealed record SheetChoice(double ThicknessMeters, decimal? PricePerSquareMeter = null);

/// <summary>A material a panel may be made of.</summary>
/// <param name="Id">Identifier, unique in the input.</param>
/// <param name="Name">Name for texts.</param>
/// <param name="KilogramsPerCubicMeter">Density, kg/m³ (20 to 9,000).</param>
/// <param name="Pascals">Modulus in bending, Pa (1e6 to 3e11).</param>
/// <param name="Sheets">Thicknesses, 1 to 40.</param>
public sealed record PanelMaterial(string Id, string Name, double KilogramsPerCubicMeter, double Pascals, IReadOnlyList<SheetChoice> Sheets);

/// <summary>A panel and what else it may be made of.</summary>
public sealed record LighterPanelsInput
{
    /// <summary>Area, m² (0.001 to 100).</summary>
    public required double SquareMeters { get; init; }

    /// <summary>The panel as planned: its material with the one thickness.</summary>
    public required PanelMaterial Planned { get; init; }

    /// <summary>Bending stiffness of one metre of width it needs, N·m (0.001 to 1e7); null for that of the panel as planned.</summary>
    public double? NeededNewtonMeters { get; init; }

    /// <summary>Thickest there is room for, m (0.0005 to 0.2); null for any.</summary>
    public double? MostMeters { get; init; }

    /// <summary>Other materials, 1 to 200.</summary>
    public required IReadOnlyList<PanelMaterial> Candidates { get; init; }

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(SquareMeters), "Area in m²", SquareMeters, 0.001, 100);
        checks.InRange(nameof(NeededNewtonMeters), "Bending stiffness in N·m", NeededNewtonMeters, 0.001, 1e7);
        checks.InRange(nameof(MostMeters), "Thickest", MostMeters, 0.0005, 0.2, QuantityKind.SmallLength);
        if (Candidates.Count is 0 or > 200)
            checks.Add(nameof(Candidates), $"Materials: {Candidates.Count} are not accepted; enter 1 to 200.");
        checks.Distinct(nameof(Candidates), "Materials", Candidates.Select(material => material.Id));
        Check(checks, nameof(Planned), Planned);
        if (Planned.Sheets.Count != 1)
            checks.Add($"{nameof(Planned)}.Sheets", $"{Planned.Name}: {Planned.Sheets.Count} thicknesses are not accepted; enter the one that is planned.");
        for (var n = 0; n < Candidates.Count; n++)
            Check(checks, $"{nameof(Candidates)}[{n}]", Candidates[n]);
        return checks.Problems;
    }

    private static void Check(InputChecks checks, string path, PanelMaterial material)
    {
        checks.Named($"{path}.Name", "Name of the material", material.Name);
        checks.InRange($"{path}.KilogramsPerCubicMeter", $"{material.Name}, density in kg/m³", material.KilogramsPerCubicMeter, 20, 9_000);
        checks.InRange($"{path}.Pascals", $"{material.Name}, modulus in Pa", material.Pascals, 1e6, 3e11);
        if (material.Sheets.Count is 0 or > 40)
            checks.Add($"{path}.Sheets", $"{material.Name}: {material.Sheets.Count} thicknesses are not accepted; enter 1 to 40.");
        for (var n = 0; n < material.Sheets.Count; n++)
        {
            checks.InRange($"{path}.Sheets[{n}].ThicknessMeters", $"{material.Name}, thickness", material.Sheets[n].ThicknessMeters, 0.0002, 0.1, QuantityKind.SmallLength);
            checks.InRange($"{path}.Sheets[{n}].PricePerSquareMeter", $"{material.Name}, price", (double?)material.Sheets[n].PricePerSquareMeter, 0, 100_000);
        }
    }
}

/// <summary>One way to make the panel.</summary>
/// <param name="MaterialId">Material.</param>
/// <param name="Name">Its name.</param>
/// <param name="ThicknessMeters">Thickness, m.</param>
/// <param name="Kilograms">Mass of the panel, kg.</param>
/// <param name="SavedKilograms">Mass less than planned, kg; negative when it is heavier.</param>
/// <param name="BendingNewtonMeters">Bending stiffness of one metre of width, N·m.</param>
/// <param name="AddedPrice">Price more than planned, in the shop's currency, not rounded; null when a price is not known.</param>
public sealed record PanelOption(string MaterialId, string Name, double ThicknessMeters, double Kilograms, double SavedKilograms, double BendingNewtonMeters, decimal? AddedPrice);

/// <summary>Ways to make a panel lighter.</summary>
/// <param name="NeededNewtonMeters">Bending stiffness each keeps, N·m.</param>
/// <param name="PlannedKilograms">Mass as planned, kg.</param>
/// <param name="Options">The lightest thickness of each material that keeps it, lightest first.</param>
/// <param name="TooSoftMaterialIds">Materials without a thickness that keeps it in the room there is.</param>
public sealed record LighterPanelsResult(double NeededNewtonMeters, double PlannedKilograms, IReadOnlyList<PanelOption> Options, IReadOnlyList<string> TooSoftMaterialIds);

/// <summary>Lighter materials for a panel of the same stiffness: D = E·t³/12 for one metre of width (beam theory; Poisson's ratio left out).</summary>
public static class LighterPanels
{
    /// <summary>Bending stiffness of one metre of width, N·m: E·t³/12.</summary>
    /// <param name="pascals">Modulus, Pa.</param>
    /// <param name="thicknessMeters">Thickness, m.</param>
    public static double BendingNewtonMeters(double pascals, double thicknessMeters) => pascals * thicknessMeters * thicknessMeters * thicknessMeters / 12;

    /// <summary>Lists the ways.</summary>
    /// <param name="input">Panel and materials.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="LighterPanelsInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static LighterPanelsResult Compute(LighterPanelsInput input)
    {
        ArgumentNullException.ThrowIfNull(input);
        InputChecks.ThrowIfAny(input.Validate());
        var planned = input.Planned.Sheets[0];
        var mass = input.SquareMeters * planned.ThicknessMeters * input.Planned.KilogramsPerCubicMeter;
        var needed = input.NeededNewtonMeters ?? BendingNewtonMeters(input.Planned.Pascals, planned.ThicknessMeters);
        var (options, soft) = (new List<PanelOption>(), new List<string>());
        foreach (var material in input.Candidates)
        {
            var fitting = material.Sheets
                .Where(sheet => sheet.ThicknessMeters <= (input.MostMeters ?? double.MaxValue) && BendingNewtonMeters(material.Pascals, sheet.ThicknessMeters) >= needed * (1 - 1e-9))
                .MinBy(sheet => sheet.ThicknessMeters);
            if (fitting is null)
            {
                soft.Add(material.Id);
                continue;
            }

            var kilograms = input.SquareMeters * fitting.ThicknessMeters * material.KilogramsPerCubicMeter;
            options.Add(new PanelOption(material.Id, material.Name, fitting.ThicknessMeters, kilograms, mass - kilograms, BendingNewtonMeters(material.Pascals, fitting.ThicknessMeters),
                (decimal)input.SquareMeters * (fitting.PricePerSquareMeter - planned.PricePerSquareMeter)));
        }

        return new LighterPanelsResult(needed, mass, [.. options.OrderBy(option => option.Kilograms).ThenBy(option => option.AddedPrice ?? decimal.MaxValue).ThenBy(option => option.Name, StringComparer.Ordinal)], soft);
    }
}
