using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>Voltage sag in a burst, with a capacitor or a second battery, and what capacitance would be needed.</summary>
/// <remarks>
/// The circuit is solved by <see cref="ConstantPowerSag"/>. A second battery is put together with the supply into one source by
/// Thévenin's theorem; over a burst its voltage is taken as constant.
/// </remarks>
public static class PeakSupport
{
    /// <summary>Current a proposed charging resistor lets through at the first moment, A. Common practice, no source.</summary>
    public const double PrechargePeakAmperes = 5;

    private const int CoursePoints = 50;

    /// <summary>Computes sag, needed capacitance and charging.</summary>
    /// <param name="input">Supply, burst and support.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="PeakSupportInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static PeakSupportResult Compute(PeakSupportInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));

        var (volts, ohms) = (input.SourceVolts, input.SourceOhms);
        var alone = new ConstantPowerSag(volts, ohms, 0, input.BurstWatts).SteadyVolts;
        if (input.SecondBattery is { } second)
        {
            var conductance = 1 / ohms + 1 / second.Ohms;
            volts = (volts / ohms + second.RestedVolts / second.Ohms) / conductance;
            ohms = 1 / conductance;
        }

        var capacitor = input.Capacitor;
        var sag = new ConstantPowerSag(volts, ohms, capacitor?.SeriesOhms ?? 0, input.BurstWatts);
        var farads = capacitor?.Farads ?? 0;
        var end = sag.Volts(farads, input.BurstSeconds);
        var first = capacitor is null ? sag.SteadyVolts : sag.FirstVolts;
        double? collapse = end is null ? sag.CollapseSeconds(farads) : null;
        var perFarad = sag.SecondsPerFarad(input.LeastVolts);
        double? needed = perFarad switch
        {
            double.PositiveInfinity => 0,
            > 0 => input.BurstSeconds / perFarad,
            _ => sag.SteadyVolts >= input.LeastVolts ? 0 : null,
        };

        List<SagPoint> course = [];
        for (var i = 0; i <= CoursePoints; i++)
        {
            var at = input.BurstSeconds * i / CoursePoints;
            if (sag.Volts(farads, at) is { } v)
                course.Add(new SagPoint(at, v));
        }

        var burst = input.BurstWatts * input.BurstSeconds;
        double? stored = capacitor is null ? null : 0.5 * capacitor.Farads * (Square(volts) - Square(input.LeastVolts));
        if (stored < 0)
            stored = 0; // a low second battery may hold the capacitor below the voltage to keep
        var precharge = capacitor is null ? null : PrechargeOf(capacitor, volts, input.PrechargeOhms);
        var kept = end >= input.LeastVolts;
        var verdict = Verdict(input, end, kept, needed, text);
        var limits = new List<LimitCheck> { new("Voltage kept for the whole burst", end ?? 0, input.LeastVolts, "V", kept, "entered") };
        return new PeakSupportResult
        {
            AloneVolts = alone,
            FirstVolts = first,
            EndVolts = end,
            CollapseSeconds = collapse,
            SagVolts = volts - end,
            NeededFarads = needed,
            BurstJoules = burst,
            CapacitorJoules = stored,
            CapacitorAloneSeconds = stored / input.BurstWatts,
            RecoverySeconds = capacitor is null ? null : 3 * (ohms + capacitor.SeriesOhms) * capacitor.Farads,
            SecondBatteryAmperes = input.SecondBattery is { } battery && end is { } atEnd ? (battery.RestedVolts - atEnd) / battery.Ohms : null,
            Course = course,
            Precharge = precharge,
            Verdict = verdict,
            Findings = PeakSupportFindings.Find(input, alone, end, kept, needed, collapse, precharge, text),
            Explanation = Explain(input, volts, ohms, alone, end, needed, burst, stored, precharge, verdict, limits, text),
        };
    }

    private static double Square(double x) => x * x;

    private static Precharge PrechargeOf(SupportCapacitor capacitor, double volts, double? entered)
    {
        var resistor = entered ?? volts / PrechargePeakAmperes;
        var total = resistor + capacitor.SeriesOhms;
        var peak = volts / total;
        // Half of what the source gives ends as heat whatever the resistance; the series resistance takes its share.
        var heat = 0.5 * capacitor.Farads * volts * volts * resistor / total;
        return new Precharge(resistor, peak, peak * peak * resistor, heat, Math.Log(100) * total * capacitor.Farads);
    }

    private static string Verdict(PeakSupportInput input, double? end, bool kept, double? needed, UnitText text)
    {
        var reached = end is { } v ? $"{text.Volts(v)} at the end of the burst" : "the supply collapses during the burst";
        if (kept)
            return $"{reached}: the {text.Volts(input.LeastVolts)} are kept";
        return reached + (needed is { } farads and > 0
            ? $"; keeping {text.Volts(input.LeastVolts)} would take {text.With(farads, "F")}"
            : $"; no capacitor with this series resistance keeps {text.Volts(input.LeastVolts)}");
    }

    private static Explanation Explain(
        PeakSupportInput input, double volts, double ohms, double? alone, double? end, double? needed, double burst, double? stored,
        Precharge? precharge, string verdict, List<LimitCheck> limits, UnitText text)
    {
        const string Circuit = "Kirchhoff's laws with a load of constant power, integrated in closed form";
        var inputs = new List<ExplainedInput>
        {
            new("Voltage before the burst", input.SourceVolts, "V", ElectricalDefaults.Origin(input.SourceVolts, ElectricalDefaults.SupplyVolts, Unsourced.CommonPractice)),
            new("Resistance of the supply", input.SourceOhms, "Ω", "entered"),
            new("Power of the burst", input.BurstWatts, "W", "entered"),
            new("Duration of the burst", input.BurstSeconds, "s", "entered"),
            new("Voltage to keep", input.LeastVolts, "V", "entered"),
        };
        var steps = new List<ExplainedStep>
        {
            new("Supply alone", "v = (V0 + √(V0² − 4 · Rs · P)) / 2", $"V0 {text.Volts(input.SourceVolts)}, Rs {text.With(input.SourceOhms, "Ω")}, P {text.Watts(input.BurstWatts)}",
                alone is { } a ? text.Volts(a) : "cannot deliver the power", Circuit),
        };
        if (input.SecondBattery is { } battery)
        {
            inputs.Add(new("Second battery, rested voltage", battery.RestedVolts, "V", "part data"));
            inputs.Add(new("Second battery, resistance", battery.Ohms, "Ω", "part data"));
            steps.Add(new("Supply and second battery together", "V0' = (V0/Rs + Vb/Rb) / (1/Rs + 1/Rb), Rs' = 1 / (1/Rs + 1/Rb)",
                $"Rb {text.With(battery.Ohms, "Ω")}, Vb {text.Volts(battery.RestedVolts)}", $"{text.Volts(volts)}, {text.With(ohms, "Ω")}", "Thévenin's theorem"));
        }

        if (input.Capacitor is { } capacitor)
        {
            inputs.Add(new("Capacitance", capacitor.Farads, "F", "part data"));
            inputs.Add(new("Series resistance of the capacitor", capacitor.SeriesOhms, "Ω", "part data"));
        }

        steps.Add(new("Voltage at the end of the burst", "(V0 − v)/Rs + (u − v)/Re = P/v, C · u' = −(u − v)/Re", $"after {text.With(input.BurstSeconds, "s")}",
            end is { } reached ? text.Volts(reached) : "collapsed", Circuit));
        steps.Add(new("Capacitance needed", "C = t / ∫ (dt/C), from the first voltage to the voltage to keep", $"{text.With(input.BurstSeconds, "s")} at {text.Volts(input.LeastVolts)}",
            needed is { } farads ? text.With(farads, "F") : "none suffices", Circuit));
        if (stored is { } energy)
            steps.Add(new("Energy in the capacitor against the burst", "E = ½ · C · (V0² − V²); burst P · t", $"burst {text.With(burst, "J")}", text.With(energy, "J"), "energy of a capacitor"));
        if (precharge is { } charge)
        {
            steps.Add(new("Charging through a resistor", "I = V0 / (R + Re), E_R = ½ · C · V0² · R/(R + Re), t = 4.6 · (R + Re) · C", $"R {text.With(charge.Ohms, "Ω")}",
                $"{text.Amperes(charge.PeakAmperes)}, {text.With(charge.ResistorJoules, "J")}, {text.With(charge.SecondsToFull, "s")}", "charging a capacitor through a resistor"));
        }

        return new Explanation("Does the supply hold through a burst?", verdict, inputs, steps, limits, limits.FirstOrDefault(l => !l.Passed)?.Name);
    }
}
