using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>
/// The one seam between the parts list and the electrical calculation: which parts are loads, where their runs go and how long
/// they are. Everything it needs is handed in, so the same parts give the same plan.
/// </summary>
public static class ElectricalPlanBuilder
{
    /// <summary>Where the run is a suggestion, its length comes from <see cref="VehicleZones.SuggestedRunMeters"/>.</summary>
    public static PlanBasis Build(
        IReadOnlyList<JobPart> parts, Vehicle vehicle, ElectricalSettingsForm settings, IReadOnlyDictionary<string, RunChoiceForm> choices)
    {
        var installed = parts.Where(part => part.Direction == PartDirection.Installed).ToList();
        var distribution = installed.Find(part => part.Kind == PartKind.Distribution && part.Zone.Length > 0);
        var at = new Places(vehicle.BatteryZone, distribution?.Zone ?? settings.DistributionZone, settings, choices);
        var findings = new List<Finding>();
        var loads = new List<ElectricalLoad>();
        var runs = new List<RunPlace>();
        foreach (var consumer in PlanLoads.Of(installed, settings, findings))
        {
            var choice = choices.GetValueOrDefault(consumer.Load.Id) ?? new RunChoiceForm();
            if (choice.Feed == RunFeed.VehicleCircuit)
            {
                runs.Add(new RunPlace(consumer.Load.Id, consumer.Load.Name, consumer.Part.Id, "", consumer.Part.Zone, null, false, choice));
                findings.Add(FedByTheCar(consumer));
                continue;
            }

            var place = at.Branch(consumer, choice);
            runs.Add(place);
            loads.Add(consumer.Load with
            {
                ConnectedTo = choice.Feed == RunFeed.Battery ? LoadConnection.Battery : LoadConnection.Distribution,
                Branch = at.Run(place, fuseAtSource: choice.Feed == RunFeed.Distribution && settings.BranchFusesAtDistribution),
            });
        }

        var main = at.Main();
        if (loads.Exists(load => load.ConnectedTo == LoadConnection.Distribution))
        {
            runs.Insert(0, main);
        }

        AddLengthFinding(runs, findings);
        var input = loads.Count == 0 ? null : new ElectricalPlanInput
        {
            SupplyVolts = settings.SupplyVolts,
            Main = at.Run(main, fuseAtSource: false),
            Loads = loads,
            Alternator = vehicle.AlternatorAmperes is { } amperes
                ? new AlternatorData { RatedAmperes = amperes, VehicleBaseAmperes = settings.BaseLoadAmperes }
                : null,
            HybridOrElectric = vehicle.DriveType.IsHighVoltage(),
            Rules = new SizingRules { MaxDropPercent = settings.MaxDropPercent, DropBasis = DropBasis.MusicCurrent, ContinuousLoading = settings.LoadingPercent / 100 },
        };
        return new PlanBasis(input, runs, findings, distribution?.Id);
    }

    /// <summary>The size as the table writes it, for example "4 AWG" for "4" and "1/0 AWG" for "0"; null when the table has no such size.</summary>
    public static string? SizeLabel(string? typed) =>
        WireGauge.TryParse(typed, out var gauge) && PublishedTables.Cfr33Part183425.Row(WireGauge.Label(gauge)) is { } row ? row.Conductor.Label : null;

    private static Finding FedByTheCar(PlanLoads.Consumer consumer) => new(
        "fed-by-the-car",
        Severity.Note,
        consumer.Load.Id,
        consumer.Load.Name,
        "Takes its current from a circuit of the car and is not in this plan's sums.",
        "Check that circuit's fuse and what else hangs on it; do not fit a larger fuse.",
        "the vehicle maker's instructions");

    private static void AddLengthFinding(List<RunPlace> runs, List<Finding> findings)
    {
        var suggested = runs.Where(run => run is { LengthMeters: not null, LengthMeasured: false }).Select(run => run.Name).ToList();
        if (suggested.Count > 0)
        {
            findings.Add(new Finding(
                "run-length-suggested",
                Severity.Warn,
                "run-lengths",
                "Lengths of the runs",
                $"Suggested by place, not measured: {string.Join(", ", suggested)}.",
                "Measure each route along the way the cable will take and enter it.",
                ElectricalDefaults.CommonPractice));
        }
    }

    private sealed class Places(
        string battery, string distribution, ElectricalSettingsForm settings, IReadOnlyDictionary<string, RunChoiceForm> choices)
    {
        public RunPlace Main()
        {
            var choice = choices.GetValueOrDefault(ElectricalPlan.MainRunId) ?? new RunChoiceForm();
            return Place(ElectricalPlan.MainRunId, "Main run", null, battery, distribution, choice);
        }

        public RunPlace Branch(PlanLoads.Consumer consumer, RunChoiceForm choice) => Place(
            consumer.Load.Id, consumer.Load.Name, consumer.Part.Id, choice.Feed == RunFeed.Battery ? battery : distribution, consumer.Part.Zone, choice);

        public RunData Run(RunPlace place, bool fuseAtSource)
        {
            // A branch from the distribution has a return of its own to the common point; only what reaches back
            // to the battery goes through the body, so the body is counted once.
            var throughBody = settings.Return == ReturnPath.VehicleBody && place.From == battery;
            return new RunData
            {
                LengthMeters = place.LengthMeters,
                ReturnPath = throughBody ? ReturnPath.VehicleBody : ReturnPath.DedicatedConductor,
                BodyReturnOhms = throughBody ? settings.BodyMilliohms / 1000 : null,
                InsulationCelsius = settings.InsulationCelsius,
                AmbientCelsius = settings.CabinCelsius,
                EngineSpace = place.To.Length > 0 && VehicleZones.PassesEngineSpace(place.From, place.To),
                BundledConductors = place.Choice.BundledConductors ?? settings.BundledConductors,
                SheathedWholeWay = place.Choice.SheathedToFuse,
                SourceToFuseMeters = place.Choice.FuseDistanceMeters ?? (fuseAtSource ? 0 : null),
                ForcedSize = SizeLabel(place.Choice.Awg),
                ForcedFuseAmperes = place.Choice.FuseAmperes,
            };
        }

        private static RunPlace Place(string id, string name, Guid? partId, string from, string to, RunChoiceForm choice) => new(
            id,
            name,
            partId,
            from,
            to,
            choice.LengthMeters ?? (to.Length > 0 ? VehicleZones.SuggestedRunMeters(from, to) : null),
            choice.LengthMeters is not null,
            choice);
    }
}

/// <summary>What the calculation gets, and where its runs lie.</summary>
/// <param name="Input">Null when no part takes current from the plan.</param>
/// <param name="Runs">The main run first, when there is one.</param>
/// <param name="Findings">What the parts list lacks for the plan.</param>
/// <param name="DistributionPartId">The part whose place is the distribution's, or null when the settings say it.</param>
public sealed record PlanBasis(ElectricalPlanInput? Input, IReadOnlyList<RunPlace> Runs, IReadOnlyList<Finding> Findings, Guid? DistributionPartId);

/// <summary>Where a run lies and what somebody decided about it.</summary>
/// <param name="PartId">The part it feeds; null for the main run.</param>
/// <param name="From">Zone it starts in; empty when the car's own circuit feeds the part.</param>
/// <param name="To">Zone it ends in; empty when the part's place is not set.</param>
/// <param name="LengthMeters">One way, m; null when neither measured nor to be suggested.</param>
/// <param name="LengthMeasured">Whether somebody measured it.</param>
public sealed record RunPlace(
    string RunId, string Name, Guid? PartId, string From, string To, double? LengthMeters, bool LengthMeasured, RunChoiceForm Choice);
