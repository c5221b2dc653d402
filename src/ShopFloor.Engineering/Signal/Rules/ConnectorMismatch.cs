using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>Connectors that belong together</summary>
public sealed class ConnectorMismatch : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "connector-mismatch";

    /// <inheritdoc/>
    public override string Title => "Connectors that belong together";

    /// <inheritdoc/>
    public override string Why => "A speaker-level signal destroys a line input; a digital signal in an analogue input is loud noise.";

    /// <inheritdoc/>
    public override string Remedy => "Use connectors of one kind, or put an interface made for both between them.";

    /// <inheritdoc/>
    public override string Example => "A speaker-level output of the factory radio on the line input of an amplifier.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var link in state.Input.Links)
        {
            var (from, to, name) = state.Ends(link);
            if (!PortKinds.Fits(from.Kind, to.Kind))
                yield return Stop(link.Id, name, $"The output is {from.Kind.Words()}, the input {to.Kind.Words()}.", Remedy);
        }
    }
}
