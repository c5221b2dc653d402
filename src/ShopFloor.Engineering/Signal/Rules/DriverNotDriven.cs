using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>Every voice coil is driven</summary>
public sealed class DriverNotDriven : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "driver-not-driven";

    /// <inheritdoc/>
    public override string Title => "Every voice coil is driven";

    /// <inheritdoc/>
    public override string Why => "A coil left open costs level, and in a driver with two coils it brakes the other one.";

    /// <inheritdoc/>
    public override string Remedy => "Connect every coil to a channel, or take the loudspeaker off the job.";

    /// <inheritdoc/>
    public override string Example => "A woofer with two coils of 4 Ω: coil 1 is on the amplifier, coil 2 hangs free. It plays softer, and the free coil does nothing.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        var driven = state.Input.Loads.SelectMany(load => load.Wiring.Coils).Select(coil => (coil.DriverId, coil.Number)).ToHashSet();
        foreach (var driver in state.Drivers)
        {
            var open = Enumerable.Range(1, driver.Coils).Where(number => !driven.Contains((driver.Id, number))).ToList();
            if (open.Count > 0)
                yield return Stop(driver.Id, driver.Name, open.Count == driver.Coils ? "No amplifier channel drives it." : $"Coil {string.Join(" and ", open)} of {driver.Coils} is driven by no amplifier channel.", "Connect it to a channel, or take it off the job.");
        }
    }
}
