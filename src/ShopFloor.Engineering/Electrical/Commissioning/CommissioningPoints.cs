using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Safety;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Commissioning;

/// <summary>The values to measure before a new supply is given free: predicted by the network solution, with the limits they must keep.</summary>
/// <remarks>
/// Limits are rounded outward to a tenth: finer than that, meter and leads decide and not the car. Figures are those of 12 V; a supply of
/// 24 V is two such batteries in series, so every voltage counts twice (<see cref="BatteriesInSeries"/>).
/// </remarks>
public static class CommissioningPoints
{
    /// <summary>Lowest voltage while charging a 12 V battery, V. Common practice, no source; smart alternators may hold less for a while.</summary>
    public const double LowestChargingVolts = 13.5;

    /// <summary>Highest voltage while charging a 12 V battery, V. Common practice, no source.</summary>
    public const double HighestChargingVolts = 15.0;

    /// <summary>Highest key-off current, mA. Common practice of vehicle makers, no single source; the maker's own figure decides.</summary>
    public const double HighestDrainMilliamperes = 50;

    /// <summary>Identifier of the charging voltage.</summary>
    public const string ChargingId = "charging";

    // V, the spread of regulators and of what the car itself takes: common practice, no source.
    private const double PredictionSlackVolts = 0.3;

    private const string Meter = "rounded outward to a tenth: " + Unsourced.CommonPractice;

    /// <summary>The points, batteries first.</summary>
    /// <param name="input">Network, loads, batteries and draws.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    public static IReadOnlyList<CommissioningPoint> Of(CommissioningInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        return
        [
            .. input.Batteries.Select(battery => Rest(input, battery, text)),
            Charging(input, text),
            .. input.Loads.Select(load => Load(input, load, text)),
            Drain(input, text),
        ];
    }

    /// <summary>How many 12 V batteries in series a charging voltage stands for, 1 or more. Common practice, no source: 13.8 V each, rounded.</summary>
    /// <param name="supplyVolts">Charging voltage, V.</param>
    public static double BatteriesInSeries(double supplyVolts) => Math.Max(1, Math.Round(supplyVolts / ElectricalDefaults.SupplyVolts));

    /// <summary>Rest voltage of a full 12 V battery and what is accepted, V. Lead-acid between half and full charge; all from memory, the battery maker's table decides.</summary>
    /// <param name="kind">Kind of battery.</param>
    public static (double Full, double Lowest, double Highest) RestOf(BatteryKind kind) => kind switch
    {
        BatteryKind.Lithium => (13.3, 13.0, 13.6),
        BatteryKind.Sealed => (12.8, 12.3, 13.2),
        _ => (12.65, 12.2, 13.0),
    };

    private static CommissioningPoint Rest(CommissioningInput input, CommissioningBattery battery, UnitText text)
    {
        var series = BatteriesInSeries(input.SupplyVolts);
        var one = RestOf(battery.Kind ?? BatteryKind.Flooded);
        var (full, low, high) = (series * one.Full, series * one.Lowest, series * one.Highest);
        var predicted = battery.EnteredRestVolts ?? full;
        var kind = battery.Kind is { } known ? known.ToString().ToLowerInvariant() : "kind not known, taken as flooded lead-acid";
        return new CommissioningPoint(
            $"rest:{battery.Id}", CommissioningKind.RestVoltage, $"{battery.Name}: voltage at rest", "V",
            "Charged, then an hour without load or charger; meter on both posts", predicted, false, low, high,
            new Explanation(
                $"{battery.Name}: which voltage at rest?",
                $"{text.Volts(predicted)} expected, {text.Volts(low)} to {text.Volts(high)} accepted",
                [new("Voltage at rest", predicted, "V", battery.EnteredRestVolts is null ? $"full battery, {kind}: {ElectricalDefaults.FromMemory}" : "entered with the plan"), .. Series(input)],
                [],
                [
                    new("Lowest: about half charged", predicted, low, "V", predicted >= low, $"{ElectricalDefaults.FromMemory}; the battery maker's table decides"),
                    new("Highest: full and rested", predicted, high, "V", predicted <= high, $"{ElectricalDefaults.FromMemory}; the battery maker's table decides"),
                ],
                null));
    }

    // Where the alternator gives all it can, the plan has warned of it; then the prediction is what has to be reached.
    private static double LowestCharging(CommissioningInput input) =>
        ChargedVolts(input) is { } volts && volts < LeastCharging(input) ? Tenth(volts - Slack(input)) : LeastCharging(input);

    private static double LeastCharging(CommissioningInput input) => BatteriesInSeries(input.SupplyVolts) * LowestChargingVolts;

    private static double MostCharging(CommissioningInput input) => BatteriesInSeries(input.SupplyVolts) * HighestChargingVolts;

    private static double Slack(CommissioningInput input) => BatteriesInSeries(input.SupplyVolts) * PredictionSlackVolts;

    // Said only where it is not one: the figures of 12 V stand as they are.
    private static IEnumerable<ExplainedInput> Series(CommissioningInput input) => BatteriesInSeries(input.SupplyVolts) is > 1 and var series
        ? [new("12 V batteries in series", series, "", $"supply voltage over {ElectricalDefaults.SupplyVolts} V, rounded; limits of 12 V times this: {Unsourced.CommonPractice}")]
        : [];

    private static CommissioningPoint Charging(CommissioningInput input, UnitText text)
    {
        var predicted = ChargedVolts(input);
        var low = LowestCharging(input);
        var (least, most) = (LeastCharging(input), MostCharging(input));
        var weak = low < least;
        return new CommissioningPoint(
            ChargingId, CommissioningKind.ChargingVoltage, "Charging voltage with music", "V",
            $"{Capital(input.RunningWords)}, music at working level; meter on the battery's posts", predicted, false, low, most,
            new Explanation(
                "Which voltage at the battery's posts, charging, with music?",
                predicted is { } volts ? $"{text.With(volts, "V", 4)} predicted, at least {text.Volts(low)} accepted" : "not predicted: no output of an alternator or converter is entered",
                [.. predicted is { } known ? [new ExplainedInput("Voltage at the posts", known, "V", Solved(input))] : Array.Empty<ExplainedInput>(), .. Series(input)],
                weak && predicted is { } reached
                    ? [new("Lowest accepted", $"U_predicted − {text.With(Slack(input), "V")}", "the alternator gives all it can in this state", text.Volts(low), $"a little below the prediction: {Unsourced.CommonPractice}")]
                    : [],
                [
                    new("Lowest that charges", predicted ?? low, least, "V", !weak, Unsourced.CommonPractice),
                    new("Highest", predicted ?? most, most, "V", !(predicted > most), Unsourced.CommonPractice),
                ],
                weak ? "Lowest that charges" : null));
    }

    private static CommissioningPoint Load(CommissioningInput input, CommissioningLoad load, UnitText text)
    {
        var solved = input.HasCharger ? input.Running?.Elements.FirstOrDefault(element => element.ElementId == load.Id)?.TerminalVolts : null;
        var drop = ChargedVolts(input) - solved;
        // The regulator of the car holds what it holds; the drop from there is what the plan answers for.
        var predicted = input.MeasuredChargingVolts - drop ?? solved;
        var source = input.MeasuredChargingVolts ?? LowestCharging(input);
        var low = Tenth(source - load.MaxDropVolts);
        var most = MostCharging(input);
        return new CommissioningPoint(
            load.Id, CommissioningKind.LoadVoltage, $"Voltage at {load.Name} under load", "V",
            $"{Capital(input.RunningWords)}, music at working level; meter on its supply terminals, plus and minus", predicted, false, low, most,
            new Explanation(
                $"{load.Name}: which voltage under load?",
                predicted is { } volts ? $"{text.With(volts, "V", 4)} predicted, at least {text.Volts(low)} accepted" : $"at least {text.Volts(low)} accepted",
                [
                    new("Voltage at the battery", source, "V", input.MeasuredChargingVolts is null ? "the lowest accepted while charging, until it is measured" : "measured on this car"),
                    new("Largest drop", load.MaxDropVolts, "V", "the plan's limit"),
                    .. drop is { } lost ? [new ExplainedInput("Drop from battery to load and back", lost, "V", Solved(input))] : Array.Empty<ExplainedInput>(),
                    .. Series(input),
                ],
                [
                    .. predicted is { } reached && drop is { } through
                        ? [new ExplainedStep("Predicted", "U_battery \u2212 \u0394U", $"{text.With(reached + through, "V", 4)} \u2212 {text.With(through, "V")}", text.With(reached, "V", 4), "Kirchhoff's laws")]
                        : Array.Empty<ExplainedStep>(),
                    new("Lowest accepted", "U_battery − ΔU_max", $"{text.With(source, "V", 4)} − {text.With(load.MaxDropVolts, "V")}", text.Volts(low), Meter),
                ],
                [
                    new("Lowest accepted", predicted ?? low, low, "V", predicted is not { } value || value >= low, "the plan's largest voltage drop"),
                    new("Highest accepted", predicted ?? most, most, "V", !(predicted > most), Unsourced.CommonPractice),
                ],
                null));
    }

    private static CommissioningPoint Drain(CommissioningInput input, UnitText text)
    {
        var known = (input.Draws.Sum(draw => draw.StandbyAmperes ?? 0) + (input.VehicleSleepAmperes ?? 0)) * 1000;
        var missing = input.Draws.Where(draw => draw.StandbyAmperes is null).Select(draw => draw.Name).ToList();
        if (input.VehicleSleepAmperes is null)
            missing.Add("the car itself");
        var limit = input.DrainLimitAmperes * 1000 ?? HighestDrainMilliamperes;
        return new CommissioningPoint(
            "key-off-drain", CommissioningKind.KeyOffDrain, "Current with the car asleep", "mA",
            "Locked, key away, all modules asleep (often half an hour); clamp or meter in the negative lead", known, missing.Count > 0, 0, limit,
            new Explanation(
                "Which current with the key off?",
                text.With(known, "mA") + (missing.Count > 0 ? $" and what is not known: {string.Join(", ", missing)}" : ""),
                [
                    .. input.Draws.Where(draw => draw.StandbyAmperes is not null).Select(draw => new ExplainedInput(draw.Name, draw.StandbyAmperes!.Value * 1000, "mA", "part data")), // filtered
                    .. input.VehicleSleepAmperes is { } sleep ? [new ExplainedInput("The car itself", sleep * 1000, "mA", "entered")] : Array.Empty<ExplainedInput>(),
                ],
                [new("Key-off current", "I = I_car + Σ I_parts", missing.Count > 0 ? $"without {string.Join(", ", missing)}" : "all known", text.With(known, "mA"), "sum")],
                [new("Key-off current", known, limit, "mA", known <= limit, input.DrainLimitAmperes is null ? $"{Unsourced.CommonPractice}; the vehicle maker's figure decides" : "the vehicle maker's limit, entered")],
                null));
    }

    private static string Solved(CommissioningInput input) => $"network solution, {input.RunningWords}, typical music";

    private static double? ChargedVolts(CommissioningInput input) =>
        input.HasCharger ? input.Running?.Nodes.FirstOrDefault(node => node.NodeId == input.BatteryNodeId)?.Volts : null;

    // Rounded before it is cut, so that 13.1 does not become 13.0 by the last bit.
    private static double Tenth(double volts) => Math.Floor(Math.Round(10 * volts, 6)) / 10;

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}
