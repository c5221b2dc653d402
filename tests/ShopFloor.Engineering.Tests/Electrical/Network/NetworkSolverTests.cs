using ShopFloor.Engineering.Electrical.Network;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Tests.Electrical.Network;

public class NetworkSolverTests
{
    // V = (E + √(E² − 4·R·P))/2, the upper root of V² − E·V + R·P = 0.
    [Theory]
    [InlineData(12.6, 0.02, 300)]
    [InlineData(14.4, 0.05, 900)]
    [InlineData(12, 0.005, 7190)]
    public void One_constant_power_load_follows_the_quadratic(double volts, double ohms, double watts)
    {
        var result = NetworkSolver.Solve(new Networks().Battery("post", volts, ohms).Power("post", watts).Build(), Networks.Off);

        Assert.Equal((volts + Math.Sqrt(volts * volts - 4 * ohms * watts)) / 2, Networks.Volts(result, "post"), 1e-8);
    }

    [Fact]
    public void A_conductor_at_table_current_and_ambient_sits_at_its_insulation_limit()
    {
        // The law's own anchor: 80 A is 33 CFR 183.425 table 5 for 8 AWG at 105 °C; resistance of copper at 105 °C is 339.5/254.5 of that at 20 °C.
        var result = NetworkSolver.Solve(new Networks().Battery("post", 13, 0.01).Cable("post", "end", 3, 8.366, 80).Current("end", 80).Build(), Networks.Off);

        var cable = Networks.Element(result, "c-post-end");
        Assert.Equal(105, cable.ConductorCelsius!.Value, 1e-6);
        Assert.Equal(80 * 0.017241 * 1.02 * 3 / 8.366 * 339.5 / 254.5, cable.TerminalVolts!.Value, 1e-9);
        Assert.DoesNotContain(result.Findings, f => f.Code == "conductor-above-insulation");
    }

    [Theory]
    [InlineData(12, 0.05, 900)]
    [InlineData(14, 0.3, 1000)]
    public void The_collapse_factor_is_the_most_a_source_can_give(double volts, double ohms, double watts)
    {
        // Maximum power transfer: E²/4R.
        var result = NetworkSolver.Solve(new Networks().Battery("post", volts, ohms).Power("post", watts).Build(), Networks.Off);

        Assert.Equal(volts * volts / (4 * ohms) / watts, result.Collapse!.LargestLoadFactor, 1e-8);
        Assert.Equal("voltage-collapse", Assert.Single(result.Findings).Code);
    }

    [Fact]
    public void An_alternator_alone_feeds_what_it_can_and_no_more()
    {
        // 14.4 V behind 2 mΩ up to 100 A: at the limit 14.2 V and 1420 W; beyond it a heater of 0.1 Ω gets 100 A · 0.1 Ω = 10 V.
        NetworkResult With(Func<Networks, Networks> load) => NetworkSolver.Solve(load(new Networks().Alternator("post", 100)).Build(), Networks.Cruise);

        Assert.Equal((14.4 + Math.Sqrt(14.4 * 14.4 - 4 * 0.002 * 300)) / 2, Networks.Volts(With(n => n.Power("post", 300)), "post"), 1e-9);
        Assert.Equal(10, Networks.Volts(With(n => n.Resistive("post", 0.1)), "post"), 1e-9);
        Assert.Equal(1420.0 / 3000, With(n => n.Power("post", 3000)).Collapse!.LargestLoadFactor, 1e-8);
        Assert.Equal(100.0 / 150, With(n => n.Current("post", 150)).Collapse!.LargestLoadFactor, 1e-8);
    }

    [Fact]
    public void The_load_at_the_end_of_the_thin_cable_is_named_when_the_voltage_collapses()
    {
        var network = new Networks().Battery("post", 12.6, 0.005).Power("post", 200).Ohms("post", "far", 0.2).Power("far", 400).Build();

        Assert.Equal("p-far-gnd", NetworkSolver.Solve(network, Networks.Off).Collapse!.LoadId);
    }

    [Fact]
    public void What_is_wrong_is_found_and_named()
    {
        var network = new Networks().Battery("post", 12.6, 0.01).Alternator("post", 20).Fuse("post", "main", 30).Cable("main", "amp", 6, 4, 20)
            .Power("amp", 380, least: 11).Switch("post", "off", false).Current("off", 5).Build();

        var codes = NetworkSolver.Solve(network, Networks.Cruise).Findings.Select(f => (f.Code, f.SubjectId)).ToList();

        Assert.Contains(("fuse-over-rating", "f-post-main"), codes);
        Assert.Contains(("conductor-above-insulation", "c-main-amp"), codes);
        Assert.Contains(("load-below-minimum", "p-amp-gnd"), codes);
        Assert.Contains(("alternator-at-limit", "alternator"), codes);
        Assert.Contains(("battery-discharging", "battery-post"), codes);
        Assert.Contains(("load-not-fed", "i-off-gnd"), codes);
    }

    [Fact]
    public void All_nine_scenarios_are_solved_in_order()
    {
        var results = NetworkSolver.SolveAll(new Networks().Battery("post").Alternator("post", 90).Power("post", 400).Build());

        Assert.Equal(Scenario.All, results.Select(r => r.Scenario));
        Assert.All(results, r => Assert.True(r.IsSolved));
    }

    [Fact]
    public void A_fault_behind_a_fuse_is_cleared_and_one_before_it_is_not()
    {
        var network = new Networks().Battery("post", 12.6, 0.01).Fuse("post", "amp", 100, 0.002).Power("amp", 300).Build();

        var sweep = FaultSweep.Run(network, Networks.Off);

        // Ohm's law: 12.6/0.010 and 12.6/0.012.
        Assert.Equal(1260, sweep.Faults[0].ProspectiveAmperes!.Value, 1e-6);
        Assert.Equal(1050, sweep.Faults[1].ProspectiveAmperes!.Value, 1e-6);
        Assert.False(sweep.Faults[0].IsCleared);
        Assert.True(sweep.Faults[1].IsCleared);
        Assert.Contains(sweep.Findings, f => f.Code == "fault-not-cleared" && f.SubjectId == "post");
    }

    [Fact]
    public void A_fuse_that_cannot_interrupt_or_never_opens_clears_nothing()
    {
        var weak = new Networks().Battery("post", 12.6, 0.01).Fuse("post", "amp", 100, 0.002, interrupt: 1000).Power("amp", 300).Build();
        var sound = new Networks().Battery("post", 12.6, 0.01).Fuse("post", "amp", 100, 0.002).Power("amp", 300).Build();

        var findings = FaultSweep.Run(weak, Networks.Off).Findings;
        Assert.Contains(findings, f => f.Code == "fuse-cannot-interrupt");
        Assert.Contains(findings, f => f.Code == "fault-not-cleared" && f.Remedy.Contains("can interrupt", StringComparison.Ordinal));
        Assert.False(FaultSweep.Run(sound, Networks.Off, clearing: (_, _) => null).Faults[1].IsCleared);
        Assert.Equal(0.2, FaultSweep.Run(sound, Networks.Off, clearing: (_, _) => 0.2).Faults[1].Fuses[0].Seconds);
    }

    [Fact]
    public void A_remembered_rating_below_the_fault_only_warns_and_the_fuse_is_taken_to_open()
    {
        var stated = new Networks().Battery("post", 12.6, 0.01).Fuse("post", "amp", 100, 0.002, interrupt: 1000).Power("amp", 300).Build();
        var remembered = stated with { Elements = [.. stated.Elements.Select(e => e is FuseElement f ? f with { InterruptIsFromMemory = true } : e)] };

        var sweep = FaultSweep.Run(remembered, Networks.Off);

        var finding = sweep.Findings.Single(f => f.Code == "fuse-cannot-interrupt");
        Assert.Equal((Severity.Warn, "from memory; look at the maker's figure"), (finding.Severity, finding.Source));
        Assert.True(sweep.Faults[1].IsCleared);
        Assert.Equal(Severity.Stop, FaultSweep.Run(stated, Networks.Off).Findings.Single(f => f.Code == "fuse-cannot-interrupt").Severity);
    }

    [Fact]
    public void Bad_networks_are_refused_by_element_and_field()
    {
        void Refused(FeedNetwork network, string field, string name)
        {
            Assert.Contains(network.Validate(), p => p.Field.Contains(field, StringComparison.Ordinal) && p.Message.Contains(name, StringComparison.Ordinal));
            Assert.Throws<ArgumentOutOfRangeException>(() => NetworkSolver.Solve(network, Networks.Off));
        }

        var good = new Networks().Battery("post").Power("post", 10).Build();
        Assert.Empty(good.Validate());
        Refused(new Networks().Battery("post", double.NaN).Power("post", 10).Build(), "OpenCircuitVolts", "Battery post");
        Refused(new Networks().Battery("post").Cable("post", "a", 0, 10).Power("a", 10).Build(), "LengthMeters", "Cable post a");
        Refused(new Networks().Battery("post").Ohms("post", "a", -1).Power("a", 10).Build(), "Ohms", "R post a");
        Refused(new Networks().Battery("post", 12, 0, id: "one").Battery("post", 13, 0, id: "two").Power("post", 10).Build(), "InternalOhms", "two");
        Refused(new Networks().Battery("post").Power("post", 10).Ohms("x", "y", 1).Build(), "Nodes[2]", "Node x");
        Refused(new Networks().Battery("post").Build(), "Elements", "no load");
        Refused(new Networks().Power("post", 10).Build(), "Elements", "no source");
        Refused(good with { ReferenceNodeId = "moon" }, "ReferenceNodeId", "moon");
        Refused(good with { Nodes = [.. good.Nodes, good.Nodes[0]] }, "Nodes[2].Id", "gnd");
        Refused(good with { Elements = [.. good.Elements, good.Elements[1]] }, "Elements[2].Id", "Load post gnd");
        Refused(good with { Elements = [.. good.Elements, good.Elements[1] with { Id = "z", From = "moon" }] }, "Elements[2].From", "moon");
        Refused(good with { Elements = [good.Elements[0], .. Enumerable.Range(0, 10_001).Select(i => good.Elements[1] with { Id = $"p{i}" })] }, "Elements", "10");
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-100)]
    public void An_alternator_that_does_not_turn_gives_nothing_whatever_its_curve_begins_with(double shaftRpm)
    {
        var alternator = new Alternator { Id = "a", Name = "Alternator", From = "ground", To = "battery", SetPointVolts = 14, OutputCurve = [new(0, 40), new(6000, 120)] };

        Assert.Equal(0, alternator.LimitAmperes(shaftRpm));
        // Half of the way from 40 A to 120 A.
        Assert.Equal(80, alternator.LimitAmperes(3000), 9);
    }
}
