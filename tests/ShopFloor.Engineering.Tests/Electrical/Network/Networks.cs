using ShopFloor.Engineering.Electrical.Network;

namespace ShopFloor.Engineering.Tests.Electrical.Network;

/// <summary>Networks for tests, built a line at a time; nodes come into being when an element names them.</summary>
internal sealed class Networks
{
    private readonly List<string> _nodes = ["gnd"];
    private readonly HashSet<string> _known = ["gnd"];
    private readonly List<FeedElement> _elements = [];

    public static Scenario Off => new(EngineState.Off, LoadLevel.Full);

    public static Scenario Cruise => new(EngineState.Cruise, LoadLevel.Full);

    public Networks Add(FeedElement element)
    {
        foreach (var node in new[] { element.From, element.To })
        {
            if (_known.Add(node))
                _nodes.Add(node);
        }

        _elements.Add(element);
        return this;
    }

    public Networks Battery(string positive, double volts = 12.6, double ohms = 0.005, string negative = "gnd", string? id = null) =>
        Add(new Battery { Id = id ?? "battery-" + positive, Name = id ?? "Battery " + positive, From = negative, To = positive, OpenCircuitVolts = volts, InternalOhms = ohms });

    public Networks Alternator(string positive, double amperes, double volts = 14.4, double slope = 0.002, string negative = "gnd") =>
        Add(new Alternator { Id = "alternator", Name = "Alternator", From = negative, To = positive, SetPointVolts = volts, SlopeOhms = slope, OutputCurve = [new(1000, amperes)] });

    public Networks Ohms(string from, string to, double ohms, string? id = null) =>
        Add(new LumpedResistance { Id = id ?? $"r-{from}-{to}", Name = id ?? $"R {from} {to}", From = from, To = to, Ohms = ohms });

    public Networks Cable(string from, string to, double meters, double area, double? tableAmperes = null, ConductorMetal material = ConductorMetal.Copper) =>
        Add(new Conductor { Id = $"c-{from}-{to}", Name = $"Cable {from} {to}", From = from, To = to, LengthMeters = meters, AreaSquareMillimeters = area, TableAmperes = tableAmperes, Material = material });

    public Networks Fuse(string from, string to, double rating, double ohms = 0.001, double? interrupt = null) =>
        Add(new FuseElement { Id = $"f-{from}-{to}", Name = $"Fuse {from} {to}", From = from, To = to, RatedAmperes = rating, Ohms = ohms, InterruptAmperes = interrupt });

    public Networks Switch(string from, string to, bool closed, double ohms = 0) =>
        Add(new FeedSwitch { Id = $"s-{from}-{to}", Name = $"Switch {from} {to}", From = from, To = to, IsClosed = closed, ClosedOhms = ohms });

    public Networks Power(string from, double watts, string to = "gnd", double? least = null) =>
        Add(new ConstantPowerLoad { Id = $"p-{from}-{to}", Name = $"Load {from} {to}", From = from, To = to, IdleWatts = watts / 20, MusicWatts = watts / 5, FullWatts = watts, MinimumWorkingVolts = least });

    public Networks Current(string from, double amperes, string to = "gnd") =>
        Add(new ConstantCurrentLoad { Id = $"i-{from}-{to}", Name = $"Load {from} {to}", From = from, To = to, MusicAmperes = amperes, FullAmperes = amperes });

    public Networks Resistive(string from, double ohms, string to = "gnd") =>
        Add(new ResistiveLoad { Id = $"l-{from}-{to}", Name = $"Load {from} {to}", From = from, To = to, MusicOhms = ohms, FullOhms = ohms });

    public FeedNetwork Build(string reference = "gnd") =>
        new() { Nodes = [.. _nodes.Select(n => new FeedNode(n, "Node " + n))], Elements = [.. _elements], ReferenceNodeId = reference };

    /// <summary>A tree of given size in which every fourth load has a return cable of its own; the same seed gives the same tree.</summary>
    public static FeedNetwork RandomTree(int seed, int nodes, double totalWatts)
    {
        var random = new Random(seed);
        var network = new Networks().Battery("n0", 12.7, 0.004);
        var children = new int[nodes];
        for (var i = 1; i < nodes; i++)
        {
            var parent = random.Next(i);
            children[parent]++;
            network.Cable($"n{parent}", $"n{i}", 0.1 + 0.4 * random.NextDouble(), 10 + 60 * random.NextDouble(), 100 + 100 * random.NextDouble());
        }

        var leaves = Enumerable.Range(1, nodes - 1).Where(i => children[i] == 0).ToList();
        foreach (var leaf in leaves)
        {
            var to = "gnd";
            if (leaf % 4 == 0)
            {
                to = $"m{leaf}";
                network.Cable(to, "gnd", 0.5, 10, 90);
            }

            var size = totalWatts / leaves.Count * 2 * random.NextDouble();
            if (leaf % 3 == 0)
                network.Current($"n{leaf}", size / 12, to);
            else
                network.Power($"n{leaf}", size, to);
        }

        return network.Build();
    }

    public static double Volts(NetworkResult result, string node) => result.Nodes.Single(n => n.NodeId == node).Volts!.Value; // asked only of nodes that are tied

    public static ElementState Element(NetworkResult result, string id) => result.Elements.Single(e => e.ElementId == id);
}
