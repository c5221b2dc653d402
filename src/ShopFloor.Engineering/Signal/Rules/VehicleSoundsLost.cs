using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>Chimes, navigation and telephone are heard</summary>
public sealed class VehicleSoundsLost : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "vehicle-sounds-lost";

    /// <inheritdoc/>
    public override string Title => "Chimes, navigation and telephone are heard";

    /// <inheritdoc/>
    public override string Why => "Warnings of the vehicle must be heard as before; a lost one can hurt somebody.";

    /// <inheritdoc/>
    public override string Source => "the vehicle maker's instructions; FMVSS 114 and 208 ask for some warnings, from memory";

    /// <inheritdoc/>
    public override string Remedy => "Connect it, or keep the factory loudspeaker for these sounds, and try every one before delivery.";

    /// <inheritdoc/>
    public override string Example => "The radio's chime output ended in the factory loudspeaker that was taken out.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        var heard = state.Routes.Select(way => way.Route.Source.Id).ToHashSet();
        foreach (var source in state.Input.Devices.OfType<SourceDevice>().Where(source => source.CarriesVehicleSounds && !heard.Contains(source.Id)))
            yield return Stop(source.Id, source.Name, "Its warnings, navigation or telephone reach no loudspeaker.", Remedy);
    }
}
