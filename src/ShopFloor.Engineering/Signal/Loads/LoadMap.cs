using System.Text.Json.Serialization;
using ShopFloor.Engineering.Signal.Chain;

namespace ShopFloor.Engineering.Signal.Loads;

/// <summary>A channel or bridged pair with its load worked out.</summary>
public sealed record LoadedChannel
{
    /// <summary>What was entered.</summary>
    public required ChannelLoad Load { get; init; }

    /// <summary>The amplifier.</summary>
    [JsonIgnore]
    public AmplifierDevice Amplifier { get; init; } = default!; // the map sets it; "required" would ask readers of JSON for it

    /// <summary>Name for texts: amplifier and outputs.</summary>
    public required string Name { get; init; }

    /// <summary>Nominal impedance of the coils, Ω.</summary>
    public required double NominalOhms { get; init; }

    /// <summary>Lowest impedance over the band, Ω.</summary>
    public required double MinimumOhms { get; init; }

    /// <summary>Nominal load each channel sees, Ω: half of it when bridged.</summary>
    public required double OhmsPerChannel { get; init; }

    /// <summary>Lowest load the amplifier is rated for in this mode, Ω; null when it may not be bridged.</summary>
    public required double? LowestRatedOhms { get; init; }

    /// <summary>Power the amplifier has for the load, W; null when it is not rated for it.</summary>
    public required double? AvailableWatts { get; init; }

    /// <summary>Power at which the first driver is at what it bears, W; null when no driver says.</summary>
    public required double? DriverLimitWatts { get; init; }

    /// <summary>Power the gain is set for, W: the least of wanted, available and borne; null when none is known.</summary>
    public required double? TargetWatts { get; init; }

    /// <summary>Voltage at the amplifier for that power, V rms.</summary>
    public required double? TargetVolts { get; init; }

    /// <summary>Each driver with its share of the power, 0 to 1.</summary>
    public required IReadOnlyList<DriverShare> Drivers { get; init; }

    /// <summary>Whether two channels drive it together.</summary>
    public bool IsBridged => Load.Outputs.Count == 2;

    /// <summary>How far the amplifier's power exceeds what the drivers bear, dB; below 0 when it falls short.</summary>
    public double? HeadroomDecibels => AvailableWatts / DriverLimitWatts is { } ratio ? 10 * Math.Log10(ratio) : null;
}

/// <summary>A driver on a channel.</summary>
/// <param name="Driver">The driver.</param>
/// <param name="Share">Its share of the power, 0 to 1.</param>
/// <param name="Coils">Numbers of its coils on this channel.</param>
/// <param name="Inverted">Whether its coils are changed over; null when they disagree with each other.</param>
public sealed record DriverShare([property: JsonIgnore] DriverDevice Driver, double Share, IReadOnlyList<int> Coils, bool? Inverted)
{
    /// <summary>Identifier of the driver.</summary>
    public string DriverId => Driver.Id;
}

/// <summary>Works loads out.</summary>
public static class LoadMap
{
    /// <summary>Every load of the path.</summary>
    /// <param name="input">A path without problems.</param>
    public static IReadOnlyList<LoadedChannel> Of(SignalPathInput input)
    {
        ArgumentNullException.ThrowIfNull(input);
        var devices = input.Devices.ToDictionary(device => device.Id);
        return [.. input.Loads.Select(load => Of(load, devices))];
    }

    private static LoadedChannel Of(ChannelLoad load, Dictionary<string, SignalDevice> devices)
    {
        var amplifier = (AmplifierDevice)devices[load.AmplifierId]; // checked
        DriverDevice DriverOf(Coil coil) => (DriverDevice)devices[coil.DriverId]; // checked
        double Nominal(Coil coil) => DriverOf(coil).CoilOhms;
        double Lowest(Coil coil) => DriverOf(coil) is { CoilMinimumOhms: { } known } ? known : DriverOf(coil).CoilOhms * SignalDefaults.LowestImpedanceShare;

        var nominal = load.Wiring.Ohms(Nominal);
        var bridged = load.Outputs.Count == 2;
        var points = bridged ? amplifier.BridgedPowers : amplifier.RatedPowers;
        var atTerminals = nominal + load.CableOhms;
        // Of the power at the terminals the cable keeps its share.
        var available = AvailablePower.Watts(points, atTerminals) * nominal / atTerminals;
        var drivers = load.Wiring.Shares(Nominal)
            .GroupBy(pair => pair.Coil.DriverId)
            .Select(group => new DriverShare(
                DriverOf(group.First().Coil),
                group.Sum(pair => pair.Share),
                [.. group.Select(pair => pair.Coil.Number).Order()],
                group.Select(pair => pair.Coil.Inverted).Distinct().Count() == 1 ? group.First().Coil.Inverted : null))
            .ToList();
        var borne = drivers.Where(driver => driver.Driver.RatedWatts is not null && driver.Share > 0)
            .Select(driver => driver.Driver.RatedWatts * driver.Coils.Count / driver.Driver.Coils / driver.Share).Min();
        var target = new[] { load.WantedWatts, available, borne }.Where(watts => watts is not null).Min();
        return new LoadedChannel
        {
            Load = load,
            Amplifier = amplifier,
            Name = $"{amplifier.Name}, {string.Join(" + ", load.Outputs.Select(id => amplifier.Outputs.First(port => port.Id == id).Name))}",
            NominalOhms = nominal,
            MinimumOhms = load.Wiring.Ohms(Lowest),
            OhmsPerChannel = bridged ? nominal / 2 : nominal,
            LowestRatedOhms = points.Count == 0 ? null : points.Min(point => point.Ohms),
            AvailableWatts = available,
            DriverLimitWatts = borne,
            TargetWatts = target,
            TargetVolts = target is { } watts ? Math.Sqrt(watts / nominal) * atTerminals : null,
            Drivers = drivers,
        };
    }
}
