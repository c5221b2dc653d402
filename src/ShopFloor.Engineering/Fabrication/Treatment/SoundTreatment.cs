using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Treatment;

/// <summary>What a treatment does.</summary>
public enum TreatmentKind
{
    /// <summary>Damping of a panel that rings, glued on the metal.</summary>
    Damping,

    /// <summary>Heavy barrier against sound passing through.</summary>
    Barrier,

    /// <summary>Foam or felt that takes up sound.</summary>
    Absorber,
}

/// <summary>A material as it is sold.</summary>
/// <param name="Id">Identifier, unique in the input.</param>
/// <param name="Name">Name for lists.</param>
/// <param name="Kind">What it does.</param>
/// <param name="KilogramsPerSquareMeter">Mass, kg/m² (0.02 to 20).</param>
/// <param name="SheetLengthMeters">Length of a sheet, m (0.05 to 20).</param>
/// <param name="SheetWidthMeters">Width of a sheet, m (0.05 to 3).</param>
/// <param name="OffcutShare">Share lost by cutting (0 to 0.5). 0.1 is common practice, no source.</param>
public sealed record TreatmentMaterial(string Id, string Name, TreatmentKind Kind, double KilogramsPerSquareMeter, double SheetLengthMeters, double SheetWidthMeters, double OffcutShare = 0.1);

/// <summary>A panel of the vehicle and what it gets.</summary>
/// <param name="Id">Identifier, unique in the input.</param>
/// <param name="Name">Name, such as "left door, outer skin".</param>
/// <param name="SquareMeters">Area, m² (0.01 to 20).</param>
/// <param name="Layers">What it gets, 1 to 10.</param>
public sealed record TreatedPanel(string Id, string Name, double SquareMeters, IReadOnlyList<TreatmentLayer> Layers);

/// <summary>A material on a share of a panel.</summary>
/// <param name="MaterialId">Material.</param>
/// <param name="CoverageShare">Share of the panel covered (0.05 to 1). For damping a quarter to a half in the middle of the panel does most: common practice, no source.</param>
public sealed record TreatmentLayer(string MaterialId, double CoverageShare);

/// <summary>Panels to treat.</summary>
/// <param name="Materials">Materials, 1 to 50.</param>
/// <param name="Panels">Panels, 1 to 200.</param>
public sealed record SoundTreatmentInput(IReadOnlyList<TreatmentMaterial> Materials, IReadOnlyList<TreatedPanel> Panels)
{
    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        if (Materials.Count is 0 or > 50)
            checks.Add(nameof(Materials), $"Materials: {Materials.Count} are not accepted; enter 1 to 50.");
        if (Panels.Count is 0 or > 200)
            checks.Add(nameof(Panels), $"Panels: {Panels.Count} are not accepted; enter 1 to 200.");
        checks.Distinct(nameof(Materials), "Materials", Materials.Select(material => material.Id));
        checks.Distinct(nameof(Panels), "Panels", Panels.Select(panel => panel.Id));
        for (var n = 0; n < Materials.Count; n++)
        {
            var (path, material) = ($"{nameof(Materials)}[{n}]", Materials[n]);
            checks.Known($"{path}.Kind", $"{material.Name}, kind", material.Kind);
            checks.InRange($"{path}.KilogramsPerSquareMeter", $"{material.Name}, mass in kg/m²", material.KilogramsPerSquareMeter, 0.02, 20);
            checks.InRange($"{path}.SheetLengthMeters", $"{material.Name}, length of a sheet", material.SheetLengthMeters, 0.05, 20, QuantityKind.Length);
            checks.InRange($"{path}.SheetWidthMeters", $"{material.Name}, width of a sheet", material.SheetWidthMeters, 0.05, 3, QuantityKind.Length);
            checks.InRange($"{path}.OffcutShare", $"{material.Name}, share lost", material.OffcutShare, 0, 0.5);
        }

        for (var n = 0; n < Panels.Count; n++)
        {
            var (path, panel) = ($"{nameof(Panels)}[{n}]", Panels[n]);
            checks.InRange($"{path}.SquareMeters", $"{panel.Name}, area in m²", panel.SquareMeters, 0.01, 20);
            if (panel.Layers.Count is 0 or > 10)
                checks.Add($"{path}.Layers", $"{panel.Name}: {panel.Layers.Count} layers are not accepted; enter 1 to 10.");
            for (var l = 0; l < panel.Layers.Count; l++)
            {
                checks.InRange($"{path}.Layers[{l}].CoverageShare", $"{panel.Name}, share covered", panel.Layers[l].CoverageShare, 0.05, 1);
                if (Materials.All(material => material.Id != panel.Layers[l].MaterialId))
                    checks.Add($"{path}.Layers[{l}].MaterialId", $"{panel.Name}: “{panel.Layers[l].MaterialId}” is none of the materials.");
            }
        }

        return checks.Problems;
    }
}

/// <summary>What a material comes to.</summary>
/// <param name="MaterialId">Material.</param>
/// <param name="Name">Its name.</param>
/// <param name="SquareMeters">Area on the panels, m².</param>
/// <param name="Sheets">Sheets to get.</param>
/// <param name="Kilograms">Mass on the vehicle, kg.</param>
public sealed record TreatmentTotal(string MaterialId, string Name, double SquareMeters, int Sheets, double Kilograms);

/// <summary>A treatment worked out.</summary>
/// <param name="Panels">Mass put on each panel, kg, in the order given.</param>
/// <param name="Materials">Each material that is used.</param>
/// <param name="Kilograms">Mass on the vehicle, kg.</param>
/// <param name="Findings">What was found, gravest first.</param>
public sealed record SoundTreatmentResult(IReadOnlyList<PanelMass> Panels, IReadOnlyList<TreatmentTotal> Materials, double Kilograms, IReadOnlyList<Finding> Findings);

/// <summary>Mass put on a panel.</summary>
/// <param name="PanelId">Panel.</param>
/// <param name="Name">Its name.</param>
/// <param name="Kilograms">Mass, kg.</param>
public sealed record PanelMass(string PanelId, string Name, double Kilograms);

/// <summary>Mass and sheets of a sound treatment by panel area and coverage.</summary>
public static class SoundTreatment
{
    /// <summary>Computes mass and sheets.</summary>
    /// <param name="input">Materials and panels.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="SoundTreatmentInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static SoundTreatmentResult Compute(SoundTreatmentInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        var materials = input.Materials.ToDictionary(material => material.Id);
        PanelMass[] panels = [.. input.Panels.Select(panel => new PanelMass(panel.Id, panel.Name, panel.Layers.Sum(layer => panel.SquareMeters * layer.CoverageShare * materials[layer.MaterialId].KilogramsPerSquareMeter)))];
        var totals = new List<TreatmentTotal>();
        foreach (var material in input.Materials)
        {
            var area = input.Panels.Sum(panel => panel.Layers.Where(layer => layer.MaterialId == material.Id).Sum(layer => panel.SquareMeters * layer.CoverageShare));
            if (area > 0)
            {
                var sheets = (int)Math.Ceiling(area / (1 - material.OffcutShare) / (material.SheetLengthMeters * material.SheetWidthMeters) - 1e-9);
                totals.Add(new TreatmentTotal(material.Id, material.Name, area, sheets, area * material.KilogramsPerSquareMeter));
            }
        }

        var findings = input.Panels
            .Select(panel => (panel, Damped: panel.Layers.Where(layer => materials[layer.MaterialId].Kind == TreatmentKind.Damping).Sum(layer => layer.CoverageShare)))
            .Where(pair => pair.Damped > 0.6)
            .Select(pair => new Finding("damping-much", Severity.Note, pair.panel.Id, pair.panel.Name, $"{text.Percent(100 * pair.Damped)} of it are damped; more than half adds mass and little else.",
                "Damp the middle of the panel and tap it; add only where it still rings.", Unsourced.CommonPractice));
        return new SoundTreatmentResult(panels, totals, panels.Sum(panel => panel.Kilograms), [.. findings]);
    }
}
