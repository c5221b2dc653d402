using BenchmarkDotNet.Attributes;
using ShopFloor.Engineering.Electrical.Network;
using ShopFloor.Engineering.Tests.Electrical.Network;

namespace ShopFloor.Benchmarks;

/// <summary>How the time to solve a supply tree grows with its nodes, beside ngspice on the same tree (its time includes starting the program).</summary>
public class NetworkBenchmarks
{
    private FeedNetwork _network = null!;

    /// <summary>Nodes of the tree, returns not counted.</summary>
    [Params(10, 100, 1_000, 10_000)]
    public int Nodes { get; set; }

    [GlobalSetup]
    public void Build() => _network = Networks.RandomTree(1, Nodes, 300);

    [Benchmark(Baseline = true)]
    public NetworkResult Solve()
    {
        var result = NetworkSolver.Solve(_network, Networks.Off);
        Assert.True(result.IsSolved);
        return result;
    }

    [Benchmark]
    public int NgspiceOnTheSame()
    {
        var volts = Ngspice.Solve(_network, Networks.Off, selfHeating: false);
        Assert.NotNull(volts);
        return volts.Count;
    }
}

/// <summary>A fault at every node of a tree.</summary>
public class FaultSweepBenchmarks
{
    private FeedNetwork _network = null!;

    /// <summary>Nodes of the tree, returns not counted.</summary>
    [Params(10, 100, 1_000)]
    public int Nodes { get; set; }

    [GlobalSetup]
    public void Build()
    {
        // Every tenth cable gets a fuse in front of it, so that faults have something to open.
        var tree = Networks.RandomTree(1, Nodes, 300);
        var fused = new List<FeedElement>();
        var points = new List<FeedNode>(tree.Nodes);
        foreach (var element in tree.Elements)
        {
            if (element is not Conductor || fused.Count % 10 != 1)
            {
                fused.Add(element);
                continue;
            }

            var point = $"{element.Id}-fused";
            points.Add(new FeedNode(point, point));
            fused.Add(new FuseElement { Id = $"f-{element.Id}", Name = "Fuse", From = element.From, To = point, RatedAmperes = 100, Ohms = 0.0005 });
            fused.Add(element with { From = point });
        }

        _network = tree with { Nodes = points, Elements = fused };
    }

    [Benchmark]
    public FaultSweepResult Sweep() => FaultSweep.Run(_network, Networks.Off);
}
