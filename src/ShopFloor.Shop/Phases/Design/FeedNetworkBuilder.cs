using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Fusing;
using ShopFloor.Engineering.Electrical.Network;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>
/// Lays the plan of a job out as a network: the car's battery and alternator, each run with its fuse, conductor and return, each load. The
/// sizes are those the plan settled on, so what is solved is what will be built.
/// </summary>
public static class FeedNetworkBuilder
{
    public const string GroundId = "ground";
    public const string BatteryId = "car-battery";
    public const string AlternatorId = "car-alternator";
    public const string BaseLoadId = "car-loads";

    /// <summary>A rested full lead-acid battery, V: BCI open-circuit table.</summary>
    public const double DefaultRestVolts = 12.65;

    /// <summary>Inside resistance of a healthy starting battery, Ω. From memory; a battery tester shows it.</summary>
    public const double DefaultBatteryOhms = 0.006;

    // Ω: what a charged lead-acid battery lets in: some 10 A at 1.2 V above rest. From memory.
    private const double ChargingOhms = 0.1;

    // Ω: a strip of metal and two contacts. From memory; makers give a few millivolts at rated current.
    internal const double FuseHolderOhms = 0.0005;

    // Ignition on, engine off, for listening. From memory; measure it.
    internal const double EngineOffBaseAmperes = 5;

    /// <returns>Null while no run is sized.</returns>
    public static FeedNetwork? Of(ElectricalPlanView plan, Vehicle vehicle, IReadOnlyList<JobPart> parts)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var sized = plan.Runs.Where(run => run.Sizing is not null).ToList();
        if (plan.Input is not { } input || sized.Count == 0)
        {
            return null;
        }

        List<FeedNode> nodes = [new(GroundId, "Battery, negative post"), new(FeedSources.Battery, "Battery, positive post")];
        List<FeedElement> elements =
        [
            new Battery
            {
                Id = BatteryId,
                Name = "The car's battery",
                From = GroundId,
                To = FeedSources.Battery,
                OpenCircuitVolts = plan.Settings.BatteryRestVolts ?? DefaultRestVolts,
                InternalOhms = plan.Settings.BatteryMilliohms / 1000 ?? DefaultBatteryOhms,
                ChargingOhms = ChargingOhms,
                CapacityAmpereHours = vehicle.BatteryAmpereHours,
            },
            new VehicleBaseLoad
            {
                Id = BaseLoadId,
                Name = "The car itself",
                From = FeedSources.Battery,
                To = GroundId,
                EngineOffAmperes = EngineOffBaseAmperes,
                EngineRunningAmperes = plan.Settings.BaseLoadAmperes ?? ElectricalDefaults.VehicleBaseAmperes,
            },
        ];
        if (input.Alternator?.Output is { } output)
        {
            elements.Add(new Alternator
            {
                Id = AlternatorId,
                Name = "Alternator",
                From = GroundId,
                To = FeedSources.Battery,
                SetPointVolts = plan.Settings.SupplyVolts,
                OutputCurve = output.HotCurve,
                OutputOrigin = output.Origin,
                PulleyRatio = output.PulleyRatio,
            });
        }

        foreach (var run in sized)
        {
            AddRun(run, plan, nodes, elements);
            if (run.Load is { } load)
            {
                elements.Add(LoadOf(run, load));
            }
            else if (parts.FirstOrDefault(part => part.Id == run.Place.PartId) is { Data: BatteryData data } second)
            {
                var source = SecondBatteries.SourceOf(second, data);
                elements.Add(new Battery
                {
                    Id = $"battery:{second.Id}",
                    Name = second.Name,
                    From = Negative(run.Place.RunId),
                    To = run.Place.RunId,
                    OpenCircuitVolts = source.OpenCircuitVolts,
                    InternalOhms = source.InternalOhms,
                    ChargingOhms = ChargingOhms / (double)second.Quantity,
                    CapacityAmpereHours = SecondBatteries.AmpereHoursOf(second, data),
                });
            }
        }

        AddCapacitors(parts, nodes, elements);
        return new FeedNetwork { Nodes = nodes, Elements = elements, ReferenceNodeId = GroundId };
    }

    // Across the main distribution, or the battery while there is none; it carries no steady current.
    private static void AddCapacitors(IReadOnlyList<JobPart> parts, List<FeedNode> nodes, List<FeedElement> elements)
    {
        var at = nodes.Exists(node => node.Id == ElectricalPlanBuilder.MainRunId) ? ElectricalPlanBuilder.MainRunId : FeedSources.Battery;
        foreach (var part in parts.Where(part => part.Direction == PartDirection.Installed))
        {
            if (part.Data is CapacitorData { Farads: { } farads })
            {
                elements.Add(new FeedCapacitor { Id = $"capacitor:{part.Id}", Name = part.Name, From = at, To = Negative(at), Farads = farads * (double)part.Quantity });
            }
        }
    }

    /// <summary>Latest opening time of the plan's fuses by the band of their form; null for a form without one.</summary>
    public static FuseClearing Clearing(ElectricalPlanView plan)
    {
        var curves = plan.Runs.Where(run => run.Sizing?.Fuse is not null).ToDictionary(run => FuseId(run.Place.RunId), run => CurveOf(run.Sizing!.Fuse!.Form)); // the filter left only fused runs
        return (fuse, amperes) => curves.GetValueOrDefault(fuse.Id)?.MaxSeconds(100 * amperes / fuse.RatedAmperes!.Value) is { } seconds && double.IsFinite(seconds) ? seconds : null;
    }

    internal static FuseCurve? CurveOf(FuseForm? form) => form switch
    {
        FuseForm.Blade or FuseForm.MiniBlade => FuseCurves.Blade,
        FuseForm.HighCurrentBlade => FuseCurves.HighCurrentBlade,
        // No band of the strip's own is known here; that of the bolt-in forms stands for it, from memory.
        FuseForm.BoltInSmall or FuseForm.BoltInLarge or FuseForm.Strip => FuseCurves.BoltIn,
        _ => null,
    };

    public static string FuseId(string runId) => $"fuse:{runId}";

    public static string ConductorId(string runId) => $"feed:{runId}";

    private static string Negative(string nodeId) => nodeId == FeedSources.Battery ? GroundId : $"return:{nodeId}";

    private static void AddRun(PlanRun run, ElectricalPlanView plan, List<FeedNode> nodes, List<FeedElement> elements)
    {
        var sizing = run.Sizing!; // the caller takes sized runs only
        var (id, source) = (run.Place.RunId, run.Place.SourceId);
        nodes.Add(new FeedNode(id, $"{run.Place.Name}, feed"));
        nodes.Add(new FeedNode(Negative(id), $"{run.Place.Name}, return"));
        var start = source;
        if (sizing.Fuse is { } fuse)
        {
            start = $"after-fuse:{id}";
            nodes.Add(new FeedNode(start, $"{run.Place.Name}, after the fuse"));
            elements.Add(new FuseElement
            {
                Id = FuseId(id),
                Name = $"Fuse of {run.Place.Name}",
                From = source,
                To = start,
                Ohms = FuseHolderOhms,
                RatedAmperes = fuse.RatingAmperes,
                InterruptAmperes = fuse.InterruptAmperes,
                InterruptIsFromMemory = fuse.InterruptIsFromMemory,
            });
        }

        var end = id;
        if (run.Place.Choice.TerminationMilliohms is > 0 and var milliohms)
        {
            end = $"before-ends:{id}";
            nodes.Add(new FeedNode(end, $"{run.Place.Name}, end of the conductor"));
            elements.Add(new LumpedResistance { Id = $"ends:{id}", Name = $"Terminations of {run.Place.Name}", From = end, To = id, Ohms = milliohms / 1000 });
        }

        elements.Add(ConductorOf(run, sizing, plan, ConductorId(id), run.Place.Name, start, end));
        if (sizing.ReturnPath == ReturnPath.DedicatedConductor)
        {
            elements.Add(ConductorOf(run, sizing, plan, $"back:{id}", $"{run.Place.Name}, return", Negative(id), Negative(source)));
        }
        else
        {
            elements.Add(new LumpedResistance
            {
                Id = $"body:{id}",
                Name = $"Body return of {run.Place.Name}",
                From = Negative(id),
                To = GroundId,
                Ohms = plan.Settings.BodyMilliohms / 1000 ?? ElectricalDefaults.BodyReturnOhms,
            });
        }
    }

    private static Conductor ConductorOf(PlanRun run, RunSizingResult sizing, ElectricalPlanView plan, string id, string name, string from, string to) => new()
    {
        Id = id,
        Name = name,
        From = from,
        To = to,
        Material = sizing.Conductor.Material.IsCopperClad ? ConductorMetal.CopperCladAluminium10 : ConductorMetal.Copper,
        // A metric size goes in by its published resistance.
        AreaSquareMillimeters = sizing.Conductor.Material.IsCopperClad ? sizing.Conductor.AreaSquareMillimeters : sizing.Conductor.EquivalentCopperSquareMillimeters,
        LengthMeters = sizing.LengthMeters,
        AmbientCelsius = sizing.AmbientCelsius,
        TableAmbientCelsius = plan.Rules.Table.AmbientCelsius,
        InsulationCelsius = sizing.TableColumnCelsius,
        // The table's current with bundling, at the table's own ambient: the heating law brings the real ambient in.
        TableAmperes = sizing.TableAmperes * sizing.BundlingFactor,
    };

    private static FeedElement LoadOf(PlanRun run, PlannedLoad load)
    {
        var (id, name) = ($"load:{load.LoadId}", load.Name);
        return load.Amplifier is not null
            ? new ConstantPowerLoad
            {
                Id = id, Name = name, From = run.Place.RunId, To = Negative(run.Place.RunId),
                IdleWatts = load.Idle?.SupplyWatts ?? 0, MusicWatts = load.Music?.SupplyWatts ?? 0, FullWatts = load.Rated?.SupplyWatts ?? 0,
            }
            : new ConstantCurrentLoad
            {
                Id = id, Name = name, From = run.Place.RunId, To = Negative(run.Place.RunId),
                IdleAmperes = load.Idle?.Amperes ?? 0, MusicAmperes = load.Music?.Amperes ?? 0, FullAmperes = load.Rated?.Amperes ?? 0,
            };
    }
}
