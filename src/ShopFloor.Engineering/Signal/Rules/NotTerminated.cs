using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>Factory devices get the load they wait for</summary>
public sealed class NotTerminated : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "not-terminated";

    /// <inheritdoc/>
    public override string Title => "Factory devices get the load they wait for";

    /// <inheritdoc/>
    public override string Why => "A factory amplifier or radio without its load or wake signal may stay silent or store a fault.";

    /// <inheritdoc/>
    public override string Remedy => "Fit the load its maker or the interface's maker names, and read the fault memory afterwards.";

    /// <inheritdoc/>
    public override string Example => "A factory radio whose loudspeakers were disconnected measures no load and switches its output off.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var device in state.Input.Devices.Where(device => device is ProcessingDevice { IsTerminated: false } or SourceDevice { IsTerminated: false }))
            yield return Stop(device.Id, device.Name, "It needs a load or a wake signal and has none.", Remedy);
    }
}
