using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>One output to one input</summary>
public sealed class InputShared : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "input-shared";

    /// <inheritdoc/>
    public override string Title => "One output to one input";

    /// <inheritdoc/>
    public override string Why => "Two outputs on one input work against each other and may be damaged.";

    /// <inheritdoc/>
    public override string Remedy => "Use an input for each, a switch, or a mixing stage.";

    /// <inheritdoc/>
    public override string Example => "A radio and a player joined by a Y-cable on one processor input.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var group in state.Input.Links.GroupBy(link => (link.ToDevice, link.ToPort)).Where(group => group.Count() > 1))
        {
            var device = state.Device(group.Key.ToDevice);
            yield return Stop($"{group.Key.ToDevice}:{group.Key.ToPort}", $"{device.Name}, {device.Inputs.First(port => port.Id == group.Key.ToPort).Name}", $"{group.Count()} outputs are joined on this input.", Remedy);
        }
    }
}
