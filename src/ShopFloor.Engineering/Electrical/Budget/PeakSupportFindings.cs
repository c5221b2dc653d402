using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>What is wrong with a support for peaks, and what to take care of.</summary>
internal static class PeakSupportFindings
{
    public static List<Finding> Find(
        PeakSupportInput input, double? alone, double? end, bool kept, double? needed, double? collapse, Precharge? precharge, UnitText text)
    {
        var findings = new List<Finding>();
        void Add(string code, Severity severity, string what, string remedy, string source) =>
            findings.Add(new Finding(code, severity, input.Id, "Peak support", what, remedy, source));

        if (collapse is { } seconds)
        {
            Add("peak-collapse", Severity.Warn, $"The supply cannot deliver {text.Watts(input.BurstWatts)}; the voltage is lost after {text.With(seconds, "s")}.",
                "Use shorter and thicker feeds, a battery with less resistance, or less power.", "maximum power of a source: V0²/(4·Rs)");
        }
        else if (!kept)
        {
            Add("peak-sag", Severity.Warn,
                $"The voltage falls to {text.Volts(end ?? 0)}; {text.Volts(input.LeastVolts)} were to be kept." + (needed is null ? " No capacitor with this series resistance can hold it." : ""),
                "Lower the resistance of the feed first; it helps for any length of burst.", "Kirchhoff's laws with a load of constant power");
        }
        else if (alone >= input.LeastVolts && (input.Capacitor is not null || input.SecondBattery is not null))
        {
            Add("peak-support-not-needed", Severity.Note, $"The supply alone holds {text.Volts(alone.Value)}; nothing is needed for this burst.",
                "Leave it out, or keep it for another reason.", "Kirchhoff's laws with a load of constant power");
        }

        if (input.Capacitor is { } capacitor)
        {
            Add("capacitor-is-no-source", input.AlternatorSurplusAmperes < 0 ? Severity.Warn : Severity.Note,
                (input.AlternatorSurplusAmperes is { } surplus and < 0 ? $"On music the alternator is {text.Amperes(-surplus)} short. " : "")
                + "A capacitor only shifts energy by fractions of a second to seconds; everything it gives the alternator and battery have to put back. It does not replace alternator capacity.",
                "Balance the average with the alternator budget first.", "conservation of energy");
            Add("capacitor-precharge", Severity.Warn,
                $"An empty capacitor is a short circuit. Charge it through {text.With(precharge?.Ohms ?? 0, "Ω")} that stand {text.With(precharge?.ResistorJoules ?? 0, "J")} "
                + $"(first {text.Watts(precharge?.PeakWatts ?? 0)}) for {text.With(precharge?.SecondsToFull ?? 0, "s")} before connecting it, and discharge it the same way before work. It stays charged with the battery off.",
                "Eye protection, no rings; the resistor gets hot. Fuse the capacitor's feed close to the battery. Follow the maker's charging instructions.", Unsourced.CommonPractice);
            if (capacitor.RatedVolts is not { } rated)
            {
                Add("capacitor-rating-missing", Severity.Note, "Its rated voltage is not known.", "Read it; an alternator may reach 15 V.", ElectricalDefaults.FromMemory);
            }
            else if (rated < input.SourceVolts || rated < input.SecondBattery?.RestedVolts)
            {
                Add("capacitor-overvoltage", Severity.Stop, $"It is rated {text.Volts(rated)}, below the voltage of the supply.", "Fit one rated above the highest charging voltage; above its rating it can burst.", "the part's rating");
            }
        }

        if (input.SecondBattery is { } battery)
        {
            var equalising = Math.Abs(input.SourceVolts - battery.RestedVolts) / (input.SourceOhms + battery.Ohms);
            Add("second-battery-connection", Severity.Warn,
                $"Connected directly, about {text.Amperes(equalising)} flow between the batteries at once.",
                "Fuse both ends of the cable between the batteries, charge both to the same voltage first, separate them with the engine off, vent or use a sealed battery inside the car, and never put two kinds in parallel without a charger between them.",
                Unsourced.CommonPractice);
        }

        return [.. findings.OrderByDescending(f => f.Severity)];
    }
}
