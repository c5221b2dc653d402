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

    public double ConductorMeters { get; set; }

    public double BodyOhms { get; set; }

    /// <summary>What no thicker conductor lessens: body return and terminations, Ω.</summary>
    public double FixedOhms => BodyOhms + Run.Route.TerminationOhms;

    /// <summary>Tightest drop limit of the loads at its end, V.</summary>
    public double OwnLimitVolts { get; set; } = double.PositiveInfinity;

    /// <summary>Every cable in the order of the options, judged.</summary>
    public Candidate[] All { get; set; } = [];

    /// <summary>Cables that keep every limit of this run on its own, cheapest first and only when each dearer one drops less.</summary>
    public Candidate[] Usable { get; set; } = [];
}

/// <summary>A supply tree prepared for choosing: order, currents, fuses and judged cables.</summary>
internal sealed class TreeModel
{
    private int[] _tableOf = [];

    private TreeModel(TreeSizingInput input)
    {
        Input = input;
        Options = input.Options;
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
        model.ChooseFuses();
        // Tables are told apart by reference: comparing them by value costs more than the sizing.
        var tables = new Dictionary<AmpacityTable, int>(ReferenceEqualityComparer.Instance);
        foreach (var option in model.Options)
            tables.TryAdd(option.Table, tables.Count);
        model._tableOf = [.. model.Options.Select(o => tables[o.Table])];
        var factors = new Dictionary<(int, double, double, bool, int), TableFactors>();
        foreach (var node in model.Nodes)
            model.Judge(node, factors);
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

    private void ChooseFuses()
    {
        var behind = new double[Nodes.Length];
        foreach (var node in BottomUp)
        {
            var rules = Input.Rules;
            node.MinimumFuse = FuseRatings.MinimumRating(
                node.Continuous, rules.ContinuousLoading, Math.Max(25, node.Run.Route.AmbientCelsius), rules.FuseDeratingPerCelsius);
            if (node.Run.HasFuse)
            {
                node.Fuse = Fuse(node, Input.FuseNotBelowFusesBehind ? behind[node.Index] : 0);
                behind[node.Index] = Math.Max(behind[node.Index], node.Fuse?.RatingAmperes ?? 0);
            }

            if (node.Parent >= 0)
                behind[node.Parent] = Math.Max(behind[node.Parent], behind[node.Index]);
        }

        foreach (var node in TopDown)
            node.ProtectedBy = node.Run.HasFuse ? node.Fuse?.RatingAmperes : node.Parent >= 0 ? Nodes[node.Parent].ProtectedBy : null;
    }

    private FuseChoice? Fuse(TreeNode node, double behind)
    {
        var series = node.Parent < 0 ? Input.Rules.BatteryFuses : Input.Rules.Fuses;
        if (node.Run.Route.ForcedFuseAmperes is { } forced)
            return FuseRatings.Smallest(series, forced, forced, Input.SupplyVolts) ?? new FuseChoice(forced, null, "not in the shop's list", null, null);
        var least = Math.Max(node.MinimumFuse, behind);
        var smallest = FuseRatings.Smallest(series, least, double.MaxValue, Input.SupplyVolts);
        return node.Run.MakerFuseAmperes is { } maker ? FuseRatings.Largest(series, least, maker, Input.SupplyVolts) ?? smallest : smallest;
    }

    private void Judge(TreeNode node, Dictionary<(int, double, double, bool, int), TableFactors> known)
    {
        var route = node.Run.Route;
        var length = route.LengthMeters!.Value; // validated
        node.ConductorMeters = route.ReturnPath == ReturnPath.DedicatedConductor ? 2 * length : length;
        node.BodyOhms = route.ReturnPath == ReturnPath.VehicleBody ? route.BodyReturnOhms ?? ElectricalDefaults.BodyReturnOhms : 0;
        var allowed = node.Run.AllowedSizes?.ToHashSet(StringComparer.Ordinal);
        node.All = new Candidate[Options.Count];
        for (var i = 0; i < Options.Count; i++)
        {
            var key = (_tableOf[i], route.InsulationCelsius, route.AmbientCelsius, route.EngineSpace, route.BundledConductors);
            if (!known.TryGetValue(key, out var factors))
                known[key] = factors = TableFactors.Of(Options[i].Table, route);
            node.All[i] = Judge(node, i, factors, allowed);
        }

        node.Usable = Undominated(node.All);
    }

    private Candidate Judge(TreeNode node, int option, TableFactors factors, HashSet<string>? allowed)
    {
        var cable = Options[option];
        var (conductor, route) = (cable.Conductor, node.Run.Route);
        if (factors.Column < 0)
            return new Candidate(option, CableFault.NotPermitted, 0, double.PositiveInfinity, 0);

        var derated = factors.Amperes[conductor.Label];
        var celsius = VoltageDrop.ConductorCelsius(factors.EffectiveAmbient, factors.ColumnCelsius, node.DropAmperes, derated);
        var volts = node.DropAmperes * (conductor.OhmsPerMeter(celsius) * node.ConductorMeters + node.FixedOhms);
        var least = route.SheathedWholeWay ? cable.Table.MinimumSheathedAreaSquareMillimeters : cable.Table.MinimumAreaSquareMillimeters;
        var permitted = route.ForcedSize is { } forced
            ? forced == conductor.Label
            : (cable.Stocked || !Input.StockedOnly)
                && (allowed is null || allowed.Contains(conductor.Label))
                && (node.Run.AllowCopperCladAluminium || !conductor.Material.IsCopperClad);
        var fault = !permitted ? CableFault.NotPermitted
            : !FuseRatings.AtLeast(derated, node.Continuous) ? CableFault.Ampacity
            : node.Run.HasFuse && node.Fuse is null ? CableFault.Fuse
            : node.ProtectedBy is { } fuse && !FuseRatings.AtLeast(derated, fuse) ? CableFault.Fuse
            : !FuseRatings.AtLeast(conductor.AreaSquareMillimeters, least) ? CableFault.TooThin
            : CableFault.None;
        return new Candidate(option, fault, derated, volts, Objective(cable) * node.ConductorMeters);
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

/// <summary>What a table gives on one route.</summary>
internal sealed record TableFactors(int Column, double ColumnCelsius, double EffectiveAmbient, IReadOnlyDictionary<string, double> Amperes)
{
    public static TableFactors Of(AmpacityTable table, RunData route)
    {
        if (route.InsulationCelsius < table.InsulationCelsius[0])
            return new TableFactors(-1, 0, 0, new Dictionary<string, double>());
        var column = table.Column(route.InsulationCelsius);
        var factor = table.AmbientFactor(route.InsulationCelsius, route.AmbientCelsius, route.EngineSpace) * table.BundlingFactor(route.BundledConductors);
        var ambient = route.EngineSpace ? Math.Max(route.AmbientCelsius, table.EngineSpaceAmbientCelsius) : route.AmbientCelsius;
        return new TableFactors(
            column, table.InsulationCelsius[column], ambient,
            table.Rows.ToDictionary(r => r.Conductor.Label, r => r.Amperes[column] * factor, StringComparer.Ordinal));
    }
}
