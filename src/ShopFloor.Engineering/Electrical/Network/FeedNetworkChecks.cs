using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>Finds what keeps a network from being solved, before any equation is written.</summary>
internal static class FeedNetworkChecks
{
    private const double Tiny = 1e-9;

    public static IReadOnlyList<InputProblem> Check(FeedNetwork network, UnitText text)
    {
        var checks = new InputChecks(text);
        if (network.Nodes is null || network.Elements is null || network.Nodes.Any(n => n is null) || network.Elements.Any(e => e is null))
        {
            checks.Add(nameof(FeedNetwork.Elements), "Network: a node or an element is empty; leave it out.");
            return checks.Problems;
        }

        Count(checks, nameof(FeedNetwork.Nodes), "Nodes", network.Nodes.Count, FeedNetwork.MaxNodes, text);
        Count(checks, nameof(FeedNetwork.Elements), "Elements", network.Elements.Count, FeedNetwork.MaxElements, text);
        var loads = network.Elements.Count(FeedElements.IsLoad);
        Count(checks, nameof(FeedNetwork.Elements), "Loads", loads, FeedNetwork.MaxLoads, text);
        if (checks.Problems.Count > 0)
            return checks.Problems;

        var nodes = Names(checks, network);
        for (var i = 0; i < network.Elements.Count; i++)
            Element(checks, network.Elements[i], $"{nameof(FeedNetwork.Elements)}[{i}]", nodes);
        if (loads == 0)
            checks.Add(nameof(FeedNetwork.Elements), "Network: it has no load; add at least one.");
        if (!network.Elements.Any(e => e is Battery or Alternator))
            checks.Add(nameof(FeedNetwork.Elements), "Network: it has no source; add a battery or an alternator.");
        if (network.ReferenceNodeId is null || !nodes.ContainsKey(network.ReferenceNodeId))
            checks.Add(nameof(FeedNetwork.ReferenceNodeId), $"Reference node: there is no node “{network.ReferenceNodeId}”; choose one of the network's nodes.");
        if (checks.Problems.Count == 0)
            Shape(checks, network, nodes, text);
        return checks.Problems;
    }

    private static void Count(InputChecks checks, string field, string label, int count, int most, UnitText text)
    {
        if (count > most)
            checks.Add(field, $"{label}: {text.Number(count, 7)} are not accepted; at most {text.Number(most, 7)} are solved.");
    }

    private static Dictionary<string, int> Names(InputChecks checks, FeedNetwork network)
    {
        var nodes = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var i = 0; i < network.Nodes.Count; i++)
        {
            var field = $"{nameof(FeedNetwork.Nodes)}[{i}].{nameof(FeedNode.Id)}";
            if (string.IsNullOrWhiteSpace(network.Nodes[i].Id))
                checks.Add(field, $"Node “{network.Nodes[i].Name}”, identifier: nothing was entered; enter a text.");
            else if (!nodes.TryAdd(network.Nodes[i].Id, i))
                checks.Add(field, $"Node “{network.Nodes[i].Name}”, identifier: “{network.Nodes[i].Id}” is used twice; give each node its own.");
        }

        var elements = new HashSet<string>(StringComparer.Ordinal);
        for (var i = 0; i < network.Elements.Count; i++)
        {
            var field = $"{nameof(FeedNetwork.Elements)}[{i}].{nameof(FeedElement.Id)}";
            if (string.IsNullOrWhiteSpace(network.Elements[i].Id))
                checks.Add(field, $"{network.Elements[i].Name}, identifier: nothing was entered; enter a text.");
            else if (!elements.Add(network.Elements[i].Id))
                checks.Add(field, $"{network.Elements[i].Name}, identifier: “{network.Elements[i].Id}” is used twice; give each element its own.");
        }

        return nodes;
    }

    private static void Element(InputChecks checks, FeedElement element, string path, Dictionary<string, int> nodes)
    {
        void Range(string field, string label, double? value, double minimum, double maximum, QuantityKind? kind = null) =>
            checks.InRange($"{path}.{field}", $"{element.Name}, {label}", value, minimum, maximum, kind);
        void Node(string field, string label, string? id)
        {
            if (id is null || !nodes.ContainsKey(id))
                checks.Add($"{path}.{field}", $"{element.Name}, {label}: there is no node “{id}”; choose one of the network's nodes.");
        }

        Node(nameof(FeedElement.From), "start", element.From);
        Node(nameof(FeedElement.To), "end", element.To);
        if (element.From is not null && element.From == element.To)
            checks.Add($"{path}.{nameof(FeedElement.To)}", $"{element.Name}, end: it starts and ends at “{element.To}”; choose two different nodes.");
        Range(nameof(FeedElement.RatedAmperes), "rated current", element.RatedAmperes, Tiny, 100_000, QuantityKind.Current);
        switch (element)
        {
            case Battery b:
                Range(nameof(b.OpenCircuitVolts), "voltage without load", b.OpenCircuitVolts, Tiny, 1000, QuantityKind.Voltage);
                Range(nameof(b.InternalOhms), "internal resistance in Ω", b.InternalOhms, 0, 1000);
                Range(nameof(b.ChargingOhms), "resistance while charging in Ω", b.ChargingOhms, Tiny, 1000);
                Range(nameof(b.CapacityAmpereHours), "capacity in Ah", b.CapacityAmpereHours, Tiny, 100_000);
                Range(nameof(b.RatedHours), "hours the capacity is rated for", b.RatedHours, 1, 200);
                Range(nameof(b.PeukertExponent), "Peukert exponent", b.PeukertExponent, 1, 2);
                if (b.InternalOhms == 0 && b.ChargingOhms is not null)
                    checks.Add($"{path}.{nameof(b.ChargingOhms)}", $"{b.Name}, resistance while charging: a battery with 0 Ω inside has none; enter an internal resistance above 0 Ω or leave this empty.");
                break;
            case Alternator a:
                Range(nameof(a.SetPointVolts), "regulated voltage", a.SetPointVolts, Tiny, 1000, QuantityKind.Voltage);
                Range(nameof(a.SlopeOhms), "fall of the voltage with current in Ω", a.SlopeOhms, 1e-6, 10);
                Range(nameof(a.PulleyRatio), "pulley ratio", a.PulleyRatio, 0.1, 10);
                Curve(checks, a, path);
                break;
            case Conductor c:
                checks.Known($"{path}.{nameof(c.Material)}", $"{c.Name}, material", c.Material);
                Range(nameof(c.AreaSquareMillimeters), "cross-section", c.AreaSquareMillimeters, 0.05, 2000, QuantityKind.ConductorArea);
                Range(nameof(c.LengthMeters), "length", c.LengthMeters, 0.001, 1000, QuantityKind.Length);
                Range(nameof(c.AmbientCelsius), "surrounding temperature", c.AmbientCelsius, -60, 200, QuantityKind.Temperature);
                Range(nameof(c.InsulationCelsius), "insulation temperature", c.InsulationCelsius, 40, 250, QuantityKind.Temperature);
                Range(nameof(c.TableAmperes), "current of the ampacity table", c.TableAmperes, Tiny, 100_000, QuantityKind.Current);
                Range(nameof(c.TableAmbientCelsius), "ambient of the ampacity table", c.TableAmbientCelsius, -60, double.IsFinite(c.InsulationCelsius) ? c.InsulationCelsius - 1 : 200, QuantityKind.Temperature);
                break;
            case LumpedResistance r:
                Range(nameof(r.Ohms), "resistance in Ω", r.Ohms, 0, 1_000_000);
                break;
            case FuseElement f:
                Range(nameof(f.Ohms), "resistance in Ω", f.Ohms, 0, 1000);
                Range(nameof(f.InterruptAmperes), "interrupting rating", f.InterruptAmperes, Tiny, 1_000_000, QuantityKind.Current);
                if (f.RatedAmperes is null)
                    checks.Add($"{path}.{nameof(f.RatedAmperes)}", $"{f.Name}, rated current: nothing was entered; enter the rating on the fuse.");
                break;
            case FeedSwitch s:
                Range(nameof(s.ClosedOhms), "contact resistance in Ω", s.ClosedOhms, 0, 1000);
                break;
            case FeedCapacitor c:
                Range(nameof(c.Farads), "capacitance in F", c.Farads, 1e-15, 100_000);
                break;
            case ConstantPowerLoad p:
                Range(nameof(p.IdleWatts), "power at idle", p.IdleWatts, 0, 1_000_000, QuantityKind.Power);
                Range(nameof(p.MusicWatts), "power on music", p.MusicWatts, 0, 1_000_000, QuantityKind.Power);
                Range(nameof(p.FullWatts), "power at full output", p.FullWatts, 0, 1_000_000, QuantityKind.Power);
                Range(nameof(p.MinimumWorkingVolts), "lowest working voltage", p.MinimumWorkingVolts, 0, 1000, QuantityKind.Voltage);
                break;
            case ConstantCurrentLoad c:
                Range(nameof(c.IdleAmperes), "current at idle", c.IdleAmperes, 0, 100_000, QuantityKind.Current);
                Range(nameof(c.MusicAmperes), "current on music", c.MusicAmperes, 0, 100_000, QuantityKind.Current);
                Range(nameof(c.FullAmperes), "current at full output", c.FullAmperes, 0, 100_000, QuantityKind.Current);
                Range(nameof(c.MinimumWorkingVolts), "lowest working voltage", c.MinimumWorkingVolts, 0, 1000, QuantityKind.Voltage);
                break;
            case ResistiveLoad r:
                Range(nameof(r.IdleOhms), "resistance at idle in Ω", r.IdleOhms, 1e-6, 1e9);
                Range(nameof(r.MusicOhms), "resistance on music in Ω", r.MusicOhms, 1e-6, 1e9);
                Range(nameof(r.FullOhms), "resistance at full output in Ω", r.FullOhms, 1e-6, 1e9);
                Range(nameof(r.MinimumWorkingVolts), "lowest working voltage", r.MinimumWorkingVolts, 0, 1000, QuantityKind.Voltage);
                break;
            case VehicleBaseLoad v:
                Range(nameof(v.EngineOffAmperes), "current with the engine off", v.EngineOffAmperes, 0, 10_000, QuantityKind.Current);
                Range(nameof(v.EngineRunningAmperes), "current with the engine running", v.EngineRunningAmperes, 0, 10_000, QuantityKind.Current);
                break;
        }
    }

    private static void Curve(InputChecks checks, Alternator alternator, string path)
    {
        var field = $"{path}.{nameof(Alternator.OutputCurve)}";
        if (alternator.OutputCurve is not { Count: > 0 } curve || curve.Any(p => p is null))
        {
            checks.Add(field, $"{alternator.Name}, output curve: it has no points; enter at least one.");
            return;
        }

        for (var i = 0; i < curve.Count; i++)
        {
            checks.InRange($"{field}[{i}].{nameof(AlternatorPoint.AlternatorRpm)}", $"{alternator.Name}, shaft speed in 1/min", curve[i].AlternatorRpm, 0, 100_000);
            checks.InRange($"{field}[{i}].{nameof(AlternatorPoint.Amperes)}", $"{alternator.Name}, output", curve[i].Amperes, 0, 100_000, QuantityKind.Current);
            if (i > 0 && curve[i].AlternatorRpm <= curve[i - 1].AlternatorRpm)
                checks.Add($"{field}[{i}].{nameof(AlternatorPoint.AlternatorRpm)}", $"{alternator.Name}, output curve: the speeds must rise from point to point.");
        }
    }

    private static void Shape(InputChecks checks, FeedNetwork network, Dictionary<string, int> nodes, UnitText text)
    {
        var joined = new IdealLinks(network.Nodes.Count);
        var ideal = new IdealLinks(network.Nodes.Count);
        for (var i = 0; i < network.Elements.Count; i++)
        {
            var element = network.Elements[i];
            var (from, to) = (nodes[element.From], nodes[element.To]);
            joined.Join(from, to, 0);
            if (IdealLinks.VoltsOf(element) is not { } volts || ideal.Join(from, to, volts))
                continue;
            var field = $"{nameof(FeedNetwork.Elements)}[{i}].{OhmsField(element)}";
            var gap = volts - (ideal.Find(to).Volts - ideal.Find(from).Volts);
            checks.Add(field, Math.Abs(gap) > 1e-12 * Math.Abs(volts)
                ? $"{element.Name}, resistance: 0 Ω closes a loop without any resistance in which {text.Volts(Math.Abs(gap))} is left over, so the current has no limit; enter a resistance above 0 Ω."
                : $"{element.Name}, resistance: 0 Ω closes a loop without any resistance, so how the current divides is not determined; enter a resistance above 0 Ω.");
        }

        var reference = joined.Find(nodes[network.ReferenceNodeId]).Root;
        for (var i = 0; i < network.Nodes.Count; i++)
        {
            if (joined.Find(i).Root != reference)
            {
                checks.Add($"{nameof(FeedNetwork.Nodes)}[{i}]",
                    $"Node “{network.Nodes[i].Name}”: nothing connects it to the reference node; connect it or leave it out.");
            }
        }
    }

    private static string OhmsField(FeedElement element) => element switch
    {
        Battery => nameof(Battery.InternalOhms),
        FeedSwitch => nameof(FeedSwitch.ClosedOhms),
        _ => nameof(LumpedResistance.Ohms),
    };
}
