using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>The added supply network as a tree: battery, runs to points, and runs from there, or from the battery, to loads.</summary>
public sealed record ElectricalPlanInput
{
    /// <summary>Voltage at the battery, V (6 to 49.9).</summary>
    public double SupplyVolts { get; init; } = ElectricalDefaults.SupplyVolts;

    /// <summary>The points loads are fed from (0 to 100), in any order; none when every load is at the battery.</summary>
    public IReadOnlyList<FeedPoint> Points { get; init; } = [];

    /// <summary>The loads (1 to 200).</summary>
    public required IReadOnlyList<ElectricalLoad> Loads { get; init; }

    /// <summary>The vehicle's battery as a source of short-circuit current; null leaves the forms of the fuses unchecked.</summary>
    public BatterySource? Battery { get; init; }

    /// <summary>The charging system, or null when not known.</summary>
    public AlternatorData? Alternator { get; init; }

    /// <summary>Whether the vehicle has a high-voltage system.</summary>
    public bool HybridOrElectric { get; init; }

    /// <summary>Tables and rules.</summary>
    public SizingRules Rules { get; init; } = new();

    /// <summary>
    /// What is wrong with the input, field by field; empty when the plan can be computed. Data that are merely missing are no problem
    /// here: they become findings.
    /// </summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        text ??= UnitText.Invariant;
        var checks = new InputChecks(text);
        checks.InRange(nameof(SupplyVolts), "Supply voltage", SupplyVolts, 6, 49.9, QuantityKind.Voltage);
        if (Loads.Count is < 1 or > 200)
            checks.Add(nameof(Loads), $"Loads: {Loads.Count} are entered; enter 1 to 200.");
        checks.AddRange(Rules.Validate(text).Select(p => p with { Field = $"{nameof(Rules)}.{p.Field}" }));
        if (Points.Count > 100)
            checks.Add(nameof(Points), $"Points: {Points.Count} are entered; enter up to 100.");
        for (var i = 0; i < Points.Count; i++)
            CheckPoint(checks, $"{nameof(Points)}[{i}]", Points[i], text);
        for (var i = 0; i < Loads.Count; i++)
            CheckLoad(checks, $"{nameof(Loads)}[{i}]", Loads[i], text);
        foreach (var id in Points.Select(p => p.Id).Concat(Loads.Select(l => l.Id)).GroupBy(id => id).Where(g => g.Count() > 1).Select(g => g.Key))
            checks.Add(nameof(Loads), $"Points and loads: the identifier \u201c{id}\u201d is used more than once; each must be its own.");
        CheckAlternator(checks);
        CheckBattery(checks, nameof(Battery), "The vehicle's battery", Battery);
        return checks.Problems;
    }

    private void CheckPoint(InputChecks checks, string path, FeedPoint point, UnitText text)
    {
        checks.Named($"{path}.{nameof(point.Id)}", "Point identifier", point.Id);
        checks.Named($"{path}.{nameof(point.Name)}", "Point name", point.Name);
        checks.Known($"{path}.{nameof(point.Kind)}", $"{point.Name}, kind", point.Kind);
        checks.InRange($"{path}.{nameof(point.DemandFactor)}", $"{point.Name}, share of the summed currents", point.DemandFactor, 0.3, 1);
        checks.AddRange(point.Run.Validate(point.Name, Rules.For(point.Run).Table, text).Select(p => p with { Field = $"{path}.{nameof(point.Run)}.{p.Field}" }));
        CheckBattery(checks, $"{path}.{nameof(point.Battery)}", point.Name, point.Battery);
        Rules.CheckMetal(checks, $"{path}.{nameof(point.Run)}", point.Name, point.Run);
        if (CheckFedFrom(checks, $"{path}.{nameof(point.FedFrom)}", point.Name, point.FedFrom) && IsInCircle(point))
            checks.Add($"{path}.{nameof(point.FedFrom)}", $"{point.Name}: it is fed from itself by way of \u201c{point.FedFrom}\u201d; every way must start at the battery.");
    }

    private bool CheckFedFrom(InputChecks checks, string field, string name, string? from)
    {
        if (from is null || Points.Any(p => p.Id == from))
            return true;
        var known = Points.Count == 0 ? "there is no point; leave it out for the battery" : $"use one of {string.Join(", ", Points.Select(p => p.Id))}, or leave it out for the battery";
        checks.Add(field, $"{name}, fed from: \u201c{from}\u201d is no point; {known}.");
        return false;
    }

    private bool IsInCircle(FeedPoint point)
    {
        var at = point;
        for (var steps = 0; at?.FedFrom is { } from; steps++)
        {
            if (steps > Points.Count)
                return true;
            at = Points.FirstOrDefault(p => p.Id == from);
        }

        return false;
    }

    private void CheckLoad(InputChecks checks, string path, ElectricalLoad load, UnitText text)
    {
        checks.Named($"{path}.{nameof(load.Id)}", "Load identifier", load.Id);
        checks.Named($"{path}.{nameof(load.Name)}", "Load name", load.Name);
        checks.Known($"{path}.{nameof(load.Kind)}", $"{load.Name}, kind", load.Kind);
        CheckFedFrom(checks, $"{path}.{nameof(load.FedFrom)}", load.Name, load.FedFrom);
        checks.InRange($"{path}.{nameof(load.MakerFuseAmperes)}", $"{load.Name}, maker's fuse", load.MakerFuseAmperes, 0.5, 1000, QuantityKind.Current);
        checks.AddRange(load.Branch.Validate($"{load.Name}, branch", Rules.For(load.Branch).Table, text)
            .Select(p => p with { Field = $"{path}.{nameof(load.Branch)}.{p.Field}" }));
        checks.InRange($"{path}.{nameof(load.MaxDropPercent)}", $"{load.Name}, voltage drop allowed in percent", load.MaxDropPercent, 0.1, 20);
        Rules.CheckMetal(checks, $"{path}.{nameof(load.Branch)}", $"{load.Name}, branch", load.Branch);
        if (load is { Kind: LoadKind.Amplifier, Amplifier: { } amplifier })
        {
            // Missing power or class becomes a finding; the ranges of what was entered are those of the amplifier input.
            var probe = LoadCurrents.AmplifierInput(load.Name, amplifier, SupplyVolts) with
            {
                RatedOutputWatts = amplifier.RatedOutputWatts ?? 1,
                Class = amplifier.Class ?? AmplifierClass.AB,
            };
            checks.AddRange(probe.Validate(text)
                .Where(p => p.Field != nameof(SupplyVolts))
                .Select(p => p with { Field = $"{path}.{nameof(load.Amplifier)}.{p.Field}" }));
        }

        if (load is { Kind: LoadKind.Fixed, Fixed: { } currents })
        {
            var at = $"{path}.{nameof(load.Fixed)}.";
            var most = currents.RatedAmperes is > 0 and <= 2000 ? currents.RatedAmperes.Value : 2000;
            checks.InRange(at + nameof(currents.RatedAmperes), $"{load.Name}, rated current", currents.RatedAmperes, 0.001, 2000, QuantityKind.Current);
            checks.InRange(at + nameof(currents.MusicAmperes), $"{load.Name}, current on music", currents.MusicAmperes, 0, most, QuantityKind.Current);
            checks.InRange(at + nameof(currents.IdleAmperes), $"{load.Name}, current at idle", currents.IdleAmperes, 0, most, QuantityKind.Current);
        }
    }

    private static void CheckBattery(InputChecks checks, string field, string name, BatterySource? battery)
    {
        checks.InRange($"{field}.{nameof(BatterySource.OpenCircuitVolts)}", $"{name}, voltage without load", battery?.OpenCircuitVolts, 6, 60, QuantityKind.Voltage);
        checks.InRange($"{field}.{nameof(BatterySource.InternalOhms)}", $"{name}, internal resistance in ohms", battery?.InternalOhms, 0.0001, 1);
    }

    private void CheckAlternator(InputChecks checks)
    {
        if (Alternator is not { } alternator)
            return;
        const string At = nameof(Alternator) + ".";
        checks.InRange(At + nameof(alternator.RatedAmperes), "Alternator, rated output", alternator.RatedAmperes, 10, 1000, QuantityKind.Current);
        checks.InRange(At + nameof(alternator.IdleFraction), "Alternator, share at idle", alternator.IdleFraction, 0.1, 1);
        checks.InRange(At + nameof(alternator.HotFraction), "Alternator, hot share at cruise", alternator.HotFraction, 0.1, 1);
        if (alternator.Output is { } output)
            CheckOutput(checks, output, $"{At}{nameof(alternator.Output)}.");
        checks.InRange(At + nameof(alternator.VehicleBaseAmperes), "Alternator, what the vehicle draws", alternator.VehicleBaseAmperes, 0, 500, QuantityKind.Current);
    }

    private static void CheckOutput(InputChecks checks, AlternatorOutput output, string at)
    {
        AlternatorChecks.Speeds(checks, at, output.PulleyRatio, output.IdleEngineRpm, output.CruiseEngineRpm);
        // Made of engine speeds and pulley ratio where nothing was measured, so from 300 · 1 to 8000 · 5.
        if (output.HotCurve is { Count: > 0 } curve)
            AlternatorChecks.Curve(checks, at + nameof(output.HotCurve), curve, 300, 40_000);
        else
            checks.Add(at + nameof(output.HotCurve), "Output of the alternator: it has no points; enter at least one.");
    }
}
