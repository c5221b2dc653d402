using CsCheck;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Electrical.Conductors;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Tests.Electrical;

public class PlanSizingChoicesTests
{
    private static readonly AmpacityTable _table = PublishedTables.Cfr33Part183425;

    private static SizingRules Metric => Rules(SizedTable.Copper(_table, SizeSystem.VehicleMetric)!);

    private static SizingRules Rules(AmpacityTable table) => new() { Table = table, AvailableSizes = [.. table.Rows.Select(r => r.Conductor.Label)] };

    private static ElectricalPlanInput WithBattery(double milliohms, params ElectricalLoad[] loads) =>
        Plans.Of(loads) with { Battery = new BatterySource(12.65, milliohms / 1000) };

    [Fact]
    public void A_metric_size_is_allowed_the_current_of_the_gauge_below_it_and_drops_by_its_own_published_resistance()
    {
        // 25 mm² vehicle cable: 0.743 Ω/km conducts like 23.67 mm² of stranded copper; 4 AWG (21.15 mm²) is below it, 3 AWG (26.67) is not.
        // 33 CFR 183.425 table 5 allows 4 AWG 160 A at 105 °C.
        var row = Metric.Table.Row("25 mm² vehicle cable")!;

        Assert.Equal(160, row.Amperes[4]);
        Assert.Equal(0.743e-3, row.Conductor.OhmsPerMeterAt20Celsius, 12);
        Assert.Contains("no interpolation", Metric.Table.Source, StringComparison.Ordinal);

        var plan = ElectricalPlan.Compute(Plans.Of(Plans.Fixed("a", 60)) with { Rules = Metric });
        Assert.EndsWith("mm² vehicle cable", plan.MainRun()!.Conductor.Label, StringComparison.Ordinal);
        Assert.Contains("ISO 6722-1", plan.MainRun()!.Explanation.Steps.Single(s => s.Title == "Voltage drop there and back").Source, StringComparison.Ordinal);
    }

    [Fact]
    public void A_table_printed_in_square_millimeters_gives_its_currents_to_the_same_nominal_size()
    {
        var own = _table with { Rows = [new(new ConductorSize("10 mm²", 10), [.. Enumerable.Repeat(50.0, 7)])] };

        var row = Assert.Single(SizedTable.Copper(own, SizeSystem.Class5Metric)!.Rows);

        // IEC 60228 class 5: 10 mm² has 1.91 Ω/km.
        Assert.Equal(("10 mm² class 5", 50.0), (row.Conductor.Label, row.Amperes[0]));
        Assert.Equal(1.91e-3, row.Conductor.OhmsPerMeterAt20Celsius, 12);
    }

    [Fact]
    public void Copper_clad_aluminium_has_more_resistance_less_current_and_a_caution()
    {
        var clad = SizedTable.Clad(_table, SizeSystem.Awg, ConductorMaterial.CopperCladAluminium10A)!;
        var rules = Runs.EverySize with { CopperClad = new CableFamily(clad, [.. clad.Rows.Select(r => r.Conductor.Label)]) };
        var input = Plans.Of(Plans.Fixed("a", 60)) with { Rules = rules };
        var copper = ElectricalPlan.Compute(input).MainRun()!;

        var run = ElectricalPlan.Compute(input.WithMainRun(data => data with { CopperClad = true })).MainRun()!;

        Assert.True(run.Conductor.Material.IsCopperClad);
        Assert.True(run.Conductor.AreaSquareMillimeters > copper.Conductor.AreaSquareMillimeters);
        // 62.9 % IACS (ASTM B566 class 10A): 1 AWG (42.41 mm²) conducts like copper two gauges thinner, 3 AWG (26.67 mm²), allowed 180 A.
        Assert.Equal(180, clad.Row("1 AWG copper-clad aluminium 10A")!.Amperes[4]);
        var caution = run.Findings.Of("copper-clad-conductor")!;
        Assert.Contains("ASTM B566", caution.Source, StringComparison.Ordinal);
        Assert.Contains("terminals", caution.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_clad_run_without_clad_sizes_is_refused_by_field()
    {
        var input = Plans.Of(Plans.Fixed("a", 60)).WithMainRun(data => data with { CopperClad = true });

        Assert.Equal("Points[0].Run.CopperClad", Assert.Single(input.Validate()).Field);
    }

    [Fact]
    public void A_load_keeps_its_own_drop_limit_and_the_others_the_plans()
    {
        var strict = Plans.Fixed("strict", 30, 3) with { MaxDropPercent = 1.5 };
        var plan = ElectricalPlan.Compute(Plans.Of(strict, Plans.Fixed("usual", 30, 3)) with { SupplyVolts = 14 });

        // 1.5 % and 3 % of 14 V.
        Assert.Equal([0.21, 0.42], plan.Loads.Select(load => Math.Round(load.LimitVolts, 9)));
        Assert.True(plan.Loads[0].RatedDrop!.TotalVolts <= 0.21 + 1e-9);
        Assert.True(plan.Loads[1].RatedDrop!.TotalVolts is > 0.21 and <= 0.42 + 1e-9);
    }

    [Fact]
    public void The_main_fuse_gets_a_form_that_interrupts_what_the_battery_gives()
    {
        // 12.65 V / 8 mΩ = 1581 A: more than the small bolt-in's 1000 A, less than the large one's 2000 A, both from memory.
        var without = ElectricalPlan.Compute(Plans.Of(Plans.Fixed("a", 60))).MainRun()!;
        var run = ElectricalPlan.Compute(WithBattery(8, Plans.Fixed("a", 60))).MainRun()!;

        Assert.Equal(FuseForm.BoltInSmall, without.Fuse!.Form);
        Assert.Equal(FuseForm.BoltInLarge, run.Fuse!.Form);
        Assert.Equal(12.65 / 0.008, run.ProspectiveAmperes!.Value, 6);
        Assert.Contains(run.Limits, limit => limit.Name == "Fuse interrupts the short-circuit current" && limit.Passed && limit.Source.Contains("from memory", StringComparison.Ordinal));
    }

    [Fact]
    public void A_stronger_battery_calls_for_the_reserve_form()
    {
        // 12.65 V / 5 mΩ = 2530 A: above the large bolt-in's 2000 A, within the strip's 2700 A, both from memory.
        Assert.Equal(FuseForm.Strip, ElectricalPlan.Compute(WithBattery(5, Plans.Fixed("a", 60))).MainRun()!.Fuse!.Form);
    }

    [Fact]
    public void A_fuse_no_form_of_is_remembered_to_interrupt_the_short_circuit_is_warned_of_naming_current_and_rating()
    {
        var plan = ElectricalPlan.Compute(WithBattery(4, Plans.Fixed("a", 4), Plans.Fixed("amplifier", 120)));

        // A 5 A fuse is made as a blade only (1000 A, from memory); forms that interrupt more begin at 35 A.
        var finding = plan.Findings.Single(f => f.Code == "fuse-cannot-interrupt" && f.SubjectId == "a");
        Assert.Equal(Severity.Warn, finding.Severity);
        Assert.Equal("from memory; look at the maker's figure", finding.Source);
        Assert.Equal(
            "A short circuit can drive 2536 A through it; a 5 A blade fuse interrupts 1000 A, a figure from memory. No form of the shop's list with a fitting rating interrupts more.",
            finding.Text.Replace('\u00a0', ' '));
        Assert.Equal(FuseForm.Blade, plan.Loads[0].Branch!.Fuse!.Form);
        Assert.False(plan.Loads[0].Branch!.KeepsAllLimits);
    }

    [Fact]
    public void The_makers_figure_on_the_fuse_goes_before_the_remembered_one()
    {
        var load = Plans.Fixed("a", 4);
        var plan = ElectricalPlan.Compute(WithBattery(8, load with { Branch = load.Branch with { Fitted = new FittedFuse(FuseForm.Blade, 5, 3000) } }));

        Assert.DoesNotContain(plan.Findings, f => f is { Code: "fuse-cannot-interrupt", SubjectId: "a" });
        Assert.Equal(3000, plan.Loads[0].Branch!.Fuse!.InterruptAmperes);
    }

    [Fact]
    public void A_makers_figure_the_short_circuit_exceeds_is_a_stop()
    {
        var load = Plans.Fixed("a", 4);
        // 12.65 V / 4 mΩ is 3163 A at the battery, still more than 1000 A behind the main run; the part says 500 A.
        var plan = ElectricalPlan.Compute(WithBattery(4, load with { Branch = load.Branch with { Fitted = new FittedFuse(FuseForm.Blade, 5, 500) } }, Plans.Fixed("amplifier", 120)));

        var finding = plan.Findings.Single(f => f.Code == "fuse-cannot-interrupt" && f.SubjectId == "a");
        Assert.Equal(Severity.Stop, finding.Severity);
        Assert.DoesNotContain("from memory", finding.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_second_battery_counts_on_both_sides_of_a_fuse()
    {
        var input = WithBattery(8, Plans.Fixed("a", 60)).WithMain(point => point with { Kind = FeedPointKind.Battery, Battery = new BatterySource(12.65, 0.004) }) with { Rules = Metric };

        var plan = ElectricalPlan.Compute(input);

        var main = plan.MainRun()!;
        // ISO 6722-1: 35 mm² has 0.527 mΩ/m at 20 °C; 4.5 m at −20 °C, times (234.5 − 20)/(234.5 + 20), have 1.9988 mΩ.
        Assert.Equal(("35 mm² vehicle cable", 4.5), (main.Conductor.Label, main.LengthMeters));
        // Backward: the second battery through the cable into a fault right before the main fuse, 12.65 V / 5.9988 mΩ.
        Assert.Equal(2108.8, main.ProspectiveAmperes!.Value, 1);
        // Both ways: 12.65 V / 9.9988 mΩ and 12.65 V / 4 mΩ.
        Assert.Equal(4427.7, plan.Loads[0].Branch!.ProspectiveAmperes!.Value, 1);
    }

    [Fact]
    public void The_alternator_adds_the_larger_of_its_rating_and_its_curve_to_a_short_circuit()
    {
        AlternatorOutput Upto(double amperes) => new() { HotCurve = [new(1500, 50), new(6000, amperes)], Origin = "measured" };
        double At(AlternatorOutput? output) => ElectricalPlan.Compute(WithBattery(8, Plans.Fixed("a", 60)) with { Alternator = new AlternatorData { RatedAmperes = 120, Output = output } })
            .MainRun()!.ProspectiveAmperes!.Value;

        // 12.65 V / 8 mΩ = 1581.25 A, and 120 A or 150 A.
        Assert.Equal(1701.25, At(null), 6);
        Assert.Equal(1701.25, At(Upto(110)), 6);
        Assert.Equal(1731.25, At(Upto(150)), 6);
    }

    [Fact]
    public void Whatever_the_battery_the_forms_settle_and_reach_unless_a_stop_says_otherwise()
    {
        Gen.Select(Gen.Double[1, 30], Gen.Double[1, 150].Array[1, 5], Gen.Double[0.3, 8]).Sample(
            (milliohms, amperes, meters) =>
            {
                var plan = ElectricalPlan.Compute(WithBattery(milliohms, [.. amperes.Select((a, i) => Plans.Fixed($"l{i}", a, meters))]));
                var runs = plan.Points.Select(p => p.Run).Concat(plan.Loads.Select(l => l.Branch)).OfType<RunSizingResult>();
                return runs.All(run => run.Fuse is not { } fuse
                    || fuse.InterruptAmperes >= run.ProspectiveAmperes * (1 - 1e-9)
                    || plan.Findings.Any(f => f.Code == "fuse-cannot-interrupt" && f.SubjectId == run.RunId));
            },
            iter: 300);
    }

    [Fact]
    public void What_runs_would_get_one_by_one_adds_up_to_the_mass_shown_for_it()
    {
        var plan = ElectricalPlan.Compute(Plans.Of(Plans.Fixed("a", 60, 3), Plans.Fixed("b", 20, 2)));

        Assert.Equal(3, plan.RunByRunSizes.Count);
        Assert.Equal(plan.RunByRunCableKilograms, plan.RunByRunSizes.Sum(run =>
            run.ConductorMeters * (run.Conductor.CopperKilogramsPerMeter + run.Conductor.InsulationKilogramsPerMeterEstimate)), 9);
    }
}
