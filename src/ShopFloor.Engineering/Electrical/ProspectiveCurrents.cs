namespace ShopFloor.Engineering.Electrical;

/// <summary>An upper bound of the short-circuit current through the fuse at the start of each run of a plan.</summary>
/// <remarks>
/// A bolted fault is put right behind the fuse, and one right before it. Each source counts as if it fed the fault alone through the feed
/// conductors between, at <see cref="ColdCelsius"/>: every further path to ground only lowers what reaches the fault, and contacts, returns
/// and warmer metal only add resistance, so down to that temperature the sum is not too low for the sources as entered. The alternator adds
/// the larger of its rating and its hot curve.
/// </remarks>
internal static class ProspectiveCurrents
{
    /// <summary>Conductors on a cold morning, °C. Common practice, no source.</summary>
    public const double ColdCelsius = -20;

    /// <summary>Per sized run, A; empty when the vehicle's battery is not known.</summary>
    public static IReadOnlyDictionary<string, double> Of(ElectricalPlanInput input, IReadOnlyList<PlanNode> nodes)
    {
        var found = new Dictionary<string, double>(StringComparer.Ordinal);
        if (input.Battery is not { } main)
            return found;
        var second = nodes.Where(n => n is { Result: not null, Point.Battery: not null }).ToList();
        foreach (var node in nodes.Where(n => n.Result is not null))
        {
            var forward = main.OpenCircuitVolts / (main.InternalOhms + WayDown(node)) + (input.Alternator?.LargestAmperes ?? 0);
            var backward = 0.0;
            foreach (var other in second)
            {
                var amperes = other.Point!.Battery!.OpenCircuitVolts / (other.Point.Battery.InternalOhms + Between(other, node));
                if (IsBehind(other, node))
                    backward += amperes;
                else
                    forward += amperes;
            }

            found[node.Id] = Math.Max(forward, backward);
        }

        return found;
    }

    private static double Ohms(PlanNode node) => node.Result!.Conductor.OhmsPerMeter(ColdCelsius) * node.Result.LengthMeters;

    /// <summary>From the vehicle's battery to where the run starts, Ω.</summary>
    private static double WayDown(PlanNode node)
    {
        var sum = 0.0;
        for (var at = node.Parent; at is not null; at = at.Parent)
            sum += Ohms(at);
        return sum;
    }

    /// <summary>From the end of one run to the start of another, Ω.</summary>
    private static double Between(PlanNode end, PlanNode run)
    {
        var above = new HashSet<PlanNode>();
        for (var at = run.Parent; at is not null; at = at.Parent)
            above.Add(at);
        var sum = 0.0;
        var from = end;
        for (; from is not null && !above.Contains(from); from = from.Parent)
            sum += Ohms(from);
        for (var at = run.Parent; at is not null && at != from; at = at.Parent)
            sum += Ohms(at);
        return sum;
    }

    private static bool IsBehind(PlanNode node, PlanNode run)
    {
        for (var at = node; at is not null; at = at.Parent)
        {
            if (at == run)
                return true;
        }

        return false;
    }
}
