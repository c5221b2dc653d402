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
        from battery in Gen.Int[0, 4]
        from run in _data
        select new ElectricalLoad
        {
            Id = "",
            Name = "Load",
            Kind = amplifier ? LoadKind.Amplifier : LoadKind.Fixed,
            Amplifier = amplifier ? new AmplifierLoad { RatedOutputWatts = watts, Class = amplifierClass } : null,
            Fixed = amplifier ? null : new FixedLoad { RatedAmperes = amperes },
            ConnectedTo = battery == 0 ? LoadConnection.Battery : LoadConnection.Distribution,
            Branch = run,
        };

    private static readonly Gen<ElectricalPlanInput> _plans =
        from main in _data
        from loads in _load.Array[1, 6]
        from percent in Gen.Double[1, 10]
        from basis in Gen.Enum<DropBasis>()
        select new ElectricalPlanInput
        {
            Main = main,
            Loads = [.. loads.Select((l, i) => l with { Id = $"load-{i}" })],
            Rules = Runs.EverySize with { MaxDropPercent = percent, DropBasis = basis },
        };

    [Fact]
    public void Branch_currents_sum_to_the_current_of_the_main_run()
    {
        _plans.Sample(input =>
        {
            var plan = ElectricalPlan.Compute(input);
            var branches = plan.Loads.Where(l => l.ConnectedTo == LoadConnection.Distribution).Sum(l => l.Branch!.RatedDrop.Amperes);
            return Math.Abs(branches - plan.MainAmperes) <= 1e-9 * (1 + branches)
                && (plan.Main is null ? branches == 0 : plan.Main.RatedDrop.Amperes == plan.MainAmperes);
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
            return plan.Loads.Select(l => l.Branch!).Prepend(plan.Main).OfType<RunSizingResult>()
                .All(r => r.Fuse is null || r.Fuse.RatingAmperes <= r.DeratedAmperes * (1 + 1e-9));
        });
    }

    [Fact]
    public void Removing_a_load_never_makes_the_main_run_thicker_or_its_fuse_larger()
    {
        Gen.Select(_plans, Gen.Int[0, 5]).Sample((input, which) =>
        {
            var before = ElectricalPlan.Compute(input);
            // A plan that misses its limits anyway leaves the main run at its share and is not compared.
            if (input.Loads.Count < 2 || before.Main?.Fuse is null || before.Findings.Any(f => f.Severity == Severity.Stop))
                return true;
            var after = ElectricalPlan.Compute(input with { Loads = [.. input.Loads.Where((_, i) => i != which % input.Loads.Count)] });
            return after.Main is null
                || (after.Main.Conductor.AreaSquareMillimeters <= before.Main.Conductor.AreaSquareMillimeters
                    && after.Main.Fuse!.RatingAmperes <= before.Main.Fuse.RatingAmperes);
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
            return plan.Main?.Conductor == reversed.Main?.Conductor
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
            if (ElectricalPlan.Compute(input) is { Main: not null } plan && plan.Findings.All(f => f.Severity != Severity.Stop))
                Interlocked.Increment(ref workable);
        }, iter: 200);

        Assert.InRange(workable, 40, 200);
    }
}
