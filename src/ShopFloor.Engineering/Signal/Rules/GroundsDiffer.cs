using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>Devices on one unbalanced line share a ground point</summary>
public sealed class GroundsDiffer : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "grounds-differ";

    /// <inheritdoc/>
    public override string Title => "Devices on one unbalanced line share a ground point";

    /// <inheritdoc/>
    public override string Why => "Between two ground points flows the current of the vehicle; over an unbalanced screen it is heard.";

    /// <inheritdoc/>
    public override string Remedy => "Bring both returns to one point, or use balanced ends or an isolator.";

    /// <inheritdoc/>
    public override string Example => "The processor is grounded at the boot floor and the radio at the dash: a whine that follows the engine.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var link in state.Input.Links)
        {
            var (from, to, name) = state.Ends(link);
            var (a, b) = (state.Device(link.FromDevice).GroundPoint, state.Device(link.ToDevice).GroundPoint);
            if (from.Kind == PortKind.UnbalancedLine && to.Kind == PortKind.UnbalancedLine && a is not null && b is not null && a != b)
                yield return Warn(link.Id, name, $"The ends are grounded at two points: {a} and {b}.", Remedy);
        }
    }
}
