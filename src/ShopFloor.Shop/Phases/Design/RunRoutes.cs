using ShopFloor.Engineering.Electrical;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Lays the runs of a plan between their sources and what they feed.</summary>
internal sealed class RunRoutes(
    FeedSources sources, ElectricalSettingsForm settings, IReadOnlyDictionary<string, RunChoiceForm> choices, SizingRules rules, IReadOnlyList<JobPart> installed)
{
    public RunPlace Load(PlanLoads.Consumer consumer) =>
        Place(consumer.Load.Id, consumer.Load.Name, consumer.Part.Id, ElectricalPlanBuilder.MainRunId, consumer.Part.Zone);

    /// <summary>Runs to the points that the given runs start at, and to those before them; the main distribution's first.</summary>
    public IReadOnlyList<RunPlace> PointsOnTheWay(IEnumerable<RunPlace> loads)
    {
        var runs = sources.Points.ToDictionary(point => point.Id, Point);
        var used = new HashSet<string>();
        foreach (var load in loads)
        {
            for (var at = load.SourceId; runs.TryGetValue(at, out var run) && used.Add(at);)
            {
                at = run.SourceId;
            }
        }

        return [.. sources.Points.Where(point => used.Contains(point.Id)).Select(point => runs[point.Id])];
    }

    public RunData Run(RunPlace place)
    {
        var source = sources.Find(place.SourceId);
        var throughBody = ReturnsThroughBody(place.SourceId, place.Choice);
        // Where the runs before it come back through the body already, the body is counted there and not twice.
        var countedBefore = throughBody && BodyCountedBefore(place.SourceId);
        var fuseAtSource = source?.Kind == FeedPointKind.Distribution && settings.BranchFusesAtDistribution;
        return new RunData
        {
            LengthMeters = place.LengthMeters,
            ReturnPath = throughBody ? ReturnPath.VehicleBody : ReturnPath.DedicatedConductor,
            BodyReturnOhms = !throughBody ? null : countedBefore ? 0 : settings.BodyMilliohms / 1000,
            TerminationOhms = (place.Choice.TerminationMilliohms ?? 0) / 1000,
            InsulationCelsius = place.Choice.InsulationCelsius ?? settings.InsulationCelsius,
            AmbientCelsius = place.Choice.AmbientCelsius ?? settings.CabinCelsius,
            EngineSpace = place.Choice.EngineSpace ?? (place.To.Length > 0 && VehicleZones.PassesEngineSpace(place.From, place.To)),
            BundledConductors = Bundled(place.Choice),
            SheathedWholeWay = place.Choice.SheathedToFuse || place.Choice.Lies == RunLay.Sheathed,
            CopperClad = IsClad(place.Choice),
            Fitted = installed.Where(part => part.PlanRunId == place.RunId).Select(part => part.Data).OfType<FuseData>().Select(PlanShelf.FittedOf).FirstOrDefault(fuse => fuse is not null),
            SourceToFuseMeters = place.Choice.FuseDistanceMeters ?? (fuseAtSource ? 0 : null),
            ForcedSize = SizeOf(place.Choice),
            ForcedFuseAmperes = place.Choice.FuseAmperes,
        };
    }

    /// <summary>The size chosen by hand as the run's table writes it; null when none was chosen or the table has no such size.</summary>
    public string? SizeOf(RunChoiceForm choice) => ElectricalPlanBuilder.SizeLabel(TableOf(choice), choice.Awg);

    /// <summary>The table the sizes of a run come from.</summary>
    public AmpacityTable TableOf(RunChoiceForm choice) => rules.For(new RunData { CopperClad = IsClad(choice) }).Table;

    private bool IsClad(RunChoiceForm choice) => (choice.Metal ?? settings.Metal) == CableMetal.CopperCladAluminium && rules.CopperClad is not null;

    private int Bundled(RunChoiceForm choice) => choice.Lies switch
    {
        RunLay.Open => 1,
        RunLay.Sheathed or RunLay.Bundled => choice.BundledConductors ?? 1,
        _ => choice.BundledConductors ?? settings.BundledConductors,
    };

    /// <summary>
    /// Whether a run comes back through the body: as decided on the run, else as the plan assumes for what starts at the battery. A run
    /// from a point usually has a return of its own to that point.
    /// </summary>
    private bool ReturnsThroughBody(string sourceId, RunChoiceForm choice) =>
        (choice.Return ?? (sources.Find(sourceId) is null ? settings.Return : ReturnPath.DedicatedConductor)) == ReturnPath.VehicleBody;

    private bool BodyCountedBefore(string sourceId)
    {
        var seen = new HashSet<string>();
        while (sources.Find(sourceId) is { } point && seen.Add(sourceId))
        {
            var run = Point(point);
            if (ReturnsThroughBody(run.SourceId, run.Choice))
            {
                return true;
            }

            sourceId = run.SourceId;
        }

        return false;
    }

    private RunPlace Point(FeedSource point)
    {
        var usual = point.Id == ElectricalPlanBuilder.MainRunId || point.Kind == FeedPointKind.Battery ? FeedSources.Battery : ElectricalPlanBuilder.MainRunId;
        return Place(point.Id, point.Name, point.PartId, usual, point.Zone);
    }

    private RunPlace Place(string id, string name, Guid? partId, string usual, string to)
    {
        var choice = choices.GetValueOrDefault(id) ?? new RunChoiceForm();
        var source = sources.Resolve(choice.From, usual);
        var from = sources.ZoneOf(source);
        return new RunPlace(
            id,
            name,
            partId,
            source,
            from,
            to,
            choice.LengthMeters ?? (from.Length > 0 && to.Length > 0 ? VehicleZones.SuggestedRunMeters(from, to) : null),
            choice.LengthMeters is not null,
            choice);
    }
}
