using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>Small drivers are kept from low notes</summary>
public sealed class HighPassMissing : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "high-pass-missing";

    /// <inheritdoc/>
    public override string Title => "Small drivers are kept from low notes";

    /// <inheritdoc/>
    public override string Why => "Below its band a small driver moves too far and breaks within seconds at full power.";

    /// <inheritdoc/>
    public override string Remedy => "Set a high-pass in the processor before the first note.";

    /// <inheritdoc/>
    public override string Example => "A tweeter that may be driven from 2 kHz up, on a channel without a filter.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var levels in state.Channels)
        {
            foreach (var driver in levels.Channel.Drivers.Select(share => share.Driver).Where(driver => driver.LowestHertz > 40))
            {
                var lowest = levels.Routes.Select(way => HighPass(way.Route)).DefaultIfEmpty(double.PositiveInfinity).Min();
                if (lowest <= 0)
                    yield return Stop(driver.Id, driver.Name, $"Nothing keeps low notes away; it may be driven from {state.Text.Number(driver.LowestHertz!.Value)} Hz up.", Remedy); // the filter above
                else if (lowest < driver.LowestHertz * 0.99)
                    yield return Warn(driver.Id, driver.Name, $"The high-pass is at {state.Text.Number(lowest)} Hz; it may be driven from {state.Text.Number(driver.LowestHertz!.Value)} Hz up.", "Raise the corner, or make it steeper and lower the level."); // the filter above
            }
        }

        static double HighPass(SignalRoute route) => route.Hops
            .Select(hop => hop is { Device: ProcessingDevice device, Output: { } output } ? device.Bands.FirstOrDefault(band => band.Output == output.Id)?.HighPassHertz ?? 0 : 0)
            .Max();
    }
}
