using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>What the factory amplifier does to the music is measured</summary>
public sealed class FactoryNotMeasured : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "factory-not-measured";

    /// <inheritdoc/>
    public override string Title => "What the factory amplifier does to the music is measured";

    /// <inheritdoc/>
    public override string Why => "A factory amplifier divides, delays and equalises for its own loudspeakers. Outputs added up as they come may cancel, and the new system is tuned on top of that.";

    /// <inheritdoc/>
    public override string Remedy => "Measure its outputs at the wires, each with a sweep and a reference or as a table with phase, and look at them under Tuning, Factory signal.";

    /// <inheritdoc/>
    public override string Example => "Woofer and tweeter outputs 1.25 ms apart, half a period of 400 Hz, cancel at their crossover when they are added up.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        var passed = state.Routes.SelectMany(way => way.Route.DeviceIds).ToHashSet();
        foreach (var device in state.Input.Devices.OfType<ProcessingDevice>().Where(device => device.OutputsMeasured == false && passed.Contains(device.Id)))
            yield return Note(device.Id, device.Name, "It feeds the new system, and its outputs were never measured: which band each holds and what was done to it is not known.", Remedy);
    }
}
