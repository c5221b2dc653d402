using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>How long a battery feeds a load with the engine off, by <see cref="Peukert"/>.</summary>
/// <remarks>
/// At a constant current the state of charge is taken to fall evenly over the full-discharge time at that current. Below the current of
/// its rating a battery is given its rated capacity and no more: the law is not made for such currents. A reserve capacity is taken as the
/// rating it is, 25 A for its minutes, and never gives more than <see cref="ReserveCapacity.SlowAmpereHours"/>. A lead-acid battery colder
/// than 25 °C is given 0.8 % less capacity per °C (from memory); a warmer one is given no more.
/// </remarks>
public static class BatteryTime
{
    /// <summary>Capacity lost per °C below 25 °C by a lead-acid battery. From memory.</summary>
    public const double ColdLossPerCelsius = 0.008;

    /// <summary>Exponent when none is known: 1.25 flooded, 1.10 glass mat, 1.15 gel (middles of published ranges), 1.02 lithium (from memory).</summary>
    /// <param name="chemistry">Kind of battery.</param>
    public static double DefaultExponent(BatteryChemistry chemistry) => chemistry switch
    {
        BatteryChemistry.Flooded => 1.25,
        BatteryChemistry.GlassMat => 1.10,
        BatteryChemistry.Gel => 1.15,
        BatteryChemistry.LithiumIronPhosphate => 1.02,
        _ => throw new ArgumentOutOfRangeException(nameof(chemistry)),
    };

    /// <summary>Computes the time.</summary>
    /// <param name="input">Battery, load and the state of charge to stop at.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="BatteryTimeInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static BatteryTimeResult Compute(BatteryTimeInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));

        var lithium = input.Chemistry == BatteryChemistry.LithiumIronPhosphate;
        // A reserve capacity is a rating too: 25 A for its minutes.
        var reserve = input.ReserveCapacityMinutes ?? 0;
        var (nominal, hours, most, capacityOrigin) = input.CapacityAmpereHours is { } entered
            ? (entered, input.RatedHours, entered, "entered")
            : (ReserveCapacity.AmpereHoursAtTestCurrent(reserve), reserve / 60, ReserveCapacity.SlowAmpereHours(reserve), ReserveCapacity.Definition);
        var temperature = lithium ? 1 : 1 - ColdLossPerCelsius * Math.Max(0, 25 - input.BatteryCelsius);
        var capacity = most * temperature;
        var exponent = input.PeukertExponent ?? DefaultExponent(input.Chemistry);
        var exponentOrigin = input.PeukertExponent is not null ? "entered"
            : lithium ? $"default: {ElectricalDefaults.FromMemory}" : "default: middle of the published range for this kind";
        var start = input.RestedVolts is { } rested ? OpenCircuitVoltage.StateOfChargePercent(rested) : input.StartPercent;
        var share = Math.Max(0, start - input.EndPercent) / 100;
        var full = Math.Min(Peukert.Hours(nominal * temperature, hours, input.LoadAmperes, exponent), capacity / input.LoadAmperes);
        var time = full * share;
        return new BatteryTimeResult
        {
            Hours = time,
            HoursFullToEmpty = full,
            DrawnAmpereHours = time * input.LoadAmperes,
            StartPercent = start,
            CapacityAmpereHours = capacity,
            CapacityOrigin = capacityOrigin,
            PeukertExponent = exponent,
            ExponentOrigin = exponentOrigin,
            RestedVoltsAtEnd = input.Chemistry == BatteryChemistry.Flooded ? OpenCircuitVoltage.RestedVolts(input.EndPercent) : null,
            Findings = Findings(input, lithium, start, temperature, text),
            Explanation = Explain(input, nominal, hours, most, capacityOrigin, temperature, exponent, exponentOrigin, start, full, time, text),
        };
    }

    private static List<Finding> Findings(BatteryTimeInput input, bool lithium, double start, double temperature, UnitText text)
    {
        var findings = new List<Finding>();
        void Add(string code, Severity severity, string what, string remedy, string source) =>
            findings.Add(new Finding(code, severity, input.Id, input.Name, what, remedy, source));

        if (start <= input.EndPercent)
        {
            Add("battery-below-end", Severity.Warn, $"It is at {text.Percent(start)} already, at or below the {text.Percent(input.EndPercent)} to stop at.",
                "Charge it first.", OpenCircuitVoltage.Source);
        }

        if (!lithium && input.EndPercent < 20)
        {
            Add("battery-deep-discharge", Severity.Warn, $"Stopping at {text.Percent(input.EndPercent)} wears a lead-acid battery fast and may leave the engine unable to start.",
                "Stop at 50 % for a battery made for cycling, never below 20 %; keep a starting battery above 60 %.", Unsourced.CommonPractice);
        }

        if (temperature < 1)
        {
            Add("battery-cold", Severity.Note, $"At {text.Celsius(input.BatteryCelsius)} the capacity is taken as {text.Percent(temperature * 100)} of its rating.",
                "Use the maker's temperature table.", ElectricalDefaults.FromMemory);
        }

        if (lithium)
        {
            Add("battery-protection-cut-off", Severity.Warn,
                "Its protection circuit may cut it off without warning when it is empty, cold, hot or overloaded; everything it feeds goes dark, and an alternator that loses its battery while running can put out a damaging voltage.",
                "Size it so that the protection never acts, use a charger made for it, and follow the battery maker and the vehicle maker on where it may be fitted.",
                Unsourced.CommonPractice);
            if (input.BatteryCelsius < 0)
            {
                Add("battery-lithium-frost", Severity.Warn, $"At {text.Celsius(input.BatteryCelsius)} a lithium battery must not be charged unless its maker allows it.",
                    "Fit one with a heater, or keep it inside.", ElectricalDefaults.FromMemory);
            }
        }

        return [.. findings.OrderByDescending(f => f.Severity)];
    }

    private static Explanation Explain(
        BatteryTimeInput input, double nominal, double hours, double most, string capacityOrigin, double temperature, double exponent, string exponentOrigin,
        double start, double full, double time, UnitText text)
    {
        var inputs = new List<ExplainedInput>
        {
            new("Capacity", nominal, "Ah", capacityOrigin),
            new("Hour rate of the capacity", hours, "h",
                input.CapacityAmpereHours is null ? ReserveCapacity.Definition : ElectricalDefaults.Origin(input.RatedHours, 20, "usual rating")),
            new("Temperature factor", temperature, "", temperature < 1 ? ElectricalDefaults.FromMemory : "25 °C and above, or lithium"),
            new("Peukert exponent", exponent, "", exponentOrigin),
            new("Load", input.LoadAmperes, "A", "part data"),
            new("State of charge at the start", start, "%",
                input.RestedVolts is null ? ElectricalDefaults.Origin(input.StartPercent, 100, "full") : OpenCircuitVoltage.Source),
            new("State of charge to stop at", input.EndPercent, "%",
                ElectricalDefaults.Origin(input.EndPercent, 50, $"usual depth for cycling, {Unsourced.CommonPractice}")),
        };
        var steps = new List<ExplainedStep>
        {
            new("Full to empty at this current", "t = H · (C / (I · H))^k, C at the H-hour rate, not above C_most / I",
                $"{text.Number(hours)} · ({text.Number(nominal * temperature)} / ({text.Number(input.LoadAmperes)} · {text.Number(hours)}))^{text.Number(exponent)}, C_most {text.With(most * temperature, "Ah")}",
                text.With(full, "h"), "Peukert's law for a capacity at an hour rate"),
            new("Down to the chosen state of charge", "t_end = t · (SoC_start − SoC_end) / 100, not below 0",
                $"{text.Number(full)} · ({text.Number(start)} − {text.Number(input.EndPercent)}) / 100", text.With(time, "h"), "even fall at constant current"),
        };
        return new Explanation($"{input.Name}: how long with the engine off?",
            $"{text.With(time, "h")} at {text.Amperes(input.LoadAmperes)}, down to {text.Percent(input.EndPercent)}", inputs, steps, [], null);
    }
}
