using CsCheck;
using ShopFloor.Engineering.Electrical.Network;

namespace ShopFloor.Engineering.Tests.Electrical.Network;

public class NetworkProperties
{
    private static readonly Gen<(int Seed, int Nodes)> _trees = Gen.Select(Gen.Int[0, 100_000], Gen.Int[3, 60]);

    [Fact]
    public void Power_and_current_balance_in_every_tree()
    {
        _trees.Sample(tree =>
        {
            var result = NetworkSolver.Solve(Networks.RandomTree(tree.Seed, tree.Nodes, 400), Networks.Off);
            return result.IsSolved && Math.Abs(result.Balance!.MismatchWatts) < 1e-6 && result.ResidualAmperes < 1e-7;
        }, iter: 200);
    }

    [Fact]
    public void Another_order_or_reference_changes_nothing()
    {
        _trees.Sample(tree =>
        {
            var network = Networks.RandomTree(tree.Seed, tree.Nodes, 400);
            var turned = network with { Nodes = [.. network.Nodes.Reverse()], Elements = [.. network.Elements.Reverse()], ReferenceNodeId = "n1" };
            var (a, b) = (NetworkSolver.Solve(network, Networks.Off), NetworkSolver.Solve(turned, Networks.Off));
            return a.Elements.All(e => Math.Abs(e.Amperes - Networks.Element(b, e.ElementId).Amperes) < 1e-6);
        }, iter: 100);
    }

    [Fact]
    public void More_load_never_raises_a_loads_voltage_on_a_tree()
    {
        _trees.Sample(tree =>
        {
            var network = Networks.RandomTree(tree.Seed, tree.Nodes, 400);
            var more = network with { Elements = [.. network.Elements, new ConstantPowerLoad { Id = "more", Name = "more", From = "n1", To = "gnd", MusicWatts = 50, FullWatts = 50 }] };
            var (a, b) = (NetworkSolver.Solve(network, Networks.Off), NetworkSolver.Solve(more, Networks.Off));
            return a.Elements.Where(e => e.ElementId[0] is 'p' or 'i').All(e => Networks.Element(b, e.ElementId).TerminalVolts <= e.TerminalVolts + 1e-9);
        }, iter: 100);
    }

    [Fact]
    public void Constant_currents_superpose_in_a_linear_network()
    {
        Gen.Select(Gen.Double[0.1, 50], Gen.Double[0.1, 50], Gen.Double[0.001, 0.1]).Sample((first, second, ohms) =>
        {
            double Drop(double a, double b) => 12.6 - Networks.Volts(NetworkSolver.Solve(new Networks().Battery("post", 12.6, 0.005).Ohms("post", "x", ohms)
                .Ohms("x", "y", 2 * ohms).Ohms("post", "y", 0.05).Current("x", a).Current("y", b).Build(), Networks.Off), "y");
            return Math.Abs(Drop(first, second) - Drop(first, 0) - Drop(0, second)) < 1e-9;
        }, iter: 200);
    }

    [Fact]
    public void A_longer_run_lowers_the_voltage_and_the_collapse_factor()
    {
        Gen.Select(Gen.Double[0.5, 8], Gen.Double[1.01, 2], Gen.Double[50, 300]).Sample((meters, longer, watts) =>
        {
            NetworkResult At(double length, double load) =>
                NetworkSolver.Solve(new Networks().Battery("post", 12.6, 0.005).Cable("post", "amp", length, 10, 90).Power("amp", load).Build(), Networks.Off);
            return Networks.Volts(At(meters * longer, watts), "amp") < Networks.Volts(At(meters, watts), "amp")
                && At(meters * longer, 20_000).Collapse!.LargestLoadFactor < At(meters, 20_000).Collapse!.LargestLoadFactor;
        }, iter: 50);
    }
}
