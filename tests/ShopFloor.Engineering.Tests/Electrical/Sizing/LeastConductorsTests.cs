using CsCheck;
using ShopFloor.Engineering.Electrical.Sizing;

namespace ShopFloor.Engineering.Tests.Electrical.Sizing;

public class LeastConductorsTests
{
    private static readonly Gen<CandidateRun[]> _trees =
        from count in Gen.Int[1, 6]
        from parents in Gen.Int[-1, 5].Array[count]
        from masses in Gen.Double[0.1, 5].Array[4].Array[count]
        from drops in Gen.Double[0.01, 0.3].Array[4].Array[count]
        from limits in Gen.Double[0.1, 1].Array[count]
        from limited in Gen.Bool.Array[count]
        select Enumerable.Range(0, count).Select(i => new CandidateRun(
            $"r{i}", i == 0 || parents[i] < 0 ? null : $"r{parents[i] % i}",
            [.. masses[i].Zip(drops[i]).Select((c, k) => new SizeCandidate($"s{k}", c.First, c.Second))],
            limited[i] ? limits[i] : null)).ToArray();

    [Fact]
    public void The_set_is_as_light_as_the_lightest_of_all_sets_tried_one_by_one()
    {
        var within = 0;
        _trees.Sample(
            runs =>
            {
                var result = LeastConductors.Choose(runs);
                if (result.OutOfReach.Count > 0)
                    return Least(runs) is null;
                Interlocked.Increment(ref within);
                return Least(runs) is { } least && Math.Abs(result.MassKilograms / least - 1) < 1e-9;
            },
            iter: 300);

        Assert.True(within > 50, $"{within} within reach");
    }

    [Fact]
    public void Limits_out_of_reach_are_named_and_cost_the_others_nothing()
    {
        SizeCandidate[] sizes = [new("thin", 1, 0.4), new("thick", 3, 0.1)];
        var result = LeastConductors.Choose([new("main", null, sizes), new("far", "main", sizes, 0.05), new("near", "main", sizes, 0.8)]);

        Assert.Equal(["far"], result.OutOfReach);
        // Alone, near keeps 0.8 V with both thin; far gets the size of least drop.
        Assert.Equal(["thin", "thick", "thin"], new[] { "main", "far", "near" }.Select(id => result.Sizes[id].Label));
    }

    [Fact]
    public void Impossible_runs_are_refused_by_field()
    {
        SizeCandidate[] sizes = [new("thin", 1, 0.4)];

        Assert.Contains(LeastConductors.Validate([new("a", "b", sizes)]), p => p.Field == "runs[0].ParentId");
        Assert.Contains(LeastConductors.Validate([new("a", "b", sizes), new("b", "a", sizes)]), p => p.Message.Contains("cannot feed itself", StringComparison.Ordinal));
        Assert.Contains(LeastConductors.Validate([new("a", null, [])]), p => p.Field == "runs[0].Candidates");
        Assert.Contains(LeastConductors.Validate([new("a", null, sizes)], SizingObjective.Cost), p => p.Message.Contains("price", StringComparison.Ordinal));
        Assert.Contains(LeastConductors.Validate([new("a", null, [new("x", 1, double.NaN)])]), p => p.Field == "runs[0].Candidates");
    }

    /// <summary>Least mass over every set, or null when none keeps the limits.</summary>
    private static double? Least(CandidateRun[] runs)
    {
        double? best = null;
        for (var set = 0; set < Math.Pow(4, runs.Length); set++)
        {
            var pick = runs.Select((r, i) => r.Candidates[(set >> (2 * i)) & 3]).ToArray();
            var mass = pick.Sum(p => p.MassKilograms);
            if ((best is null || mass < best) && Enumerable.Range(0, runs.Length).All(i => runs[i].LimitVolts is not { } limit || Drop(runs, pick, i) <= limit + 1e-9))
                best = mass;
        }

        return best;
    }

    private static double Drop(CandidateRun[] runs, SizeCandidate[] pick, int run) =>
        pick[run].DropVolts + (runs[run].ParentId is { } parent ? Drop(runs, pick, Array.FindIndex(runs, r => r.Id == parent)) : 0);
}
