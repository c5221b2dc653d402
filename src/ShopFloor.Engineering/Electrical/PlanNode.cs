namespace ShopFloor.Engineering.Electrical;

/// <summary>A point or a load in the tree being planned, with the run that feeds it.</summary>
internal sealed class PlanNode
{
    private readonly List<PlanNode> _children = [];

    private PlanNode(string id, string name, FeedPoint? point, LoadCurrents? load)
    {
        Id = id;
        Name = name;
        Point = point;
        Load = load;
    }

    public string Id { get; }

    public string Name { get; }

    /// <summary>Set for a point.</summary>
    public FeedPoint? Point { get; }

    /// <summary>Set for a load.</summary>
    public LoadCurrents? Load { get; }

    /// <summary>Null when the vehicle's battery feeds it.</summary>
    public PlanNode? Parent { get; private set; }

    public IReadOnlyList<PlanNode> Children => _children;

    public RunData Run => Point?.Run ?? Load!.Load.Branch;

    /// <summary>Current its run is chosen for, A; 0 while no load behind it is known.</summary>
    public double Amperes { get; private set; }

    /// <summary>The run as it is sized; null while a current or a length is missing here or on the way from the battery.</summary>
    public RunSizingInput? Sizing { get; private set; }

    public RunSizingResult? Result { get; set; }

    /// <summary>The points in the order entered, then the loads in the order entered, linked.</summary>
    /// <param name="prospective">Short-circuit current per run the forms of the fuses have to interrupt, A.</param>
    public static IReadOnlyList<PlanNode> Tree(ElectricalPlanInput input, IReadOnlyList<LoadCurrents> loads, IReadOnlyDictionary<string, double> prospective)
    {
        List<PlanNode> nodes =
        [
            .. input.Points.Select(point => new PlanNode(point.Id, point.Name, point, null)),
            .. loads.Select(load => new PlanNode(load.Load.Id, load.Load.Name, null, load)),
        ];
        var points = nodes.Where(node => node.Point is not null).ToDictionary(node => node.Id);
        foreach (var node in nodes)
        {
            if ((node.Point?.FedFrom ?? node.Load?.Load.FedFrom) is not { } from)
                continue;
            node.Parent = points[from]; // validated
            node.Parent._children.Add(node);
        }

        foreach (var root in nodes.Where(node => node.Parent is null))
            root.Prepare(input, prospective);
        return nodes;
    }

    public double UpstreamVolts(Func<RunSizingResult, RunDrop> at) => Parent is { } parent ? parent.UpstreamVolts(at) + at(parent.Result!).Volts : 0;

    private IEnumerable<LoadCurrents> Loads() => Load is { } load ? [load] : _children.SelectMany(child => child.Loads());

    private bool IsReachable => Run.LengthMeters is not null && (Parent is null || Parent.IsReachable);

    /// <summary>Drop allowed from the battery to its end and back, V: a load's own limit, or the tightest of the loads behind a point.</summary>
    public double LimitVolts { get; private set; } = double.PositiveInfinity;

    private void Prepare(ElectricalPlanInput input, IReadOnlyDictionary<string, double> prospective)
    {
        foreach (var child in _children)
            child.Prepare(input, prospective);
        LimitVolts = Load is { } own
            ? (own.Load.MaxDropPercent ?? input.Rules.MaxDropPercent) / 100 * input.SupplyVolts
            : _children.Select(child => child.LimitVolts).DefaultIfEmpty(double.PositiveInfinity).Min();
        var loads = Loads().Where(load => load.Rated is not null).ToList();
        if (loads.Count == 0)
            return;
        var (music, idle) = (loads.Sum(load => load.Music!.Amperes), loads.Sum(load => load.Idle!.Amperes));
        var least = Math.Max(loads.Max(load => load.Rated!.Amperes), Math.Max(music, idle));
        Amperes = Math.Max((Point?.DemandFactor ?? 1) * loads.Sum(load => load.Rated!.Amperes), least);
        if (!IsReachable)
            return;
        Sizing = new RunSizingInput
        {
            Id = Id,
            Name = Name,
            ContinuousAmperes = Amperes,
            MusicAmperes = music,
            IdleAmperes = idle,
            SupplyVolts = input.SupplyVolts,
            FedFromBattery = Parent is null || Parent.Point?.Kind == FeedPointKind.Battery,
            MakerFuseAmperes = Load?.Load.MakerFuseAmperes,
            FuseNotBelowAmperes = FuseRatings.LeastBefore(
                [.. _children.Select(child => child.Sizing is { } run ? RunChoice.FuseOf(run)?.RatingAmperes : null).OfType<double>()]),
            ProspectiveAmperes = prospective.TryGetValue(Id, out var fault) ? fault : null,
            Run = Run,
            Rules = input.Rules.For(Run),
        };
    }
}
