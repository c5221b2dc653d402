using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Explained;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Maps a job to the sag of a peak and to the warmth around its amplifiers.</summary>
internal static class HeatAndPeaks
{
    // J/(kg·K): aluminium, of which amplifiers mostly are. Handbook value.
    private const double AmplifierJoulesPerKilogramKelvin = 900;

    // kg: used for the time only, when no mass is known. From memory.
    private const double AssumedAmplifierKilograms = 3;

    /// <summary>
    /// Every amplifier at full output where most of their power is taken, fed by the car's battery alone: the engine is off, or the alternator at
    /// its limit already.
    /// </summary>
    public static PeakView? Peak(BudgetFacts facts, double? alternatorSurplusAmperes, List<Finding> findings)
    {
        var runs = facts.Plan.Runs.ToDictionary(run => run.Place.RunId);
        var strongest = facts.Loads
            .Where(load => load.Part.Kind == PartKind.Amplifier && runs.ContainsKey(load.Id))
            .GroupBy(load => runs[load.Id].Place.SourceId)
            .Select(group => (Source: group.Key, Watts: group.Sum(load => load.Rated?.SupplyWatts ?? 0)))
            .OrderByDescending(group => group.Watts)
            .FirstOrDefault();
        var watts = strongest.Watts;
        if (watts < 1 || FeedOhms(facts, strongest.Source) is not { } feedOhms)
        {
            return null;
        }

        var plan = facts.Plan.Settings;
        var ohms = (plan.BatteryMilliohms / 1000 ?? FeedNetworkBuilder.DefaultBatteryOhms) + feedOhms;
        var alone = new PeakSupportInput
        {
            SourceVolts = plan.BatteryRestVolts ?? FeedNetworkBuilder.DefaultRestVolts,
            SourceOhms = ohms,
            BurstWatts = watts,
            BurstSeconds = facts.Settings.BurstSeconds,
            LeastVolts = facts.Settings.LeastVolts,
            AlternatorSurplusAmperes = alternatorSurplusAmperes is { } surplus ? Math.Clamp(surplus, -2000, 2000) : null,
        };
        List<string> helpers = [];
        var helped = alone with { Capacitor = Capacitor(facts, helpers, findings), SecondBattery = SecondBattery(facts, strongest.Source, helpers) };
        var problems = helped.Validate(facts.Text);
        var first = BudgetFacts.Ask("peak-support", "Peaks", problems, findings, () => PeakSupport.Compute(alone, facts.Text));
        if (first is null)
        {
            return null;
        }

        var second = helpers.Count > 0 ? PeakSupport.Compute(helped, facts.Text) : null;
        findings.AddRange((second ?? first).Findings);
        return new PeakView(watts, alone.SourceVolts, ohms, helpers, first, second);
    }

    public static List<CompartmentView> Compartments(BudgetFacts facts, List<Finding> findings)
    {
        List<CompartmentView> views = [];
        foreach (var group in facts.Loads.Where(load => load.Part.Kind == PartKind.Amplifier).GroupBy(load => load.Part.Zone))
        {
            var box = facts.Settings.Compartments.FirstOrDefault(each => each.Zone == group.Key && group.Key.Length > 0);
            var watts = group.Sum(load => load.Music?.HeatWatts ?? 0);
            var air = 3600 * CompartmentHeat.AirflowCubicMetersPerSecond(watts, facts.Settings.AllowedRiseKelvin, facts.Plan.Settings.CabinCelsius);
            var name = VehicleZones.NameOf(group.Key);
            views.Add(new CompartmentView(group.Key, name, [.. group.Select(load => load.Name)], box, watts, air, box is null ? null : Heat([.. group], box, name, facts, findings)));
            if (box is null)
            {
                findings.Add(new Finding(
                    "compartment-not-described", Severity.Note, $"compartment:{group.Key}", name,
                    $"How the amplifiers are boxed in is not known. Without any wall that lets heat out, {facts.Text.With(air, "m³/h")} of air would be needed.",
                    group.Key.Length == 0 ? "Set the place of the amplifier on the parts list." : "Enter the inside of the box and its walls.", "needed for the heat"));
            }
        }

        return views;
    }

    private static CompartmentHeatResult? Heat(IReadOnlyList<PartLevels> amplifiers, CompartmentForm box, string name, BudgetFacts facts, List<Finding> findings)
    {
        var kilograms = amplifiers.Sum(load => load.Part.UnitMassKilograms ?? AssumedAmplifierKilograms);
        var id = $"compartment:{box.Zone}";
        var input = new CompartmentHeatInput
        {
            Id = id,
            Name = name,
            Sources = [.. amplifiers.Select(load => (load.Amplifier is { } levels ? HeatSource.Of(load.Id, load.Name, levels) : new HeatSource { Id = load.Id, Name = load.Name }) with
            {
                ProtectionCelsius = (load.Part.Data as AmplifierData)?.ProtectionCelsius,
            })],
            Walls = box.Build is { } build ? [CompartmentWall.Of("All sides", box.SurfaceSquareMeters, build)] : [],
            AmbientCelsius = facts.Plan.Settings.CabinCelsius,
            AirflowCubicMetersPerSecond = box.AirflowCubicMetersPerHour / 3600,
            HeatCapacityJoulesPerKelvin = Math.Clamp(kilograms * AmplifierJoulesPerKilogramKelvin, 100, 1_000_000),
            AllowedRiseKelvin = facts.Settings.AllowedRiseKelvin,
            Covered = box.Covered,
        };
        var result = BudgetFacts.Ask(id, name, input.Validate(facts.Text), findings, () => CompartmentHeat.Compute(input, facts.Text));
        findings.AddRange(result?.Findings ?? []);
        return result;
    }

    private static SupportCapacitor? Capacitor(BudgetFacts facts, List<string> helpers, List<Finding> findings)
    {
        double farads = 0, siemens = 0;
        double? volts = null;
        var rated = true;
        foreach (var part in facts.Installed)
        {
            if (part.Data is not CapacitorData data)
            {
                continue;
            }

            if (data is not { Farads: { } each, SeriesMilliohms: { } milliohms })
            {
                findings.Add(new Finding(
                    "capacitor-data-missing", Severity.Warn, part.Id.ToString(), part.Name, "Its capacitance or its series resistance is not known, so it is left out of the peak.", "Enter both on the part.", "needed for the sag of a peak"));
                continue;
            }

            helpers.Add(part.Name);
            farads += each * (double)part.Quantity;
            siemens += 1000 * (double)part.Quantity / milliohms;
            rated &= data.RatedVolts is not null;
            volts = data.RatedVolts is { } stands ? Math.Min(stands, volts ?? stands) : volts;
        }

        // Side by side; with unequal time constants this is close, not exact.
        return farads > 0 ? new SupportCapacitor(farads, 1 / siemens, rated ? volts : null) : null;
    }

    /// <summary>Cables and fuses from the car's battery to a point there and back, Ω; null while one of them is not sized or the car feeds it.</summary>
    private static double? FeedOhms(BudgetFacts facts, string pointId)
    {
        var runs = facts.Plan.Runs.ToDictionary(run => run.Place.RunId);
        double ohms = 0;
        var at = pointId;
        for (var steps = 0; at != FeedSources.Battery; steps++)
        {
            if (steps > runs.Count || !runs.TryGetValue(at, out var run) || run.Sizing is not { } sizing)
            {
                return null;
            }

            ohms += sizing.RatedDrop.ConductorOhms + sizing.RatedDrop.BodyOhms + (sizing.Fuse is null ? 0 : FeedNetworkBuilder.FuseHolderOhms);
            at = run.Place.SourceId;
        }

        return ohms;
    }

    // One the amplifiers hang on stands right there; another reaches them through its own cable.
    private static SupportBattery? SecondBattery(BudgetFacts facts, string pointId, List<string> helpers)
    {
        double siemens = 0, amperes = 0, ampereHours = 0;
        foreach (var part in facts.Installed)
        {
            if (part.Data is not BatteryData data || SecondBatteries.AmpereHoursOf(part, data) is not { } more)
            {
                continue;
            }

            var run = part.Id.ToString() == pointId ? null : facts.Plan.Runs.FirstOrDefault(found => found.Place.PartId == part.Id)?.Sizing;
            var source = SecondBatteries.SourceOf(part, data);
            var ohms = Math.Max(source.InternalOhms + (run?.RatedDrop.ConductorOhms ?? 0) + (run?.RatedDrop.BodyOhms ?? 0), 0.0005);
            siemens += 1 / ohms;
            amperes += source.OpenCircuitVolts / ohms;
            ampereHours += more;
            helpers.Add(part.Name);
        }

        // Sources side by side are one (Millman).
        return siemens > 0 ? new SupportBattery(amperes / siemens, Math.Max(1 / siemens, 0.0005), ampereHours) : null;
    }
}
