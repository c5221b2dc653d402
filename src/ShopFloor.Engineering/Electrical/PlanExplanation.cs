using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Writes down how a plan was reached.</summary>
internal static class PlanExplanation
{
    internal const string DropSource = "limit entered; ABYC E-11 uses 3 % for electronics";

    public static Explanation Make(
        ElectricalPlanInput input, IReadOnlyList<PlanNode> nodes, IReadOnlyList<PlannedLoad> loads, PlanTotals totals, double runByRunKilograms, UnitText text)
    {
        var inputs = new List<ExplainedInput>
        {
            new("Supply voltage", input.SupplyVolts, "V",
                ElectricalDefaults.Origin(input.SupplyVolts, ElectricalDefaults.SupplyVolts, Unsourced.CommonPractice)),
            new("Voltage drop allowed, battery to load and back", input.Rules.MaxDropPercent, "%", DropSource),
        };
        inputs.AddRange(loads.Where(l => l.Rated is not null).Select(l => new ExplainedInput($"{l.Name}, rated", l.Rated!.Amperes, "A", "load data")));

        var steps = new List<ExplainedStep>
        {
            new("All loads at rated output", "I = Σ I_load", Sum(loads), text.Amperes(totals.Rated.Amperes), "Kirchhoff's current law"),
        };
        foreach (var node in nodes.Where(n => n.Point is not null && n.Amperes > 0))
        {
            var demand = node.Point!.DemandFactor;
            steps.Add(new ExplainedStep(
                $"Current it is chosen for: {node.Name}", "I = k · Σ I_behind, not below the music sum, the idle sum or the largest load",
                $"k = {text.Number(demand)}", text.Amperes(node.Amperes),
                demand < 1 ? "demand chosen by the shop" : "full rated sum: fuse and conductor stand every load at once"));
        }

        if (nodes.Any(n => n.Result is not null))
        {
            var cables = nodes.Sum(n => n.Result?.CableKilograms ?? 0);
            steps.Add(new ExplainedStep(
                "Sizes of all runs together", "least Σ m_cable with every drop within the limit, by dynamic programming over the tree",
                $"run by run they would weigh {text.Of(runByRunKilograms, QuantityKind.Mass)}", text.Of(cables, QuantityKind.Mass),
                "exact search over the available sizes; insulation mass is an estimate"));
        }

        var basis = input.Rules.DropBasis;
        var limits = loads
            .Where(l => l.RatedDrop is not null)
            .Select(l => new LimitCheck($"{l.Name}: drop from battery to load and back{RunExplanation.AtBasis(basis)}", l.DropAt(basis)!.TotalVolts, l.LimitVolts, "V", WithinLimit(l, basis), DropSource))
            .ToList();
        var answer = $"{text.Amperes(totals.Rated.Amperes)} at rated output, {text.Amperes(totals.Music.Amperes)} on music, {text.Amperes(totals.Idle.Amperes)} at idle"
            + (totals.IsComplete ? "" : "; not complete: data are missing");
        return new Explanation("The added system: how much current, through what?", answer, inputs, steps, limits, nodes.FirstOrDefault(n => n.Point is not null)?.Result?.Explanation.DecidedBy);

        string Sum(IEnumerable<PlannedLoad> part) => string.Join(" + ", part.Where(l => l.Rated is not null).Select(l => text.Number(l.Rated!.Amperes)));
    }

    /// <summary>Whether the total keeps the limit, rounding of sums aside.</summary>
    internal static bool WithinLimit(PlannedLoad load, DropBasis basis) => FuseRatings.AtLeast(load.LimitVolts, load.DropAt(basis)!.TotalVolts);
}
