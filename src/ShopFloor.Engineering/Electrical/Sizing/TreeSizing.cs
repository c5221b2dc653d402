using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>Chooses the conductors of a whole supply tree at once.</summary>
/// <remarks>
/// Of all sets that keep ampacity, fuse, least size and the drop at every load, the one with the least mass or price is taken. Fuses do
/// not depend on the sizes: each is the smallest rating for its load, above several fuses behind it and not below a single one, or the
/// one the maker asks for or
/// someone chose; a conductor must carry the fuse that protects it, its own or the nearest upstream. Drop is taken at the conductor
/// temperature of <see cref="VoltageDrop.ConductorCelsius"/>. Currents are taken at the battery voltage entered.
/// </remarks>
public static class TreeSizing
{
    /// <summary>Chooses the conductors.</summary>
    /// <param name="input">The tree.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// <see cref="TreeSizingInput.Validate"/> finds a problem; the parameter name is the field.
    /// </exception>
    public static TreeSizingResult Size(TreeSizingInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        var model = TreeModel.Make(input);
        var blockers = TreeBlockers.Find(model, text);
        if (blockers.Count > 0)
            return TreeReport.Infeasible(model, blockers, text);
        var tree = model.Limited();
        var runByRun = RunByRun.Choose(tree, [.. model.Nodes.Select(n => n.ConductorMeters)], [.. model.Nodes.Select(n => n.FixedOhms * n.DropAmperes)]);
        var (chosen, aboveLeast) = LeastTree.Choose(tree, runByRun);
        var result = TreeReport.Make(model, chosen, runByRun, text);
        return aboveLeast == 0 ? result : result with
        {
            AboveLeastAtMost = aboveLeast,
            Findings = [.. result.Findings, TreeFindings.NotProvenLeast(model, aboveLeast, text)],
        };
    }
}
