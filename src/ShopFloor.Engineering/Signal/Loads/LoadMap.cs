using System.Text.Json.Serialization;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Units;

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

    /// <summary>How nominal and lowest load were reached, and where each impedance comes from.</summary>
    public required Explanation Explanation { get; init; }

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
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    public static IReadOnlyList<LoadedChannel> Of(SignalPathInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        var devices = input.Devices.ToDictionary(device => device.Id);
        return [.. input.Loads.Select(load => Of(load, devices, text ?? UnitText.Invariant))];
    }

    private static LoadedChannel Of(ChannelLoad load, Dictionary<string, SignalDevice> devices, UnitText text)
    {
        var amplifier = (AmplifierDevice)devices[load.AmplifierId]; // checked
        DriverDevice DriverOf(Coil coil) => (DriverDevice)devices[coil.DriverId]; // checked
        double Nominal(Coil coil) => DriverOf(coil).CoilOhms;
        double Lowest(Coil coil) => LowestOf(DriverOf(coil));

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
        var name = $"{amplifier.Name}, {string.Join(" + ", load.Outputs.Select(id => amplifier.Outputs.First(port => port.Id == id).Name))}";
        var lowest = load.Wiring.Ohms(Lowest);
        double? leastRated = points.Count == 0 ? null : points.Min(point => point.Ohms);
        return new LoadedChannel
        {
            Load = load,
            Amplifier = amplifier,
            Name = name,
            NominalOhms = nominal,
            MinimumOhms = lowest,
            Explanation = Explain(name, [.. drivers.Select(driver => driver.Driver)], load, bridged, nominal, lowest, leastRated, text),
            OhmsPerChannel = bridged ? nominal / 2 : nominal,
            LowestRatedOhms = leastRated,
            AvailableWatts = available,
            DriverLimitWatts = borne,
            TargetWatts = target,
            TargetVolts = target is { } watts ? Math.Sqrt(watts / nominal) * atTerminals : null,
            Drivers = drivers,
        };
    }

    private static double LowestOf(DriverDevice driver) => driver.CoilMinimumOhms ?? driver.CoilOhms * SignalDefaults.LowestImpedanceShare;

    private static Explanation Explain(string name, IReadOnlyList<DriverDevice> drivers, ChannelLoad load, bool bridged, double nominal, double lowest, double? leastRated, UnitText text)
    {
        List<ExplainedInput> inputs = [];
        foreach (var driver in drivers)
        {
            inputs.Add(new ExplainedInput($"{driver.Name}, nominal, one coil", driver.CoilOhms, "Ω", "part data"));
            inputs.Add(new ExplainedInput($"{driver.Name}, lowest, one coil", LowestOf(driver), "Ω",
                driver.CoilMinimumOhms is null ? "default: 80 % of the nominal one, IEC 60268-5, from memory" : driver.CoilMinimumOrigin.Length > 0 ? driver.CoilMinimumOrigin : "part data"));
        }

        inputs.Add(new ExplainedInput("Cable", load.CableOhms, "Ω", "length and size"));
        var words = Words(load.Wiring);
        List<ExplainedStep> steps =
        [
            new("Nominal load", "Z of the coils as they are joined", words, text.With(nominal, "Ω"), "Ohm's law"),
            new("Least load", "the same with the lowest impedance of each", words, text.With(lowest, "Ω"), "Ohm's law; the lowest of all at once, which is on the safe side"),
        ];
        if (bridged)
            steps.Add(new ExplainedStep("Each channel of the pair", "Z/2", $"{text.Number(nominal)} / 2", text.With(nominal / 2, "Ω"), "each half drives half of the voltage"));
        IReadOnlyList<LimitCheck> limits = leastRated is { } rated
            ? [new LimitCheck("Lowest load the amplifier is rated for", nominal, rated, "Ω", nominal >= rated * (1 - 1e-9), "rated powers of the amplifier, CTA-2006")]
            : [];
        return new Explanation($"{name}: which load?", $"{text.With(nominal, "Ω")}, at least {text.With(lowest, "Ω")}", inputs, steps, limits, null);
    }

    private static string Words(CoilWiring wiring) => wiring switch
    {
        CoilGroup group => string.Join(group.Join == CoilJoin.Series ? " + " : " ∥ ", group.Parts.Select(part => part is CoilGroup { Parts.Count: > 1 } inner ? $"({Words(inner)})" : Words(part))),
        Coil coil => $"coil {coil.Number}",
        _ => "",
    };
}
