using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>No coil hangs on two channels</summary>
public sealed class CoilDrivenTwice : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "coil-driven-twice";

    /// <inheritdoc/>
    public override string Title => "No coil hangs on two channels";

    /// <inheritdoc/>
    public override string Why => "Two amplifier outputs on one coil drive current into each other and can burn both.";

    /// <inheritdoc/>
    public override string Remedy => "Leave one connection and take the others away.";

    /// <inheritdoc/>
    public override string Example => "A factory amplifier still drives a door loudspeaker whose wires the new amplifier was joined to.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var coil in state.Input.Loads.SelectMany(load => load.Wiring.Coils).GroupBy(coil => (coil.DriverId, coil.Number)).Where(group => group.Count() > 1))
            yield return Stop(coil.Key.DriverId, state.Device(coil.Key.DriverId).Name, $"Coil {coil.Key.Number} is connected {coil.Count()} times.", Remedy);
    }
}
