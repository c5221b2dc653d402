using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Tests.Electrical;

public class ElectricalPlanTests
{
    [Fact]
    public void The_main_run_carries_the_sum_of_the_loads_behind_it()
    {
        var plan = ElectricalPlan.Compute(Plans.Of(Plans.Fixed("a", 40), Plans.Fixed("b", 25), Plans.Fixed("c", 10, from: null)));

        Assert.Equal(65, plan.MainAmperes(), 9);
        Assert.Equal(65, plan.MainRun()!.RatedDrop.Amperes, 9);
        Assert.Equal(26, plan.MainRun()!.MusicDrop.Amperes, 9);
        Assert.Equal(6.5, plan.MainRun()!.IdleAmperes!.Value, 9);
        Assert.Equal(75, plan.Totals.Rated.Amperes, 9);
        Assert.Equal(30, plan.Totals.Music.Amperes, 9);
        Assert.Equal(7.5, plan.Totals.Idle.Amperes, 9);
        Assert.Equal(75 * 13.8, plan.Totals.Rated.SupplyWatts, 9);
        Assert.True(plan.Totals.IsComplete);
    }

    [Fact]
    public void An_amplifier_enters_with_the_currents_of_its_class()
    {
        var plan = ElectricalPlan.Compute(Plans.Of(Plans.Amplifier("sub", 1000)));

        // 1000 / (0.8 · 13.8) + 1.5 = 92.08 A; heat 13.8 · 92.08 − 1000 = 270.7 W.
        Assert.Equal(92.08, plan.Loads[0].Rated!.Amperes, 0.005);
        Assert.Equal(270.7, plan.Totals.Rated.HeatWatts, 0.05);
        Assert.Equal(1000, plan.Totals.Rated.OutputWatts, 9);
        Assert.Equal(1.5, plan.Totals.Idle.Amperes, 9);
        Assert.NotNull(plan.Loads[0].Amplifier);
    }

    [Fact]
    public void Total_drop_is_main_run_plus_branch_and_stays_within_the_limit()
    {
        var plan = ElectricalPlan.Compute(Plans.Of(Plans.Amplifier("sub", 1000), Plans.Amplifier("front", 400, AmplifierClass.AB, meters: 2.5)));

        Assert.Equal(0.03 * 13.8, plan.MaxDropVolts, 9);
        Assert.All(plan.Loads, load =>
        {
            var drop = load.RatedDrop!;
            Assert.Equal(plan.MainRun()!.RatedDrop.Volts + load.Branch!.RatedDrop.Volts, drop.TotalVolts, 9);
            Assert.Equal(13.8 - drop.TotalVolts, load.RatedDrop!.VoltsAtLoad, 9);
            Assert.True(drop.TotalVolts <= plan.MaxDropVolts);
            Assert.True(load.MusicDrop!.TotalVolts < drop.TotalVolts);
        });
        Assert.DoesNotContain(plan.Findings, f => f.Severity == Severity.Stop);
    }

    [Fact]
    public void Sizes_are_settled_together_so_that_the_cables_weigh_least()
    {
        // A long thin branch beside a heavy short one: by length the main run would be made thick for the long branch's sake.
        var plan = ElectricalPlan.Compute(Plans.Of(Plans.Fixed("a", 60, meters: 0.5), Plans.Fixed("b", 5, meters: 6)));

        Assert.All(plan.Loads, load => Assert.True(load.RatedDrop!.TotalVolts <= 0.414));
        Assert.True(plan.CableKilograms < plan.RunByRunCableKilograms, $"{plan.CableKilograms} kg against {plan.RunByRunCableKilograms} kg");
        Assert.Contains(plan.Explanation.Steps, step => step.Title == "Sizes of all runs together");
        Assert.Contains(plan.Loads[0].Branch!.Limits, l => Math.Abs(l.Limit - (0.414 - plan.MainRun()!.RatedDrop.Volts)) < 1e-9 && l.Unit == "V" && l.Passed);
    }

    [Fact]
    public void The_main_run_gives_way_to_a_branch_whose_body_return_needs_more()
    {
        var load = Plans.Fixed("a", 100, meters: 0.3);
        load = load with { Branch = load.Branch with { ReturnPath = ReturnPath.VehicleBody, BodyReturnOhms = 0.002 } };

        var plan = ElectricalPlan.Compute(Plans.Of(load));

        // The body return alone takes 0.2 V of 0.414 V.
        Assert.True(plan.MainRun()!.RatedDrop.Volts < 0.214);
        Assert.True(plan.Loads[0].RatedDrop!.TotalVolts <= 0.414);
        Assert.DoesNotContain(plan.Findings, f => f.Code == "drop-over-limit");
    }

    [Fact]
    public void The_main_run_gives_way_to_a_branch_of_a_size_chosen_by_hand()
    {
        // 10 A through 10 AWG, 3 m there and back: 30 + 75·√(10/60) = 60.6 °C, 3.342 mΩ/m · 1.160 · 6 m = 23.3 mΩ, 0.233 V.
        // That leaves the main run 0.181 V.
        var load = Plans.Fixed("a", 10, meters: 3);
        var plan = ElectricalPlan.Compute(Plans.Of(load with { Branch = load.Branch with { ForcedSize = "10 AWG" } }));

        Assert.Equal(0.233, plan.Loads[0].RatedDrop!.BranchVolts, 0.0005);
        Assert.True(plan.MainRun()!.RatedDrop.Volts <= 0.414 - 0.233);
        Assert.DoesNotContain(plan.Findings, f => f.Code == "drop-over-limit");
    }

    [Fact]
    public void A_hopeless_branch_is_reported_and_does_not_blow_up_the_main_run()
    {
        var hopeless = Plans.Fixed("b", 30, meters: 2);
        hopeless = hopeless with { Branch = hopeless.Branch with { ReturnPath = ReturnPath.VehicleBody, BodyReturnOhms = 0.05 } };

        var plan = ElectricalPlan.Compute(Plans.Of(Plans.Fixed("a", 10, meters: 2), hopeless));

        // 30 A through 50 mΩ of body are 1.5 V, whatever the conductors.
        var finding = Assert.Single(plan.Findings, f => f.Code == "drop-over-limit");
        Assert.Equal(("b", Severity.Stop), (finding.SubjectId, finding.Severity));
        Assert.Contains("in the runs before it", finding.Text, StringComparison.Ordinal);
        Assert.Equal([true, false], plan.Explanation.Limits.Select(l => l.Passed));
        var withHealthyReturn = ElectricalPlan.Compute(Plans.Of(Plans.Fixed("a", 10, meters: 2), Plans.Fixed("b", 30, meters: 2)));
        Assert.Equal(withHealthyReturn.MainRun()!.Conductor, plan.MainRun()!.Conductor);
    }

    [Fact]
    public void Loads_at_the_battery_alone_need_no_main_run()
    {
        var plan = ElectricalPlan.Compute(Plans.Of(Plans.Fixed("a", 40, meters: 4, from: null)) with { Points = [] });

        Assert.Empty(plan.Points);
        Assert.Equal(0, plan.Loads[0].RatedDrop!.UpstreamVolts);
        Assert.Equal(FuseForm.BoltInSmall, plan.Loads[0].Branch!.Fuse!.Form);
        Assert.DoesNotContain(plan.Findings, f => f.Severity == Severity.Stop);
    }

    [Fact]
    public void Missing_load_data_stop_the_plan_and_are_never_zero()
    {
        var plan = ElectricalPlan.Compute(Plans.Of(
            Plans.Fixed("a", 40), Plans.Fixed("b", null), Plans.Amplifier("c", null), Plans.Amplifier("d", 100, null),
            new ElectricalLoad { Id = "e", Name = "E", Kind = LoadKind.Amplifier }, new ElectricalLoad { Id = "f", Name = "F", Kind = LoadKind.Fixed }));

        var missing = plan.Findings.Where(f => f.Code == "load-data-missing").ToList();
        Assert.Equal(["b", "c", "d", "e", "f"], missing.Select(f => f.SubjectId).Order(StringComparer.Ordinal));
        Assert.All(missing, f => Assert.Equal(Severity.Stop, f.Severity));
        Assert.Contains("rated output power, amplifier class", missing.Single(f => f.SubjectId == "e").Text, StringComparison.Ordinal);
        Assert.False(plan.Totals.IsComplete);
        Assert.Contains("not complete", plan.Explanation.Answer, StringComparison.Ordinal);
        Assert.All(plan.Loads.Skip(1), l => Assert.Null(l.Rated));
        Assert.NotNull(plan.Loads[0].Branch);
    }

    [Fact]
    public void A_branch_without_a_length_is_stopped_but_its_current_counts()
    {
        var load = Plans.Fixed("a", 40);
        var plan = ElectricalPlan.Compute(Plans.Of(load with { Branch = load.Branch with { LengthMeters = null } }, Plans.Fixed("b", 10)));

        Assert.Equal(50, plan.MainAmperes(), 9);
        Assert.Null(plan.Loads[0].Branch);
        Assert.Contains("length of its run", plan.Findings.Of("load-data-missing")!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_main_run_without_a_length_is_stopped()
    {
        var plan = ElectricalPlan.Compute(Plans.Of(Plans.Fixed("a", 40)).WithMain(_ => Plans.MainPoint(null)));

        Assert.Equal((Plans.MainId, Severity.Stop), (plan.Findings.Of("run-data-missing")!.SubjectId, plan.Findings.Of("run-data-missing")!.Severity));
        Assert.Null(plan.MainRun());
        Assert.Null(plan.Loads[0].Branch);
        Assert.Equal(40, plan.MainAmperes(), 9);
    }

    [Fact]
    public void The_main_fuse_is_larger_than_every_fuse_behind_it()
    {
        var load = Plans.Fixed("a", 30);
        var plan = ElectricalPlan.Compute(Plans.Of(load with { MakerFuseAmperes = 80 }, Plans.Fixed("b", 20)));

        // Main 50 A asks for 62.5 -> 70 A alone; the maker's 80 A on the branch asks for the next rating above it.
        Assert.Equal(100, plan.MainRun()!.Fuse!.RatingAmperes);
        Assert.True(plan.MainRun()!.DeratedAmperes >= 100);
        Assert.DoesNotContain(plan.Findings, f => f.Code == "no-selectivity");
        Assert.Contains(plan.MainRun()!.Explanation.Steps, s => s.Title == "Fuse against the fuses behind it");
    }

    [Fact]
    public void A_single_branch_and_the_main_run_may_have_equal_fuses()
    {
        var plan = ElectricalPlan.Compute(Plans.Of(Plans.Fixed("a", 50) with { MakerFuseAmperes = 80 }));

        Assert.Equal((80, 80), (plan.MainRun()!.Fuse!.RatingAmperes, plan.Loads[0].Branch!.Fuse!.RatingAmperes));
        Assert.DoesNotContain(plan.Findings, f => f.Code == "no-selectivity");
    }

    [Fact]
    public void A_main_fuse_chosen_by_hand_below_a_branch_fuse_is_pointed_out()
    {
        var input = Plans.Of(Plans.Fixed("a", 30) with { MakerFuseAmperes = 80 }, Plans.Fixed("b", 20));
        var plan = ElectricalPlan.Compute(input.WithMainRun(r => r with { ForcedFuseAmperes = 70 }));

        Assert.Equal(70, plan.MainRun()!.Fuse!.RatingAmperes);
        Assert.Equal("a", Assert.Single(plan.Findings, f => f.Code == "no-selectivity").SubjectId);
    }

    [Fact]
    public void A_larger_main_fuse_is_given_up_when_no_conductor_allows_it()
    {
        var input = Plans.Of(Plans.Fixed("a", 30) with { MakerFuseAmperes = 80 }, Plans.Fixed("b", 20));
        var plan = ElectricalPlan.Compute(input.WithMainRun(r => r with { ForcedSize = "8 AWG" }));

        Assert.True(plan.MainRun()!.Fuse!.RatingAmperes <= plan.MainRun()!.DeratedAmperes);
        Assert.Equal("a", Assert.Single(plan.Findings, f => f.Code == "no-selectivity").SubjectId);
    }

    [Fact]
    public void Demand_below_the_full_sum_is_allowed_but_reported_and_never_below_music_or_the_largest_load()
    {
        var input = Plans.Of(Plans.Fixed("a", 100), Plans.Fixed("b", 60));

        Assert.Equal(128, ElectricalPlan.Compute(input.WithMain(m => m with { DemandFactor = 0.8 })).MainAmperes(), 9);
        Assert.Equal(100, ElectricalPlan.Compute(input.WithMain(m => m with { DemandFactor = 0.5 })).MainAmperes(), 9);
        Assert.Equal(Severity.Warn, ElectricalPlan.Compute(input.WithMain(m => m with { DemandFactor = 0.8 })).Findings.Of("demand-reduced")!.Severity);
        Assert.Null(ElectricalPlan.Compute(input).Findings.Of("demand-reduced"));
    }

    [Fact]
    public void The_alternator_is_compared_at_idle_and_at_cruise()
    {
        // 120 A: 48 A at idle with the default share; 35 A for the vehicle leaves 13 A, so 20 A on music are 7 A short.
        var input = Plans.Of(Plans.Fixed("a", 50)) with { Alternator = new AlternatorData { RatedAmperes = 120, VehicleBaseAmperes = 35 } };

        var plan = ElectricalPlan.Compute(input);

        Assert.Equal(48, plan.Alternator!.AvailableAtIdleAmperes, 9);
        Assert.Equal(-7, plan.Alternator.SurplusAtIdleAmperes, 9);
        Assert.Equal(0.85 * 120 - 35 - 20, plan.Alternator.SurplusAtCruiseAmperes, 9);
        Assert.Equal(Severity.Warn, plan.Findings.Of("alternator-short-at-idle")!.Severity);
        Assert.Null(plan.Findings.Of("alternator-short-at-cruise"));

        var weak = ElectricalPlan.Compute(input with { Alternator = new AlternatorData { RatedAmperes = 60 } });
        Assert.NotNull(weak.Findings.Of("alternator-short-at-cruise"));
        Assert.Contains("assumed value", weak.Findings.Of("alternator-short-at-cruise")!.Text, StringComparison.Ordinal);
        Assert.Null(ElectricalPlan.Compute(Plans.Of(Plans.Fixed("a", 50))).Alternator);
    }

    [Fact]
    public void Cautions_name_the_table_the_battery_airbags_and_high_voltage_when_it_applies()
    {
        var plain = ElectricalPlan.Compute(Plans.Of(Plans.Fixed("a", 5))).Cautions;
        var hybrid = ElectricalPlan.Compute(Plans.Of(Plans.Fixed("a", 5)) with { HybridOrElectric = true }).Cautions;

        Assert.Contains(plain, c => c.Contains("negative terminal", StringComparison.Ordinal));
        Assert.Contains(plain, c => c.Contains("Written for boats", StringComparison.Ordinal));
        Assert.Contains(plain, c => c.Contains("local codes", StringComparison.Ordinal));
        Assert.Contains(plain, c => c.Contains("airbag", StringComparison.Ordinal));
        Assert.DoesNotContain(plain, c => c.Contains("orange", StringComparison.Ordinal));
        Assert.Contains("orange", hybrid[0], StringComparison.Ordinal);
    }

    [Fact]
    public void The_buy_list_adds_up_to_the_runs()
    {
        var body = Plans.Fixed("c", 12, meters: 2);
        var plan = ElectricalPlan.Compute(Plans.Of(
            Plans.Fixed("a", 12), Plans.Fixed("b", 12), body with { Branch = body.Branch with { ReturnPath = ReturnPath.VehicleBody, BodyReturnOhms = 0.001 } }));

        var runs = plan.Loads.Select(l => l.Branch!).Append(plan.MainRun()!).ToList();
        Assert.Equal(runs.Sum(r => r.LengthMeters), plan.ConductorsToBuy.Sum(c => c.PositiveMeters), 9);
        Assert.Equal(4.5 + 1 + 1, plan.ConductorsToBuy.Sum(c => c.ReturnMeters), 9);
        Assert.Equal(plan.CableKilograms, plan.ConductorsToBuy.Sum(c => c.CableKilograms), 9);
        Assert.Equal(4, plan.FusesToBuy.Sum(f => f.Count));
        Assert.Equal(3, plan.FusesToBuy.Single(f => f.RatingAmperes == 15).Count);
        Assert.True(plan.CopperKilograms < plan.CableKilograms);
    }

    [Fact]
    public void Nothing_is_bought_for_a_run_no_size_fits()
    {
        var plan = ElectricalPlan.Compute(Plans.Of(Plans.Fixed("a", 440)));

        Assert.Empty(plan.ConductorsToBuy);
        Assert.Empty(plan.FusesToBuy);
        Assert.Contains(plan.Findings, f => f.Severity == Severity.Stop);
    }

    [Fact]
    public void Findings_come_gravest_first_and_are_unique_by_code_and_subject()
    {
        var load = Plans.Fixed("a", 30, meters: 8);
        var plan = ElectricalPlan.Compute(Plans.Of(
            load with { Branch = load.Branch with { ForcedSize = "18 AWG", SourceToFuseMeters = null } }, Plans.Fixed("b", null), Plans.Amplifier("c", 300, AmplifierClass.A)));

        Assert.True(plan.Findings.Count >= 4);
        Assert.Equal(plan.Findings.Select(f => f.Severity).OrderDescending(), plan.Findings.Select(f => f.Severity));
        Assert.Equal(plan.Findings.Count, plan.Findings.DistinctBy(f => (f.Code, f.SubjectId)).Count());
        Assert.All(plan.Findings, f => Assert.False(string.IsNullOrWhiteSpace(f.Remedy) || string.IsNullOrWhiteSpace(f.Source)));
    }
}
