using CsCheck;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Tests.Electrical;

public class ElectricalPlanProperties
{
    private static readonly Gen<RunData> _data =
        from meters in Gen.Double[0.1, 6]
        from insulation in Gen.OneOf(Gen.Const(80.0), Gen.Const(105.0), Gen.Const(125.0))
        from ambient in Gen.Double[0, 70]
        from bundled in Gen.Int[1, 6]
        from body in Gen.Bool
        select new RunData
        {
            LengthMeters = meters,
            InsulationCelsius = insulation,
            AmbientCelsius = ambient,
            BundledConductors = bundled,
            ReturnPath = body ? ReturnPath.VehicleBody : ReturnPath.DedicatedConductor,
            SourceToFuseMeters = 0,
        };

    private static readonly Gen<ElectricalLoad> _load =
        from amplifier in Gen.Bool
        from watts in Gen.Double[20, 1200]
        from amplifierClass in Gen.Enum<AmplifierClass>()
        from amperes in Gen.Double[0.2, 60]
        from point in Gen.Int[-1, 3]
        from run in _data
        select new ElectricalLoad
        {
            Id = "",
            Name = "Load",
            Kind = amplifier ? LoadKind.Amplifier : LoadKind.Fixed,
            Amplifier = amplifier ? new AmplifierLoad { RatedOutputWatts = watts, Class = amplifierClass } : null,
            Fixed = amplifier ? null : new FixedLoad { RatedAmperes = amperes },
            FedFrom = point < 0 ? null : PointId(point),
            Branch = run,
        };

    /// <summary>One to three points, each fed from the battery or from an earlier one.</summary>
    private static readonly Gen<FeedPoint[]> _points = Gen.Select(_data, Gen.Int[-1, 1]).Array[1, 3].Select(all => all
        .Select((one, i) => new FeedPoint
        {
            Id = PointId(i),
            Name = i == 0 ? "Main run" : $"Run {i}",
            FedFrom = i == 0 || one.Item2 < 0 ? null : PointId(one.Item2 % i),
            Run = one.Item1,
        })
        .ToArray());

    private static readonly Gen<ElectricalPlanInput> _plans =
        from points in _points
        from loads in _load.Array[1, 6]
        from percent in Gen.Double[1, 10]
        from basis in Gen.Enum<DropBasis>()
        select new ElectricalPlanInput
        {
            Points = points,
            Loads = [.. loads.Select((l, i) => l with { Id = $"load-{i}", FedFrom = points.Any(p => p.Id == l.FedFrom) || l.FedFrom is null ? l.FedFrom : Plans.MainId })],
            Rules = Runs.EverySize with { MaxDropPercent = percent, DropBasis = basis },
        };

    private static string PointId(int index) => index == 0 ? Plans.MainId : $"point-{index}";

    private static IEnumerable<FeedPoint> PointsAbove(ElectricalPlanInput input, string? from)
    {
        while (from is not null)
        {
            var point = input.Points.Single(p => p.Id == from);
            yield return point;
            from = point.FedFrom;
        }
    }

    [Fact]
    public void Every_run_to_a_point_carries_the_sum_of_the_loads_behind_it()
    {
        _plans.Sample(input =>
        {
            var plan = ElectricalPlan.Compute(input);
            foreach (var point in plan.Points)
            {
                var behind = plan.Loads.Where(l => PointsAbove(input, l.FedFrom).Any(p => p.Id == point.PointId)).Sum(l => l.Branch!.RatedDrop.Amperes);
                Assert.Equal(behind, point.Amperes, 1e-9 * (1 + behind));
                Assert.Equal(point.Amperes, point.Run?.RatedDrop.Amperes ?? 0);
            }
        });
    }

    [Fact]
    public void The_drop_of_a_load_is_that_of_all_runs_on_its_way()
    {
        _plans.Sample(input =>
        {
            var plan = ElectricalPlan.Compute(input);
            foreach (var load in plan.Loads)
            {
                var way = PointsAbove(input, load.FedFrom).Sum(p => plan.Points.Single(found => found.PointId == p.Id).Run!.RatedDrop.Volts) + load.Branch!.RatedDrop.Volts;
                Assert.Equal(way, load.RatedDrop!.TotalVolts, 1e-9);
            }
        });
    }

    [Fact]
    public void A_fuse_before_several_others_is_larger_than_each_unless_it_is_reported()
    {
        _plans.Sample(input =>
        {
            var plan = ElectricalPlan.Compute(input);
            var reported = plan.Findings.Where(f => f.Code == "no-selectivity").Select(f => f.SubjectId).ToHashSet();
            var runs = plan.Points.Where(p => p.Run is not null).Select(p => (Id: p.PointId, p.FedFrom, Run: p.Run!))
                .Concat(plan.Loads.Select(l => (Id: l.LoadId, l.FedFrom, Run: l.Branch!))).Where(r => r.Run.Fuse is not null).ToList();
            return runs.Where(r => r.FedFrom is not null).All(r =>
            {
                if (plan.Points.Single(p => p.PointId == r.FedFrom).Run!.Fuse is not { } above)
                    return true;
                var isAlone = runs.Count(other => other.FedFrom == r.FedFrom) == 1;
                return reported.Contains(r.Id) || r.Run.Fuse!.RatingAmperes < above.RatingAmperes || (isAlone && r.Run.Fuse!.RatingAmperes == above.RatingAmperes);
            });
        });
    }

    [Fact]
    public void Total_drop_is_never_above_the_limit_without_a_finding_and_never_below_it_with_one()
    {
        _plans.Sample(input =>
        {
            var plan = ElectricalPlan.Compute(input);
            var reported = plan.Findings.Where(f => f.Code == "drop-over-limit").Select(f => f.SubjectId).ToHashSet();
            return plan.Loads.All(l => reported.Contains(l.LoadId) == (Checked(l).TotalVolts > plan.MaxDropVolts * (1 + 1e-9)));

            LoadDrop Checked(PlannedLoad l) => input.Rules.DropBasis == DropBasis.MusicCurrent ? l.MusicDrop! : l.RatedDrop!;
        });
    }

    [Fact]
    public void Every_fuse_protects_its_conductor()
    {
        _plans.Sample(input =>
        {
            var plan = ElectricalPlan.Compute(input);
            return plan.Loads.Select(l => l.Branch).Concat(plan.Points.Select(p => p.Run)).OfType<RunSizingResult>()
                .All(r => r.Fuse is null || r.Fuse.RatingAmperes <= r.DeratedAmperes * (1 + 1e-9));
        });
    }

    [Fact]
    public void Removing_a_load_never_makes_the_cables_heavier_or_the_main_fuse_larger()
    {
        Gen.Select(_plans, Gen.Int[0, 5]).Sample((input, which) =>
        {
            var before = ElectricalPlan.Compute(input);
            // A plan that misses its limits anyway is not compared.
            if (input.Loads.Count < 2 || before.MainRun()?.Fuse is null || before.Findings.Any(f => f.Severity == Severity.Stop))
                return true;
            var after = ElectricalPlan.Compute(input with { Loads = [.. input.Loads.Where((_, i) => i != which % input.Loads.Count)] });
            return after.CableKilograms <= before.CableKilograms * (1 + 1e-9)
                && (after.MainRun() is not { } main || main.Fuse!.RatingAmperes <= before.MainRun()!.Fuse!.RatingAmperes);
        });
    }

    [Fact]
    public void Cables_settled_together_never_weigh_more_than_run_by_run()
    {
        _plans.Sample(input =>
        {
            var plan = ElectricalPlan.Compute(input);
            // Where a limit is out of reach the two ways need not spend the same on it.
            return plan.Findings.Any(f => f.Code == "drop-over-limit") || plan.CableKilograms <= plan.RunByRunCableKilograms * (1 + 1e-9);
        });
    }

    [Fact]
    public void Currents_and_power_agree_at_every_level()
    {
        _plans.Sample(input =>
        {
            var totals = ElectricalPlan.Compute(input).Totals;
            foreach (var level in new[] { totals.Rated, totals.Music, totals.Idle })
            {
                Assert.Equal(level.Amperes * input.SupplyVolts, level.SupplyWatts, 1e-9 * (1 + level.SupplyWatts));
                Assert.Equal(level.SupplyWatts, level.OutputWatts + level.HeatWatts, 1e-9 * (1 + level.SupplyWatts));
            }
        });
    }

    [Fact]
    public void The_order_of_the_loads_does_not_matter()
    {
        _plans.Sample(input =>
        {
            var plan = ElectricalPlan.Compute(input);
            var reversed = ElectricalPlan.Compute(input with { Loads = [.. input.Loads.Reverse()] });
            return plan.MainRun()?.Conductor == reversed.MainRun()?.Conductor
                && plan.Loads.Select(l => l.Branch!.Conductor).SequenceEqual(reversed.Loads.Reverse().Select(l => l.Branch!.Conductor));
        });
    }

    [Fact]
    public void The_typical_generated_plan_is_a_workable_one()
    {
        // Guards the properties above against a generator that only makes plans nobody could build.
        var workable = 0;
        _plans.Sample(input =>
        {
            if (ElectricalPlan.Compute(input) is var plan && plan.MainRun() is not null && plan.Findings.All(f => f.Severity != Severity.Stop))
                Interlocked.Increment(ref workable);
        }, iter: 200);

        Assert.InRange(workable, 40, 200);
    }
}
