namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>Why a cable may not be used on a run.</summary>
internal enum CableFault
{
    None,
    NotPermitted, // not stocked, not allowed by hand, clad not allowed, or no column for the insulation class
    TooThin,
    Ampacity,
    Fuse,
}

/// <summary>One cable judged on one run.</summary>
internal readonly record struct Candidate(int Option, CableFault Fault, double DeratedAmperes, double DropVolts, double Objective);

/// <summary>One run of the tree with all that does not depend on the other runs' sizes.</summary>
internal sealed class TreeNode(TreeRun run, int index)
{
    public TreeRun Run { get; } = run;

    public int Index { get; } = index;

    public int Parent { get; set; } = -1;

    public List<int> Children { get; } = [];

    public List<int> Loads { get; } = [];

    public double Continuous { get; set; }

    public double Music { get; set; }

    public double Idle { get; set; }

    public double DropAmperes { get; set; }

    public double MinimumFuse { get; set; }

    public FuseChoice? Fuse { get; set; }

    public double? ProtectedBy { get; set; }

    public double ConductorMeters { get; } = RouteFactors.MetersOf(run.Route);

    public double BodyOhms { get; } = RouteFactors.BodyOhmsOf(run.Route);

    public double FixedOhms { get; } = RouteFactors.FixedOhmsOf(run.Route);

    /// <summary>Tightest drop limit of the loads at its end, V.</summary>
    public double OwnLimitVolts { get; set; } = double.PositiveInfinity;

    /// <summary>Per cable, its table on this route; null where the table has no column for the insulation.</summary>
    public RouteFactors?[] Factors { get; set; } = [];

    /// <summary>Per cable, the current it may carry here, A.</summary>
    public double[] Derated { get; set; } = [];

    /// <summary>Per cable, whether it may be used here at all.</summary>
    public bool[] Permitted { get; set; } = [];

    /// <summary>Every cable in the order of the options, judged.</summary>
    public Candidate[] All { get; set; } = [];

    /// <summary>Cables that keep every limit of this run on its own, cheapest first and only when each dearer one drops less.</summary>
    public Candidate[] Usable { get; set; } = [];
}

/// <summary>A supply tree prepared for choosing: order, currents, fuses and judged cables.</summary>
internal sealed class TreeModel
{
    private readonly AmpacityRow[] _rows;

    private TreeModel(TreeSizingInput input)
    {
        Input = input;
        Options = input.Options;
        _rows = [.. Options.Select(o => o.Table.Row(o.Conductor.Label)!)]; // validated
        Nodes = [.. input.Runs.Select((r, i) => new TreeNode(r, i))];
        LimitVolts = [.. input.Loads.Select(l => l.MaxDropVolts ?? input.Rules.MaxDropPercent / 100 * input.SupplyVolts)];
        Order = Link();
    }

    public TreeSizingInput Input { get; }

    public IReadOnlyList<CableOption> Options { get; }

    public TreeNode[] Nodes { get; }

    /// <summary>Indexes of the runs, parents before children.</summary>
    public int[] Order { get; }

    /// <summary>Drop limit per load, V.</summary>
    public double[] LimitVolts { get; }

    public IEnumerable<TreeNode> TopDown => Order.Select(i => Nodes[i]);

    public IEnumerable<TreeNode> BottomUp => Order.Reverse().Select(i => Nodes[i]);

    public static TreeModel Make(TreeSizingInput input)
    {
        var model = new TreeModel(input);
        model.SetCurrents();
        foreach (var node in model.Nodes)
            model.Lay(node);
        model.ChooseFuses();
        foreach (var node in model.Nodes)
            model.Judge(node);
        return model;
    }

    private int[] Link()
    {
        var byId = Nodes.ToDictionary(n => n.Run.Id, StringComparer.Ordinal);
        foreach (var node in Nodes)
        {
            if (node.Run.ParentId is not { } parent)
                continue;
            node.Parent = byId[parent].Index;
            byId[parent].Children.Add(node.Index);
        }

        for (var i = 0; i < Input.Loads.Count; i++)
        {
            var node = byId[Input.Loads[i].RunId];
            node.Loads.Add(i);
            node.OwnLimitVolts = Math.Min(node.OwnLimitVolts, LimitVolts[i]);
        }

        var order = new List<int>(Nodes.Length);
        order.AddRange(Nodes.Where(n => n.Parent < 0).Select(n => n.Index));
        for (var i = 0; i < order.Count; i++)
            order.AddRange(Nodes[order[i]].Children);
        return [.. order];
    }

    private void SetCurrents()
    {
        var rated = new double[Nodes.Length];
        foreach (var node in BottomUp)
        {
            var floor = 0.0; // a run never carries less than any one thing behind it
            foreach (var i in node.Loads)
            {
                var load = Input.Loads[i];
                rated[node.Index] += load.RatedAmperes;
                node.Music += load.MusicAmperes ?? load.RatedAmperes;
                node.Idle += load.IdleAmperes ?? load.RatedAmperes;
                floor = Math.Max(floor, load.RatedAmperes);
            }

            foreach (var child in node.Children.Select(c => Nodes[c]))
            {
                rated[node.Index] += rated[child.Index];
                node.Music += child.Music;
                node.Idle += child.Idle;
                floor = Math.Max(floor, child.Continuous);
            }

            node.Continuous = Math.Max(Math.Max(node.Run.DemandFactor * rated[node.Index], floor), Math.Max(node.Music, node.Idle));
            node.DropAmperes = Input.Rules.DropBasis == DropBasis.MusicCurrent ? node.Music : node.Continuous;
        }
    }

    /// <summary>What each cable may carry on the run's route, before its fuse is known.</summary>
    private void Lay(TreeNode node)
    {
        var route = node.Run.Route;
        // Tables are told apart by reference: comparing them by value costs more than the sizing.
        var tables = new Dictionary<AmpacityTable, RouteFactors?>(ReferenceEqualityComparer.Instance);
        node.Factors = new RouteFactors?[Options.Count];
        node.Derated = new double[Options.Count];
        for (var i = 0; i < Options.Count; i++)
        {
            var table = Options[i].Table;
            if (!tables.TryGetValue(table, out var factors))
                tables[table] = factors = route.InsulationCelsius < table.InsulationCelsius[0] ? null : new RouteFactors(table, route);
            node.Factors[i] = factors;
            node.Derated[i] = factors?.Derated(_rows[i]) ?? 0;
        }

        var allowed = node.Run.AllowedSizes?.ToHashSet(StringComparer.Ordinal);
        node.Permitted = [.. Options.Select((cable, i) => node.Factors[i] is not null && IsPermitted(node, cable, allowed))];
    }

    private bool IsPermitted(TreeNode node, CableOption cable, HashSet<string>? allowed) => node.Run.Route.ForcedSize is { } forced
        ? forced == cable.Conductor.Label
        : (cable.Stocked || !Input.StockedOnly)
            && (allowed is null || allowed.Contains(cable.Conductor.Label))
            && (node.Run.AllowCopperCladAluminium || !cable.Conductor.Material.IsCopperClad);

    private void ChooseFuses()
    {
        var next = new List<double>[Nodes.Length];
        foreach (var node in BottomUp)
        {
            var rules = Input.Rules;
            node.MinimumFuse = FuseRatings.MinimumRating(
                node.Continuous, rules.ContinuousLoading, Math.Max(25, node.Run.Route.AmbientCelsius), rules.FuseDeratingPerCelsius);
            var behind = node.Children.SelectMany(c => next[c]).ToList();
            if (!node.Run.HasFuse)
            {
                next[node.Index] = behind;
                continue;
            }

            node.Fuse = Fuse(node, Input.FuseNotBelowFusesBehind ? FuseRatings.LeastBefore(behind) : null);
            next[node.Index] = node.Fuse is { } fuse ? [fuse.RatingAmperes] : [];
        }

        foreach (var node in TopDown)
            node.ProtectedBy = node.Run.HasFuse ? node.Fuse?.RatingAmperes : node.Parent >= 0 ? Nodes[node.Parent].ProtectedBy : null;
    }

    private FuseChoice? Fuse(TreeNode node, double? before)
    {
        var series = node.Parent < 0 ? Input.Rules.BatteryFuses : Input.Rules.Fuses;
        if (node.Run.Route.ForcedFuseAmperes is { } forced)
            return FuseRatings.Smallest(series, forced, forced, Input.SupplyVolts) ?? new FuseChoice(forced, null, "not in the shop's list", null, null);
        var least = Math.Max(node.MinimumFuse, before ?? 0);
        var smallest = FuseRatings.Smallest(series, least, double.MaxValue, Input.SupplyVolts);
        return node.Run.MakerFuseAmperes is { } maker ? FuseRatings.Largest(series, least, maker, Input.SupplyVolts) ?? smallest : smallest;
    }

    private void Judge(TreeNode node)
    {
        node.All = new Candidate[Options.Count];
        for (var i = 0; i < Options.Count; i++)
            node.All[i] = Judge(node, i);
        node.Usable = Undominated(node.All);
    }

    private Candidate Judge(TreeNode node, int option)
    {
        if (node.Factors[option] is not { } factors)
            return new Candidate(option, CableFault.NotPermitted, 0, double.PositiveInfinity, 0);
        var (row, derated) = (_rows[option], node.Derated[option]);
        var fault = !node.Permitted[option] ? CableFault.NotPermitted
            : !FuseRatings.AtLeast(derated, node.Continuous) ? CableFault.Ampacity
            : node.Run.HasFuse && node.Fuse is null ? CableFault.Fuse
            : node.ProtectedBy is { } fuse && !FuseRatings.AtLeast(derated, fuse) ? CableFault.Fuse
            : !factors.IsThickEnough(row) ? CableFault.TooThin
            : CableFault.None;
        return new Candidate(option, fault, derated, factors.Drop(row, node.DropAmperes, Input.SupplyVolts).Volts, Objective(Options[option]) * node.ConductorMeters);
    }

    private double Objective(CableOption cable) => Input.Objective switch
    {
        SizingObjective.ConductorMass => cable.Conductor.CopperKilogramsPerMeter,
        SizingObjective.CableMass => cable.Conductor.CopperKilogramsPerMeter + cable.Conductor.InsulationKilogramsPerMeterEstimate,
        SizingObjective.Cost => (double)cable.PricePerMeter!.Value, // validated
        _ => throw new ArgumentOutOfRangeException(nameof(cable), Input.Objective, "The objective is not known."),
    };

    /// <summary>The tree as the search sees it.</summary>
    public LimitedTree Limited() => new(
        [.. Nodes.Select(n => n.Parent)],
        [.. Nodes.Select(n => Array.ConvertAll(n.Usable, static c => new SizeStep(c.Objective, c.DropVolts)))],
        [.. Nodes.Select(n => n.OwnLimitVolts)]);

    private static Candidate[] Undominated(Candidate[] all)
    {
        var usable = Array.FindAll(all, c => c.Fault == CableFault.None);
        return Array.ConvertAll(SizeStep.Undominated(Array.ConvertAll(usable, static c => new SizeStep(c.Objective, c.DropVolts))), i => usable[i]);
    }
}
