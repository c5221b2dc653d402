using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Conductors;
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
    /// <summary>Identifier of the run from the car's battery to the distribution most loads hang on.</summary>
    public const string MainRunId = "main-run";

    /// <summary>Where the run is a suggestion, its length comes from <see cref="VehicleZones.SuggestedRunMeters"/>.</summary>
    public static PlanBasis Build(
        IReadOnlyList<JobPart> parts, Vehicle vehicle, ElectricalSettingsForm settings, IReadOnlyDictionary<string, RunChoiceForm> choices, PlanShelf? shelf = null,
        BudgetSettingsForm? budget = null)
    {
        var installed = parts.Where(part => part.Direction == PartDirection.Installed).ToList();
        var sources = FeedSources.Of(installed, vehicle, settings);
        var findings = new List<Finding>();
        var rules = PlanTables.Rules(settings, shelf ?? PlanShelf.Empty, findings);
        var routes = new RunRoutes(sources, settings, choices, rules, installed);
        var loads = new List<ElectricalLoad>();
        var runs = new List<RunPlace>();
        foreach (var consumer in PlanLoads.Of(installed, settings, findings))
        {
            var place = routes.Load(consumer);
            runs.Add(place);
            if (place.IsFedByTheCar)
            {
                findings.Add(FedByTheCar(consumer));
                continue;
            }

            loads.Add(consumer.Load with { FedFrom = PointOf(place.SourceId), Branch = routes.Run(place), MaxDropPercent = place.Choice.MaxDropPercent });
        }

        var used = routes.PointsOnTheWay(runs);
        runs.InsertRange(0, used);
        AddUnusedBatteries(installed, used, findings);
        findings.AddRange(runs.Where(run => run.Choice.From.Length > 0 && run.Choice.From != run.SourceId).Select(SourceGone));
        findings.AddRange(runs.Where(run => !string.IsNullOrWhiteSpace(run.Choice.Awg) && routes.SizeOf(run.Choice) is null).Select(run => SizeGone(run, routes.TableOf(run.Choice))));
        AddLengthFinding(runs, findings);
        var input = loads.Count == 0 ? null : new ElectricalPlanInput
        {
            SupplyVolts = settings.SupplyVolts,
            Points = [.. used.Select(place => new FeedPoint
            {
                Id = place.RunId,
                Name = place.Name,
                Kind = sources.Find(place.RunId)!.Kind, // a run to a point has its source
                FedFrom = PointOf(place.SourceId),
                Run = routes.Run(place),
                Battery = installed.Find(part => part.Id == place.PartId) is { Data: BatteryData data } second ? SecondBatteries.SourceOf(second, data) : null,
            })],
            Loads = loads,
            Alternator = AlternatorSource.DataOf(vehicle, budget ?? new BudgetSettingsForm(), settings),
            Battery = new BatterySource(
                settings.BatteryRestVolts ?? FeedNetworkBuilder.DefaultRestVolts, settings.BatteryMilliohms / 1000 ?? FeedNetworkBuilder.DefaultBatteryOhms),
            HybridOrElectric = vehicle.DriveType.IsHighVoltage(),
            Rules = rules,
        };
        return new PlanBasis(input, runs, findings, sources, rules);
    }

    /// <summary>The size as the table writes it, for example "4 AWG" for "4" and "1/0 AWG" for "0"; null when the table has no such size.</summary>
    public static string? SizeLabel(AmpacityTable table, string? typed)
    {
        ArgumentNullException.ThrowIfNull(table);
        if (string.IsNullOrWhiteSpace(typed))
        {
            return null;
        }

        return table.Row(typed.Trim())?.Conductor.Label
            ?? (WireGauge.TryParse(typed, out var gauge)
                ? table.Rows.Select(row => row.Conductor).FirstOrDefault(size => size.SizeSystem == SizeSystem.Awg && (size.Label + " ").StartsWith(WireGauge.Label(gauge) + " ", StringComparison.Ordinal))?.Label
                : null);
    }

    internal const string SizeGoneCode = "size-not-in-table";

    private static Finding SizeGone(RunPlace run, AmpacityTable table) => new(
        SizeGoneCode,
        Severity.Warn,
        run.RunId,
        run.Name,
        $"'{run.Choice.Awg}' is no size of the table; accepted are {string.Join(", ", table.Rows.Select(row => row.Conductor.Label))}. The plan chooses.",
        "Choose a size of the table, or let the plan choose.",
        table.Name);

    private static Finding SourceGone(RunPlace run) => new(
        "source-gone",
        Severity.Warn,
        run.RunId,
        run.Name,
        "What it was to take its current from is no longer on the parts list; it is planned from where such parts usually are fed.",
        "Choose again what it takes its current from.",
        "the parts list");

    private static string? PointOf(string sourceId) => sourceId == FeedSources.Battery ? null : sourceId;

    private static void AddUnusedBatteries(List<JobPart> installed, IReadOnlyList<RunPlace> used, List<Finding> findings)
    {
        findings.AddRange(
            from part in installed
            where part.Kind == PartKind.Battery && used.All(place => place.PartId != part.Id)
            select new Finding(
                "battery-feed-not-planned",
                Severity.Warn,
                part.Id.ToString(),
                part.Name,
                "Nothing in the plan takes its current from it, so its cable is not sized.",
                "Say on a run that it takes its current from this battery. Fuse the cable between batteries at both ends, and follow the makers of battery and vehicle.",
                "33 CFR 183.460(a) for batteries in boats; common practice in vehicles"));
    }

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
                Unsourced.CommonPractice));
        }
    }
}

/// <summary>What the calculation gets, and where its runs lie.</summary>
/// <param name="Input">Null when no part takes current from the plan.</param>
/// <param name="Runs">Runs to points first, then those to loads.</param>
/// <param name="Findings">What the parts list lacks for the plan.</param>
/// <param name="Sources">What a run may take its current from.</param>
/// <param name="Rules">Tables, sizes and fuses the plan works with.</param>
public sealed record PlanBasis(ElectricalPlanInput? Input, IReadOnlyList<RunPlace> Runs, IReadOnlyList<Finding> Findings, FeedSources Sources, SizingRules Rules);

/// <summary>Where a run lies and what somebody decided about it.</summary>
/// <param name="PartId">The part it feeds; null when the distribution it feeds is not on the parts list.</param>
/// <param name="SourceId">What it takes its current from: a source of <see cref="FeedSources"/>.</param>
/// <param name="From">Zone it starts in; empty when the car's own circuit feeds the part.</param>
/// <param name="To">Zone it ends in; empty when the part's place is not set.</param>
/// <param name="LengthMeters">One way, m; null when neither measured nor to be suggested.</param>
/// <param name="LengthMeasured">Whether somebody measured it.</param>
public sealed record RunPlace(
    string RunId, string Name, Guid? PartId, string SourceId, string From, string To, double? LengthMeters, bool LengthMeasured, RunChoiceForm Choice)
{
    /// <summary>A circuit of the car feeds it, so it has no cable and no fuse of ours.</summary>
    public bool IsFedByTheCar => SourceId == FeedSources.VehicleCircuit;
}
