using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Conductors;
using ShopFloor.Engineering.Electrical.Sizing;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Tests.Electrical.Sizing;

public class TreeSizingTests
{
    private static readonly IReadOnlyList<CableOption> _gauges = CableOption.FromTable(PublishedTables.Cfr33Part183425);

    private static readonly IReadOnlyList<CableOption> _clad =
        CableOption.FromTable(AmpacityByArea.Match(PublishedTables.Cfr33Part183425, PublishedSizes.Gauges(ConductorMaterial.CopperCladAluminium10A)).Table);

    /// <summary>A main run of 4 m to a distribution point, two branches of 1.5 m and 0.5 m with 40 A and 20 A.</summary>
    private static TreeSizingInput Car { get; } = Trees.Of(
        [Trees.Run("main", null, 4), Trees.Run("rear", "main", 1.5), Trees.Run("near", "main", 0.5)],
        Trees.Load("rear", 40, 0.414), Trees.Load("near", 20, 0.414));

    private static CableOption Priced(CableOption cable, decimal price) => cable with { PricePerMeter = price };

    [Fact]
    public void The_published_two_wire_case_takes_the_size_that_the_drop_asks_for()
    {
        // ABYC E-11 example: 10 A over 21 ft there and back, 3 % of 12 V: 6271 circular mils at 29 °C, so 12 AWG. This program takes the conductor
        // at its loaded temperature with 2 % for stranding and so asks for more copper than the example's 29 °C: 10 AWG.
        var input = Trees.Of([Trees.Run("r", null, 21 * 0.3048 / 2)], Trees.Load("r", 10, 0.36)) with { SupplyVolts = 12 };

        var run = Assert.Single(TreeSizing.Size(input).Runs);

        Assert.Equal("10 AWG", run.Conductor.Label);
        Assert.Equal(SizeDecision.VoltageDrop, run.DecidedBy);
        Assert.Equal("12 AWG", run.RefusedSize);
        // 12 AWG cold would do: 10 A · 21 ft · 1.588 Ω/kft = 0.333 V (solid copper at 20 °C).
        Assert.True(VoltageDrop.Volts(ConductorSize.Awg(12).OhmsPerMeter(20), 21 * 0.3048, 10) < 0.36);
    }

    [Fact]
    public void A_single_run_is_sized_as_a_run_on_its_own_is()
    {
        foreach (var (amperes, meters) in new[] { (5.0, 1.0), (40, 4), (100, 2.5), (150, 5) })
        {
            var alone = RunSizing.Size(Runs.Run(amperes, meters) with { FedFromBattery = true, MaxDropVolts = 0.414 });
            var tree = TreeSizing.Size(Trees.Of([Trees.Run("r", null, meters)], Trees.Load("r", amperes, 0.414)));

            Assert.Equal(alone.Conductor.Label, tree.Runs[0].Conductor.Label);
            Assert.Equal(alone.Fuse, tree.Runs[0].Fuse);
            Assert.Equal(alone.RatedDrop.Volts, tree.Runs[0].DropVolts, 9);
            Assert.Equal(alone.DecidedBy, tree.Runs[0].DecidedBy);
            Assert.Equal(alone.CopperKilograms, tree.Totals!.ConductorKilograms, 9);
        }
    }

    [Theory]
    [InlineData(40, 20, 1, 1)]
    [InlineData(40, 20, 3, 1)]
    public void The_lightest_cables_are_those_the_plan_settles_on_for_a_main_run_with_branches(double first, double second, double firstMeters, double secondMeters)
    {
        var plan = ElectricalPlan.Compute(Plans.Of(Plans.Fixed("a", first, firstMeters), Plans.Fixed("b", second, secondMeters)) with { SupplyVolts = 13.8 });
        var tree = TreeSizing.Size(Trees.Of(
            [Trees.Run("main", null, 4.5), Trees.Run("a", "main", firstMeters), Trees.Run("b", "main", secondMeters)],
            Trees.Load("a", first), Trees.Load("b", second)) with { Objective = SizingObjective.CableMass });

        Assert.Equal(plan.CableKilograms, tree.Totals!.CableKilograms, 9);
        Assert.True(tree.Totals.CableKilograms <= tree.RunByRun!.CableKilograms);
    }

    [Fact]
    public void Currents_fuses_and_totals_follow_the_tree()
    {
        var result = TreeSizing.Size(Car);

        Assert.Equal([60.0, 40, 20], result.Runs.Select(r => r.ContinuousAmperes));
        Assert.Equal([80.0, 50, 25], result.Runs.Select(r => r.Fuse!.RatingAmperes)); // 60, 40 and 20 A over 0.8
        Assert.Equal(result.Runs.Sum(r => r.ConductorKilograms), result.Totals!.ConductorKilograms, 9);
        Assert.Equal(result.Runs[0].DropVolts + result.Runs[1].DropVolts, result.Loads[0].DropVolts, 9);
        Assert.All(result.Runs.SelectMany(r => r.Limits), l => Assert.True(l.Passed, l.Name));
        Assert.Contains(result.Explanation.Steps, s => s.Source.Contains("33 CFR 183.425", StringComparison.Ordinal));
        Assert.Empty(result.Blockers);
    }

    [Fact]
    public void A_fuse_is_above_the_largest_of_several_behind_it_unless_that_is_switched_off()
    {
        var input = Car.WithRun(1, r => r with { MakerFuseAmperes = 100 });

        // The next rating above 100 A is 120 A (high-current blade, ISO 8820).
        Assert.Equal([120.0, 100, 25], TreeSizing.Size(input).Runs.Select(r => r.Fuse!.RatingAmperes));
        Assert.Equal([80.0, 100, 25], TreeSizing.Size(input with { FuseNotBelowFusesBehind = false }).Runs.Select(r => r.Fuse!.RatingAmperes));
    }

    [Fact]
    public void A_run_without_a_fuse_carries_the_fuse_upstream()
    {
        var result = TreeSizing.Size(Car.WithRun(2, r => r with { HasFuse = false }));

        Assert.Equal(80, result.Runs[2].ProtectedByAmperes);
        Assert.Null(result.Runs[2].Fuse);
        Assert.True(result.Runs[2].DeratedAmperes >= 80);
        Assert.Equal(SizeDecision.FuseRating, result.Runs[2].DecidedBy);
    }

    [Fact]
    public void A_run_that_no_fuse_protects_is_flagged()
    {
        var result = TreeSizing.Size(Car.WithRun(0, r => r with { HasFuse = false }));

        Assert.Equal(Severity.Stop, result.Findings.Of("unfused-run")!.Severity);
        Assert.Null(result.Runs[0].ProtectedByAmperes);
    }

    [Fact]
    public void A_size_chosen_by_hand_is_kept_and_the_others_make_the_best_of_it()
    {
        var free = TreeSizing.Size(Car);
        var forced = TreeSizing.Size(Car.WithRun(0, r => r.WithRoute(d => d with { ForcedSize = "4/0 AWG" })));

        Assert.Equal("4/0 AWG", forced.Runs[0].Conductor.Label);
        Assert.Equal(SizeDecision.Forced, forced.Runs[0].DecidedBy);
        Assert.True(forced.Runs[1].Conductor.AreaSquareMillimeters <= free.Runs[1].Conductor.AreaSquareMillimeters);
        Assert.True(forced.Totals!.ConductorKilograms > free.Totals!.ConductorKilograms);
    }

    [Fact]
    public void Only_stocked_sizes_are_chosen_when_asked()
    {
        var cables = CableOption.FromTable(PublishedTables.Cfr33Part183425, ["8 AWG", "2/0 AWG"]);

        var stocked = TreeSizing.Size(Car with { Cables = cables, StockedOnly = true });
        var any = TreeSizing.Size(Car with { Cables = cables });

        Assert.All(stocked.Runs, r => Assert.Contains(r.Conductor.Label, (string[])["8 AWG", "2/0 AWG"]));
        Assert.True(any.Totals!.ConductorKilograms < stocked.Totals!.ConductorKilograms);
    }

    [Fact]
    public void Copper_clad_is_chosen_only_where_it_is_allowed_and_with_a_caution()
    {
        var input = Car with { Cables = [.. _gauges, .. _clad] };

        var copper = TreeSizing.Size(input);
        var mixed = TreeSizing.Size(input with { Runs = [.. input.Runs.Select((r, i) => r with { AllowCopperCladAluminium = i == 0 })] });

        Assert.All(copper.Runs, r => Assert.False(r.Conductor.Material.IsCopperClad));
        Assert.True(mixed.Runs[0].Conductor.Material.IsCopperClad);
        Assert.True(mixed.Totals!.ConductorKilograms < copper.Totals!.ConductorKilograms);
        var caution = mixed.Findings.Of("copper-clad-conductor")!;
        Assert.Equal((Severity.Warn, "main"), (caution.Severity, caution.SubjectId));
        Assert.Contains("terminals", caution.Remedy, StringComparison.Ordinal);
        Assert.Contains("1.59", caution.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_cheapest_set_can_differ_from_the_lightest_and_costs_no_more()
    {
        // Prices are invented: 2 AWG happens to be on offer below 4 AWG.
        var cables = _gauges.Select(c => Priced(c, c.Conductor.Label == "2 AWG" ? 1m : (decimal)(c.Conductor.AreaSquareMillimeters * 0.2))).ToList();

        var light = TreeSizing.Size(Car with { Cables = cables });
        var cheap = TreeSizing.Size(Car with { Cables = cables, Objective = SizingObjective.Cost });

        Assert.True(cheap.Totals!.Price < light.Totals!.Price);
        Assert.True(cheap.Totals.ConductorKilograms > light.Totals.ConductorKilograms);
        Assert.True(cheap.SavedPrice >= 0);
        Assert.Equal(cheap.Runs.Sum(r => r.Price!.Value), cheap.Totals.Price);
        Assert.Null(TreeSizing.Size(Car).SavedPrice);
    }

    [Fact]
    public void A_body_return_takes_its_share_of_the_drop_and_is_not_metal()
    {
        var body = TreeSizing.Size(Car.WithRun(0, r => r.WithRoute(d => d with { ReturnPath = ReturnPath.VehicleBody, BodyReturnOhms = 0.001 })));

        Assert.Equal(4, body.Runs[0].ConductorMeters, 9);
        Assert.True(body.Runs[0].DropVolts > 0.060); // 60 A · 1 mΩ alone
        Assert.Equal(8, TreeSizing.Size(Car).Runs[0].ConductorMeters, 9);
    }

    [Fact]
    public void A_run_that_feeds_nothing_gets_the_least_and_a_note()
    {
        var result = TreeSizing.Size(Car with { Runs = [.. Car.Runs, Trees.Run("spare", "main")] });

        Assert.Null(result.Runs[3].SlackVolts);
        Assert.Equal("spare", result.Findings.Of("run-feeds-nothing")!.SubjectId);
    }

    [Fact]
    public void A_load_too_large_for_every_cable_names_the_run_and_the_current()
    {
        var result = TreeSizing.Size(Trees.Of([Trees.Run("r")], Trees.Load("r", 400)) with { Rules = Runs.EverySize with { BatteryFuses = [FuseRatings.BoltInLarge] } });

        var blocker = Assert.Single(result.Blockers);
        Assert.False(result.IsFeasible);
        // 400 A asks for 500 A of fuse; 4/0 AWG may carry 445 A (33 CFR 183.425, 105 °C).
        Assert.Equal(("r", SizeDecision.FuseRating), (blocker.RunId, blocker.Limit));
        Assert.Equal(445, blocker.Best, 9);
        Assert.Equal(500, blocker.Needed, 9);
        Assert.NotEmpty(blocker.Help);
        Assert.Empty(result.Runs);
        Assert.Contains(result.Findings, f => f.Severity == Severity.Stop);
    }

    [Fact]
    public void A_drop_out_of_reach_names_the_run_that_takes_most_and_what_would_help()
    {
        var input = Car.WithRun(0, r => r with { AllowedSizes = ["4 AWG", "2 AWG"] });
        var result = TreeSizing.Size(input with { Loads = [Trees.Load("rear", 40, 0.15), Trees.Load("near", 20, 0.414)] });

        var blocker = Assert.Single(result.Blockers);
        Assert.Equal(("main", "load-rear", SizeDecision.VoltageDrop), (blocker.RunId, blocker.LoadId, blocker.Limit));
        Assert.True(blocker.Best > blocker.Needed);
        // 60 A over 8 m at 60 °C: 3/0 AWG drops 0.115 V, 2/0 AWG 0.145 V; about 0.128 V is left for the main run.
        Assert.Contains("allow 3/0 AWG", blocker.Help, StringComparison.Ordinal);
    }

    [Fact]
    public void An_allowed_size_that_cannot_carry_it_points_to_one_that_is_not_allowed()
    {
        var blocker = Assert.Single(TreeSizing.Size(Car.WithRun(1, r => r with { AllowedSizes = ["14 AWG"] })).Blockers);

        Assert.Equal(("rear", SizeDecision.Ampacity), (blocker.RunId, blocker.Limit));
        Assert.Equal(35, blocker.Best, 9); // 33 CFR 183.425: 14 AWG at 105 °C
        Assert.Contains("10 AWG would carry it", blocker.Help, StringComparison.Ordinal);
    }

    [Fact]
    public void A_load_above_every_fuse_is_refused_by_its_fuse()
    {
        var blocker = Assert.Single(TreeSizing.Size(Trees.Of([Trees.Run("r")], Trees.Load("r", 450))).Blockers);

        Assert.Equal(SizeDecision.FuseRating, blocker.Limit);
        Assert.Contains("fuse", blocker.Help, StringComparison.Ordinal);
    }

    [Fact]
    public void A_thousand_runs_are_sized()
    {
        var runs = Enumerable.Range(0, 1000).Select(i => Trees.Run($"r{i}", i == 0 ? null : $"r{(i - 1) / 10}", 0.3 + i % 7 * 0.2)).ToList();
        var leaves = Enumerable.Range(100, 900).Select(i => Trees.Load($"r{i}", 0.1 + i % 5 * 0.05, 0.3 + i % 3 * 0.2)).ToArray();

        var result = TreeSizing.Size(Trees.Of(runs, leaves));

        Assert.True(result.IsFeasible);
        Assert.Equal(1000, result.Runs.Count);
        Assert.True(result.SavedKilograms >= -1e-9);
    }

    [Fact]
    public void The_ends_of_a_run_stand_in_the_formula_of_its_drop_where_they_have_a_resistance()
    {
        string Formula(TreeSizingInput input) => TreeSizing.Size(input).Explanation.Steps.Single(step => step.Title == "Drop of a run").Formula;

        Assert.Equal("U = I · (R′(T) · L + R_body)", Formula(Car));
        Assert.Equal("U = I · (R′(T) · L + R_body + R_ends)", Formula(Car.WithRun(1, r => r.WithRoute(d => d with { TerminationOhms = 0.0005 }))));
    }

    public static TheoryData<string, string, TreeSizingInput> Impossible => new()
    {
        { "Runs", "1 to 2000", Car with { Runs = [] } },
        { "Runs[1].Id", "used twice", Car.WithRun(1, r => r with { Id = "main" }) },
        { "Runs[1].ParentId", "is no run", Car.WithRun(1, r => r with { ParentId = "nowhere" }) },
        { "Runs[0].ParentId", "cannot feed itself", Car.WithRun(0, r => r with { ParentId = "rear" }) },
        { "Runs[0].ParentId", "cannot feed itself", Car.WithRun(0, r => r with { ParentId = "main" }) },
        { "Runs[0].Route.LengthMeters", "0.05\u00a0m to 30\u00a0m", Car.WithRun(0, r => r.WithRoute(d => d with { LengthMeters = -1 })) },
        { "Runs[0].Route.LengthMeters", "nothing was entered", Car.WithRun(0, r => r.WithRoute(d => d with { LengthMeters = null })) },
        { "Runs[0].Route.CopperClad", "use AllowCopperCladAluminium", Car.WithRun(0, r => r.WithRoute(d => d with { CopperClad = true })) },
        { "Runs[0].DemandFactor", "0.1 to 1", Car.WithRun(0, r => r with { DemandFactor = 2 }) },
        { "Runs[0].MakerFuseAmperes", "maker's fuse", Car.WithRun(0, r => r with { MakerFuseAmperes = double.NaN }) },
        { "Runs[0].AllowedSizes", "is not among the cables", Car.WithRun(0, r => r with { AllowedSizes = ["7 AWG"] }) },
        { "Runs[0].AllowedSizes", "the list is empty", Car.WithRun(0, r => r with { AllowedSizes = [] }) },
        { "Runs[0].HasFuse", "without a fuse", Car.WithRun(0, r => (r with { HasFuse = false }).WithRoute(d => d with { ForcedFuseAmperes = 40 })) },
        { "Loads[0].RunId", "is no run", Car with { Loads = [Car.Loads[0] with { RunId = "x" }] } },
        { "Loads[0].RatedAmperes", "rated current", Car with { Loads = [Car.Loads[0] with { RatedAmperes = 0 }] } },
        { "Loads[0].MusicAmperes", "current on music", Car with { Loads = [Car.Loads[0] with { MusicAmperes = 41 }] } },
        { "Loads[0].MaxDropVolts", "voltage drop allowed", Car with { Loads = [Car.Loads[0] with { MaxDropVolts = 0 }] } },
        { "Loads[1].Id", "used twice", Car with { Loads = [Car.Loads[0], Car.Loads[0]] } },
        { "SupplyVolts", "6\u00a0V to 49.9\u00a0V", Car with { SupplyVolts = 60 } },
        { "Cables", "1 to 200", Car with { Cables = [] } },
        { "Cables[1]", "listed twice", Car with { Cables = [_gauges[0], _gauges[0]] } },
        { "Cables[0].Table", "is not in", Car with { Cables = [new CableOption(new ConductorSize("x", 4), PublishedTables.Cfr33Part183425)] } },
        { "Cables[0].PricePerMeter", "the cheapest was asked for", Car with { Cables = _gauges, Objective = SizingObjective.Cost } },
        { "Cables", "no cable has a price", Car with { Objective = SizingObjective.Cost } },
        { "Cables[0].PricePerMeter", "0 to 10 000", Car with { Cables = [Priced(_gauges[0], -1)] } },
    };

    [Theory]
    [MemberData(nameof(Impossible))]
    public void Impossible_trees_are_refused_by_field(string field, string says, TreeSizingInput input)
    {
        Assert.Contains(input.Validate(), p => p.Field == field && p.Message.Contains(says, StringComparison.Ordinal));
        Assert.Throws<ArgumentOutOfRangeException>(() => TreeSizing.Size(input));
    }
}
