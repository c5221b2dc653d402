using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>Time a battery carries a constant load with the engine off.</summary>
/// <remarks>
/// Peukert's law in the H-hour form. A reserve capacity is taken for what it is by definition: 25 A · RC minutes at the rate of RC minutes.
/// A current below the rating's own is given no more than the rated capacity (0.6 Ah per minute from a reserve capacity), on the safe side.
/// The share of the charge taken is counted linearly from full to empty.
/// </remarks>
public static class BatteryTime
{
    private const string Law = "Peukert's law, H-hour form";

    /// <summary>Peukert exponent when the maker gives none: flooded 1.25, AGM 1.10, gel 1.15 (middle of published ranges); lithium 1.03, from memory.</summary>
    /// <param name="chemistry">What the battery is made of.</param>
    /// <exception cref="ArgumentOutOfRangeException">The chemistry is not known.</exception>
    public static double DefaultExponent(BatteryChemistry chemistry) => chemistry switch
    {
        BatteryChemistry.Flooded => 1.25,
        BatteryChemistry.Agm => 1.10,
        BatteryChemistry.Gel => 1.15,
        BatteryChemistry.LithiumIronPhosphate => 1.03,
        _ => throw new ArgumentOutOfRangeException(nameof(chemistry)),
    };

    /// <summary>Computes the time to the chosen state of charge.</summary>
    /// <param name="input">Battery and load.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="BatteryTimeInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static BatteryTimeResult Compute(BatteryTimeInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));

        var fromReserve = input.CapacityAmpereHours is null;
        var reserve = input.ReserveCapacityMinutes ?? 0;
        var capacity = input.CapacityAmpereHours ?? ReserveCapacity.AmpereHoursAtTestCurrent(reserve);
        var ratingHours = fromReserve ? reserve / 60 : input.RatingHours;
        var ceiling = fromReserve ? ReserveCapacity.SlowAmpereHours(reserve) : capacity;
        var exponent = input.PeukertExponent ?? DefaultExponent(input.Chemistry);
        var start = input.RestVolts is { } volts ? OpenCircuitVoltage.StateOfChargePercent(volts) : input.StartPercent;

        var byLaw = Peukert.Hours(capacity, ratingHours, input.LoadAmperes, exponent);
        var full = Math.Min(byLaw, ceiling / input.LoadAmperes);
        var hours = full * Math.Max(0, start - input.EndPercent) / 100;
        var capacitySource = fromReserve ? "reserve capacity: 25 A for the minutes (BCI, SAE J537)" : "entered";
        return new BatteryTimeResult
        {
            Hours = hours,
            FullToEmptyHours = full,
            EffectiveAmpereHours = full * input.LoadAmperes,
            StartPercent = start,
            PeukertExponent = exponent,
            Findings = Findings(input, start, text),
            Explanation = new Explanation(
                "How long does the battery last with the engine off?",
                $"{text.With(hours, "h")} from {text.Percent(start)} to {text.Percent(input.EndPercent)} at {text.Amperes(input.LoadAmperes)}",
                [
                    new ExplainedInput("Capacity", capacity, "Ah", capacitySource),
                    new ExplainedInput("Hours of the rating", ratingHours, "h", fromReserve ? capacitySource : ElectricalDefaults.Origin(ratingHours, 20, "usual label")),
                    new ExplainedInput("Peukert exponent", exponent, "", input.PeukertExponent is not null ? "entered"
                        : input.Chemistry == BatteryChemistry.LithiumIronPhosphate ? $"default: {ElectricalDefaults.FromMemory}" : "default: middle of published ranges"),
                    new ExplainedInput("State of charge at the start", start, "%", input.RestVolts is null ? "entered" : "Battery Council International table of rest voltage"),
                ],
                [
                    new ExplainedStep("Full to empty", "t = H · (C / (I · H))^k, at most C / I",
                        $"{text.Number(ratingHours)} · ({text.Number(capacity)} / ({text.Number(input.LoadAmperes)} · {text.Number(ratingHours)}))^{text.Number(exponent)}", text.With(full, "h"), Law),
                    new ExplainedStep("To the chosen state of charge", "t · (s_start − s_end)", $"{text.Number(full)} · ({text.Number(start)} − {text.Number(input.EndPercent)}) / 100", text.With(hours, "h"), "linear share of the charge"),
                ],
                [], full < byLaw ? "rated capacity" : null),
        };
    }

    private static IReadOnlyList<Finding> Findings(BatteryTimeInput input, double start, UnitText text)
    {
        var findings = new FindingList("battery", "Battery");
        var lithium = input.Chemistry == BatteryChemistry.LithiumIronPhosphate;
        if (start <= input.EndPercent)
        {
            findings.Add("battery-already-below", Severity.Warn, $"It stands at {text.Percent(start)}, at or below the {text.Percent(input.EndPercent)} to stop at.",
                "Charge it before playing with the engine off.", "comparison of the two");
        }

        if (!lithium && input.EndPercent < 50)
        {
            findings.Add("battery-deep-discharge", input.EndPercent < 20 ? Severity.Stop : Severity.Warn,
                $"Going down to {text.Percent(input.EndPercent)} shortens the life of a lead-acid battery, and a starting battery may not start the engine.",
                "Stop at 50 % or more; deep-cycle lead-acid never below 20 %.", "battery makers' advice: 50 % on average, never below 20 %");
        }

        if (input.BatteryCelsius < 15)
        {
            findings.Add("battery-cold", Severity.Note, $"At {text.Celsius(input.BatteryCelsius)} the battery gives less than rated; the time shown is for about 25 °C.",
                "Count with less: the maker's data sheet gives the capacity at this temperature.", ElectricalDefaults.CommonPractice);
        }

        if (lithium)
        {
            findings.Add("lithium-cut-off", Severity.Warn, "Its management electronics switch it off without warning when it is empty, too cold or overloaded, and most must not be charged below 0 °C.",
                "Use one made for vehicles, with the charging voltage its maker asks for, never alone on the starter; keep its current below the cut-off.", ElectricalDefaults.FromMemory);
        }

        return findings.Sorted;
    }
}
