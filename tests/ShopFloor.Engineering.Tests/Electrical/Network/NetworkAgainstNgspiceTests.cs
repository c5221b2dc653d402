using ShopFloor.Engineering.Electrical.Network;

namespace ShopFloor.Engineering.Tests.Electrical.Network;

/// <summary>Every voltage here is compared with ngspice's operating point of the same network.</summary>
public class NetworkAgainstNgspiceTests
{
    [Fact]
    public void A_tree_of_twelve_loads_with_returns_agrees()
    {
        var network = new Networks().Battery("post", 12.7, 0.004).Fuse("post", "main", 250, 0.0004).Cable("main", "block", 5, 53.5, 285);
        for (var i = 0; i < 12; i++)
        {
            network.Fuse("block", $"f{i}", 40, 0.0015).Cable($"f{i}", $"a{i}", 0.5 + i * 0.2, 8.4, 80).Cable($"b{i}", "floor", 0.6, 8.4, 80);
            if (i % 3 == 2)
                network.Resistive($"a{i}", 2 + i, $"b{i}");
            else if (i % 3 == 1)
                network.Current($"a{i}", 3 + i * 0.5, $"b{i}");
            else
                network.Power($"a{i}", 60 + 10 * i, $"b{i}");
        }

        network.Ohms("floor", "gnd", 0.0012);

        Ngspice.Agrees(network.Build(), Networks.Off);
    }

    [Fact]
    public void A_looped_network_with_two_batteries_agrees()
    {
        var network = new Networks()
            .Battery("front", 12.8, 0.005).Battery("rear", 12.4, 0.008, "floor").Cable("front", "rear", 5, 35, 210).Cable("front", "left", 3, 16, 120)
            .Cable("left", "rear", 3, 16, 120, ConductorMetal.CopperCladAluminium10).Cable("floor", "gnd", 4, 50, 285, ConductorMetal.CopperCladAluminium15)
            .Ohms("floor", "gnd", 0.002).Power("rear", 900, "floor").Power("left", 300).Current("front", 12);

        Ngspice.Agrees(network.Build(), Networks.Off);
        Ngspice.Agrees(network.Build(), Networks.Off, selfHeating: false);
    }

    [Theory]
    [InlineData(60, true)]
    [InlineData(400, false)]
    public void An_alternator_in_and_out_of_its_limit_agrees(double amperes, bool atLimit)
    {
        var network = new Networks().Battery("post", 12.7, 0.02).Alternator("bplus", amperes, negative: "engine").Cable("bplus", "post", 1.5, 25, 170)
            .Ohms("engine", "gnd", 0.0005).Cable("post", "amp", 5, 35, 210).Power("amp", 1200).Current("post", 35).Build();

        var result = NetworkSolver.Solve(network, Networks.Cruise);

        Assert.Equal(atLimit, result.Findings.Any(f => f.Code == "alternator-at-limit"));
        Ngspice.Agrees(network, Networks.Cruise);
    }

    [Fact]
    public void A_network_with_elements_without_resistance_agrees()
    {
        var network = new Networks().Battery("post", 12.6, 0).Switch("post", "bus", true).Fuse("bus", "out", 100, 0).Ohms("out", "tap", 0)
            .Cable("tap", "amp", 4, 16, 120).Power("amp", 500).Switch("bus", "dead", false).Resistive("dead", 4).Resistive("bus", 6).Build();

        Ngspice.Agrees(network, Networks.Off);
        // The bus resistor and the amplifier both come through the first switch.
        var result = NetworkSolver.Solve(network, Networks.Off);
        Assert.Equal(12.6 / 6 + Networks.Element(result, "p-amp-gnd").Amperes, Networks.Element(result, "s-post-bus").Amperes, 1e-9);
        Assert.Equal(Networks.Element(result, "s-post-bus").Amperes, Networks.Element(result, "battery-post").Amperes, 1e-9);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void Random_trees_of_a_thousand_nodes_agree(int seed)
    {
        Ngspice.Agrees(Networks.RandomTree(seed, 1000, 500), Networks.Off, selfHeating: false);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Random_trees_of_two_hundred_nodes_that_warm_themselves_agree(int seed)
    {
        var tree = Networks.RandomTree(seed, 200, 2500);

        var ours = NetworkSolver.Solve(tree, Networks.Off);
        var (volts, celsius) = Ngspice.SolveWarm(tree, Networks.Off);

        Assert.True(ours.IsSolved);
        Assert.All(ours.Nodes.Where(n => n.NodeId != tree.ReferenceNodeId), n => Assert.Equal(volts[n.NodeId], n.Volts!.Value, 1e-6 * volts[n.NodeId] + 1e-8));
        Assert.All(celsius, c => Assert.Equal(c.Value, Networks.Element(ours, c.Key).ConductorCelsius!.Value, 1e-3));
        // Warm enough to matter: cold, some node would stand elsewhere by far more than is asked above.
        var cold = NetworkSolver.Solve(tree, Networks.Off, selfHeating: false);
        Assert.InRange(celsius.Values.Max() - tree.Elements.OfType<Conductor>().First().AmbientCelsius, 5, 200);
        Assert.InRange(ours.Nodes.Zip(cold.Nodes).Max(pair => Math.Abs(pair.First.Volts!.Value - pair.Second.Volts!.Value)), 1e-3, 12);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    public void Warm_meshes_of_two_batteries_and_two_alternators_agree(int seed)
    {
        var random = new Random(seed);
        var network = new Networks().Battery("n0", 12.4 + random.NextDouble(), 0.003 + 0.01 * random.NextDouble())
            .Battery("n35", 12.2 + random.NextDouble(), 0.004, "ret").Ohms("ret", "gnd", 0.001)
            .Alternator("n0", 20 + 200 * random.NextDouble(), 13.8 + random.NextDouble())
            .Add(new Alternator { Id = "second", Name = "Second alternator", From = "gnd", To = "n6", SetPointVolts = 13.6 + random.NextDouble(), OutputCurve = [new(1000, 20 + 200 * random.NextDouble())] });
        for (var i = 0; i < 36; i++)
        {
            if (i % 6 < 5)
                network.Cable($"n{i}", $"n{i + 1}", 0.3 + random.NextDouble(), 16, 150);
            if (i < 30)
                network.Cable($"n{i}", $"n{i + 6}", 0.3 + random.NextDouble(), 16, 150);
            if (i % 2 == 0)
                network.Power($"n{i}", 250 * random.NextDouble());
            if (i % 5 == 1)
                network.Current($"n{i}", 10 * random.NextDouble(), "ret");
            if (i % 7 == 3)
                network.Resistive($"n{i}", 1 + 5 * random.NextDouble());
        }

        var mesh = network.Build(seed % 3 == 0 ? "n7" : "gnd");
        foreach (var scenario in new[] { Networks.Off, Networks.Cruise })
        {
            // ngspice does not converge on many conductors that warm themselves in loops, so it gets them at the temperatures found here ...
            var ours = NetworkSolver.Solve(mesh, scenario);
            double Celsius(Conductor c) => Networks.Element(ours, c.Id).ConductorCelsius!.Value;
            var held = mesh with { Elements = [.. mesh.Elements.Select(e => e is Conductor c ? c with { TableAmperes = null, AmbientCelsius = Celsius(c) } : e)] };
            var theirs = Ngspice.Solve(held, scenario)!;
            Assert.All(ours.Nodes.Where(n => n.NodeId != mesh.ReferenceNodeId), n => Assert.Equal(theirs[n.NodeId], n.Volts!.Value, 1e-6 * Math.Max(1, Math.Abs(theirs[n.NodeId]))));
            foreach (var c in mesh.Elements.OfType<Conductor>())
            {
                // ... which must be those its own currents give.
                var drop = theirs.GetValueOrDefault(c.From) - theirs.GetValueOrDefault(c.To);
                var amperes = drop / (0.017241 * 1.02 * c.LengthMeters / c.AreaSquareMillimeters * (234.5 + Celsius(c)) / 254.5);
                var rise = (c.InsulationCelsius - c.TableAmbientCelsius) * amperes * amperes / (150 * 150);
                Assert.Equal(c.AmbientCelsius + rise, Celsius(c), 1e-3);
            }
        }
    }

    [Fact]
    public void Where_ours_collapses_ngspice_finds_no_operating_point_either()
    {
        // Two nodes: the most a source E behind R can give is E²/4R = 12²/(4·0.05) = 720 W.
        var network = new Networks().Battery("post", 12, 0.05).Power("post", 900).Build();

        var result = NetworkSolver.Solve(network, Networks.Off);

        Assert.False(result.IsSolved);
        Assert.Equal(720.0 / 900, result.Collapse!.LargestLoadFactor, 1e-8);
        Assert.Equal("p-post-gnd", result.Collapse.LoadId);
        // With the current held below 0.1 V ngspice can only end there, far from any working voltage, or give up.
        var theirs = Ngspice.Solve(network, Networks.Off);
        Assert.True(theirs is null || theirs["post"] < 0.1, theirs is null ? "" : $"ngspice ended at {theirs["post"]} V");
        // Just inside the limit both have one.
        Ngspice.Agrees(new Networks().Battery("post", 12, 0.05).Power("post", 715).Build(), Networks.Off);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.01)]
    public void Fault_currents_agree(double faultOhms)
    {
        var network = new Networks().Battery("post", 12.8, 0.005).Fuse("post", "main", 150, 0.0005).Cable("main", "block", 5, 33.6, 210)
            .Battery("rear", 12.5, 0.01).Fuse("rear", "tie", 150, 0.0005).Cable("tie", "block", 0.5, 33.6, 210)
            .Cable("block", "amp", 1, 8.4, 80).Power("amp", 400, "floor").Ohms("floor", "gnd", 0.002).Alternator("post", 120).Build();

        var sweep = FaultSweep.Run(network, Networks.Cruise, faultOhms);

        foreach (var node in new[] { "main", "block", "amp", "rear" })
        {
            // The sense source reads the current of the fault.
            var volts = Ngspice.Solve(network, Networks.Cruise, selfHeating: false, loads: false, extra: $"Vfault x{node} xsense 0\nRfault xsense 0 {Math.Max(faultOhms, 1e-9).ToString("R", System.Globalization.CultureInfo.InvariantCulture)}")!;
            var expected = volts[node] / Math.Max(faultOhms, 1e-9);
            var ours = sweep.Faults.Single(f => f.NodeId == node).ProspectiveAmperes!.Value;
            Assert.True(Math.Abs(ours - expected) <= 2e-6 * expected, $"{node}: ours {ours:R} A, ngspice {expected:R} A");
        }
    }
}
