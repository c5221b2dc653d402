using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Computes the supply network of an added system as a tree.</summary>
/// <remarks>
/// Currents are taken at the battery voltage entered; the small rise of current of a regulated amplifier as its voltage falls is not
/// followed. A run to a point carries the sum of the loads behind it. The voltage drop limit holds for every way from the battery to a
/// load; the sizes of all runs are settled together so that their cables weigh least.
/// <para>
/// Fuse forms hang on the short-circuit current, that on the sizes, and those on the fuses. It is settled in rounds: sizes, then the current
/// each fuse may have to interrupt, then only forms that reach it, then sizes again. What a fuse has to interrupt never falls between
/// rounds, so the forms a run may have only get fewer; a round that takes none away gives the same sizes and is the last. There are never
/// more rounds than runs times forms, and two or three in practice.
/// </para>
/// </remarks>
public static class ElectricalPlan
{
    /// <summary>Computes the plan.</summary>
    /// <param name="input">The plan.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// <see cref="ElectricalPlanInput.Validate"/> finds a problem; the parameter name is the field.
    /// </exception>
    public static ElectricalPlanResult Compute(ElectricalPlanInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));

        var limit = input.Rules.MaxDropPercent / 100 * input.SupplyVolts;
        var currents = input.Loads.Select(l => LoadCurrents.Of(l, input.SupplyVolts, text)).ToList();
        var (nodes, set) = Settle(input, currents, text);

        var points = nodes.Where(n => n.Point is not null).Select(PlannedPointOf).ToList();
        var loads = nodes.Where(n => n.Load is not null).Select(n => PlannedLoadOf(n, input.SupplyVolts)).ToList();
        var runs = nodes.Select(n => n.Result).OfType<RunSizingResult>().ToList();
        var totals = Totals(currents);
        var alternator = input.Alternator is { } data ? Compare(data, totals.Music.Amperes) : null;
        return new ElectricalPlanResult
        {
            Points = points,
            Loads = loads,
            Totals = totals,
            MaxDropVolts = limit,
            CopperKilograms = runs.Sum(r => r.CopperKilograms),
            CableKilograms = runs.Sum(r => r.CableKilograms),
            RunByRunCableKilograms = set.RunByRunKilograms,
            RunByRunSizes = set.RunByRunSizes,
            Alternator = alternator,
            Findings = PlanFindings.Find(input, nodes, loads, totals, alternator, text),
            Cautions = PlanCautions.For(input),
            ConductorsToBuy = BuyList.Conductors(nodes),
            FusesToBuy = BuyList.Fuses(runs),
            Explanation = PlanExplanation.Make(input, nodes, loads, totals, set.RunByRunKilograms, text),
        };
    }

    private static (IReadOnlyList<PlanNode> Nodes, LightestSet Set) Settle(ElectricalPlanInput input, IReadOnlyList<LoadCurrents> currents, UnitText text)
    {
        var asked = new Dictionary<string, double>(StringComparer.Ordinal);
        while (true)
        {
            var nodes = PlanNode.Tree(input, currents, asked);
            var set = LightestSet.Choose(nodes);
            foreach (var root in nodes.Where(n => n.Parent is null))
                Size(root, set.Sizes, 0, text);
            var more = ProspectiveCurrents.Of(input, nodes).Where(run => !asked.TryGetValue(run.Key, out var known) || !FuseRatings.AtLeast(known, run.Value)).ToList();
            if (more.Count == 0)
                return (nodes, set);
            foreach (var (run, amperes) in more)
                asked[run] = amperes;
        }
    }

    private static void Size(PlanNode node, IReadOnlyDictionary<string, AmpacityRow> sizes, double usedVolts, UnitText text)
    {
        if (node.Sizing is not { } run)
            return;
        node.Result = RunSizing.Size(run, DropShare.Left(node.LimitVolts, usedVolts, text), text, sizes[node.Id]);
        foreach (var child in node.Children)
            Size(child, sizes, usedVolts + node.Result.DropAt(run.Rules.DropBasis).Volts, text);
    }

    private static PlannedPoint PlannedPointOf(PlanNode node) => new()
    {
        PointId = node.Id,
        Name = node.Name,
        Kind = node.Point!.Kind,
        FedFrom = node.Point.FedFrom,
        Amperes = node.Amperes,
        Run = node.Result,
    };

    private static PlannedLoad PlannedLoadOf(PlanNode node, double supplyVolts)
    {
        var load = node.Load!;

        LoadDrop? Drop(Func<RunSizingResult, RunDrop> at)
        {
            if (node.Result is not { } branch)
                return null;
            var upstream = node.UpstreamVolts(at);
            var total = upstream + at(branch).Volts;
            return new LoadDrop(upstream, at(branch).Volts, total, 100 * total / supplyVolts, supplyVolts - total);
        }

        return new PlannedLoad
        {
            LoadId = node.Id,
            Name = node.Name,
            FedFrom = load.Load.FedFrom,
            MissingData = load.Load.Branch.LengthMeters is null ? [.. load.Missing, "length of its run"] : load.Missing,
            Rated = load.Rated,
            Music = load.Music,
            Idle = load.Idle,
            Amplifier = load.Amplifier,
            Branch = node.Result,
            RatedDrop = Drop(r => r.RatedDrop),
            MusicDrop = Drop(r => r.MusicDrop),
            LimitVolts = node.LimitVolts,
        };
    }

    private static PlanTotals Totals(List<LoadCurrents> loads)
    {
        PlanLevel Sum(Func<LoadCurrents, PlanLevel?> level) =>
            loads.Select(level).OfType<PlanLevel>().Aggregate(PlanLevel.Zero, (sum, next) => sum.Plus(next));
        return new PlanTotals(Sum(l => l.Rated), Sum(l => l.Music), Sum(l => l.Idle), loads.All(l => l.Missing.Count == 0));
    }

    private static AlternatorComparison Compare(AlternatorData alternator, double musicAmperes)
    {
        var (atIdle, atCruise) = (alternator.IdleAmperes, alternator.CruiseAmperes);
        var vehicle = alternator.VehicleBaseAmperes ?? ElectricalDefaults.VehicleBaseAmperes;
        var origin = alternator.VehicleBaseAmperes is null ? $"default: {ElectricalDefaults.FromMemory}" : "entered";
        return new AlternatorComparison(
            alternator.Output?.Origin ?? $"shares of the rating: {ElectricalDefaults.FromMemory}", atIdle, atCruise, vehicle, origin, musicAmperes, atIdle - vehicle - musicAmperes, atCruise - vehicle - musicAmperes);
    }
}
