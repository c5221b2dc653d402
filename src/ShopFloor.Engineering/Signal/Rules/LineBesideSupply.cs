using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>Line cables keep away from supply cables</summary>
public sealed class LineBesideSupply : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "line-beside-supply";

    /// <inheritdoc/>
    public override string Title => "Line cables keep away from supply cables";

    /// <inheritdoc/>
    public override string Why => "Currents of the supply induce noise in unbalanced lines beside them.";

    /// <inheritdoc/>
    public override string Remedy => "Lay it on the other side of the vehicle, cross at right angles, or use balanced ends.";

    /// <inheritdoc/>
    public override string Example => "The line cables to the boot amplifier share the sill with the main supply cable: a whine that follows the engine.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var link in state.Input.Links.Where(link => link.BesideSupplyCable))
        {
            var (from, to, name) = state.Ends(link);
            if (from.Kind == PortKind.UnbalancedLine || to.Kind == PortKind.UnbalancedLine)
                yield return Warn(link.Id, name, "This unbalanced line lies beside a supply cable.", Remedy);
        }
    }
}
