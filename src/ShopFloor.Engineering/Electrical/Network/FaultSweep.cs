using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>A single fault to ground at every node in turn: how much current flows and which fuse clears it.</summary>
public static class FaultSweep
{
    /// <summary>Computes all faults.</summary>
    /// <param name="network">The network.</param>
    /// <param name="scenario">Whether the engine, and with it the alternator, runs. Loads are left out: they drop out when the voltage does.</param>
    /// <param name="faultOhms">Resistance of the fault, Ω (0 to 1000).</param>
    /// <param name="groundNodeId">Node the faults go to; null takes the reference node.</param>
    /// <param name="clearing">How long a fuse carries a current; null asks only whether the current is above its rating.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException">The input is not accepted; the message names element and field.</exception>
    public static FaultSweepResult Run(
        FeedNetwork network, Scenario scenario, double faultOhms = 0, string? groundNodeId = null, FuseClearing? clearing = null, UnitText? text = null)
    {
        text ??= UnitText.Invariant;
        var ground = groundNodeId ?? network.ReferenceNodeId;
        var grounded = network with { ReferenceNodeId = ground };
        var checks = new InputChecks(text);
        checks.InRange(nameof(faultOhms), "Fault resistance in Ω", faultOhms, 0, 1000);
        InputChecks.ThrowIfAny([.. checks.Problems, .. grounded.Validate(text), .. NetworkSolver.ValidateScenario(scenario, text)]);

        var equations = new NetworkEquations(grounded, scenario, selfHeating: false, withLoads: false);
        var before = equations.WithoutLoad();
        var faults = new List<NodeFault>(network.Nodes.Count);
        for (var i = 0; i < network.Nodes.Count; i++)
        {
            if (network.Nodes[i].Id != ground)
                faults.Add(At(grounded, scenario, equations, before, i, faultOhms, clearing));
        }

        return new FaultSweepResult
        {
            Scenario = scenario,
            GroundNodeId = ground,
            FaultOhms = faultOhms,
            Faults = faults,
            Findings = Find(network, faults, text),
            Explanation = Explain(scenario, faultOhms, faults, text),
        };
    }

    private static NodeFault At(
        FeedNetwork network, Scenario scenario, NetworkEquations equations, double[]? before, int node, double faultOhms, FuseClearing? clearing)
    {
        var (amperes, through) = Solve(equations, before, node, faultOhms);
        var fuses = new List<FuseInFault>();
        for (var e = 0; e < network.Elements.Count; e++)
        {
            if (network.Elements[e] is FuseElement { IsBlown: false } fuse && Math.Abs(through[e]) > 1e-6 * Math.Max(1, amperes ?? 1))
                fuses.Add(InFault(fuse, Math.Abs(through[e]), clearing));
        }

        fuses.Sort((a, b) => b.Amperes.CompareTo(a.Amperes));
        var opened = new List<string>();
        return new NodeFault
        {
            NodeId = network.Nodes[node].Id,
            Name = network.Nodes[node].Name,
            ProspectiveAmperes = amperes,
            Fuses = fuses,
            IsCleared = amperes is { } some && (some < 1e-6 || Clears(network, scenario, node, faultOhms, clearing, fuses, opened)),
            OpenedFuseIds = opened,
        };
    }

    private static (double? Amperes, double[] Through) Solve(NetworkEquations equations, double[]? before, int node, double faultOhms)
    {
        if (before is null || !equations.SetFault(node, faultOhms))
            return (null, new double[equations.Elements]);
        var x = (double[])before.Clone();
        if (!equations.Solve(x, 0))
            return (null, new double[equations.Elements]);
        var (through, _) = equations.Currents(x, 0, out var amperes);
        return (Math.Abs(amperes), through);
    }

    private static FuseInFault InFault(FuseElement fuse, double amperes, FuseClearing? clearing)
    {
        var rating = fuse.RatedAmperes!.Value; // demanded of every fuse by Validate
        bool? within = fuse.InterruptAmperes is { } interrupt ? amperes <= interrupt : null;
        var seconds = clearing?.Invoke(fuse, amperes);
        var opens = amperes > rating && (within != false || fuse.InterruptIsFromMemory) && (clearing is null || seconds is not null);
        return new FuseInFault(fuse.Id, fuse.Name, amperes, rating, within, opens, opens ? seconds : null);
    }

    // Fuses open in rounds: what the first ones leave goes through the others.
    private static bool Clears(
        FeedNetwork network, Scenario scenario, int node, double faultOhms, FuseClearing? clearing, IReadOnlyList<FuseInFault> fuses, List<string> opened)
    {
        var opening = fuses.Where(f => f.Opens).Select(f => f.FuseId).ToHashSet(StringComparer.Ordinal);
        while (opening.Count > 0)
        {
            opened.AddRange(opening.Order(StringComparer.Ordinal));
            network = network with { Elements = [.. network.Elements.Select(e => e is FuseElement f && opening.Contains(f.Id) ? f with { IsBlown = true } : e)] };
            if (!IsFed(network, scenario, node))
                return true;
            var equations = new NetworkEquations(network, scenario, selfHeating: false, withLoads: false);
            var (amperes, through) = Solve(equations, equations.WithoutLoad(), node, faultOhms);
            if (amperes is null)
                return false;
            if (amperes < 1e-6)
                return true;
            opening = [.. network.Elements.Where((e, i) => e is FuseElement { IsBlown: false } f && InFault(f, Math.Abs(through[i]), clearing).Opens).Select(e => e.Id)];
        }

        return false;
    }

    // Whether any source reaches the node on a way that does not lead through ground.
    private static bool IsFed(FeedNetwork network, Scenario scenario, int node)
    {
        var index = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var i = 0; i < network.Nodes.Count; i++)
            index[network.Nodes[i].Id] = i;
        var ground = index[network.ReferenceNodeId];
        var parts = new IdealLinks(network.Nodes.Count);
        var sources = new List<int>();
        foreach (var element in network.Elements)
        {
            if (FeedElements.IsLoad(element) || (IdealLinks.VoltsOf(element) is null && !FeedElements.LawOf(element, scenario, false).Conducts))
                continue;
            var (from, to) = (index[element.From], index[element.To]);
            if (from != ground && to != ground)
                parts.Join(from, to, 0);
            if (element is Battery or Alternator)
                sources.Add(to == ground ? from : to);
        }

        var part = parts.Find(node).Root;
        return sources.Any(source => parts.Find(source).Root == part);
    }

    private static List<Finding> Find(FeedNetwork network, List<NodeFault> faults, UnitText text)
    {
        var terminals = network.Elements.Where(e => e is Battery or Alternator).SelectMany(e => new[] { e.From, e.To }).ToHashSet(StringComparer.Ordinal);
        var fuses = network.Elements.OfType<FuseElement>().ToDictionary(e => e.Id, StringComparer.Ordinal);
        var findings = new List<Finding>();
        foreach (var fault in faults)
        {
            var current = fault.ProspectiveAmperes is { } amperes ? About(amperes, text) : "a current nothing limits";
            if (!fault.IsCleared)
            {
                findings.Add(new Finding(
                    "fault-not-cleared", terminals.Contains(fault.NodeId) ? Severity.Warn : Severity.Stop, fault.NodeId, fault.Name,
                    $"A fault to ground here draws {current} and no fuse cuts it off from every source.",
                    fault.Fuses.Any(f => f is { IsWithinInterruptRating: false, Opens: false })
                        ? "Use fuses that can interrupt it: one in the way cannot."
                        : "Put a fuse at each source, as close to it as it can be, and keep what lies before it short and covered.",
                    "33 CFR 183.455 and 183.460"));
            }

            foreach (var fuse in fault.Fuses.Where(f => f.IsWithinInterruptRating == false))
            {
                var element = fuses[fuse.FuseId];
                findings.Add(FuseInterruption.Finding(
                    fuse.FuseId, fuse.Name, $"A short circuit at “{fault.Name}” can drive {About(fuse.Amperes, text)}", "it", element.InterruptAmperes,
                    element.InterruptIsFromMemory, element.InterruptIsFromMemory ? ElectricalDefaults.InterruptSource : "interrupting rating entered", text));
            }
        }

        // One per subject and rule: the first fault that shows it is enough.
        return [.. findings.DistinctBy(f => (f.Code, f.SubjectId)).OrderByDescending(f => f.Severity)];
    }

    // Two figures, upward: the resistances of batteries and contacts are not known better, and a text that reads the same after a small
    // change of a length keeps what was decided about it.
    private static string About(double amperes, UnitText text)
    {
        var step = Math.Pow(10, Math.Floor(Math.Log10(Math.Max(amperes, 1))) - 1);
        return $"about {text.Amperes(Math.Ceiling(Math.Round(amperes / step, 6)) * step)}";
    }

    private static Explanation Explain(Scenario scenario, double faultOhms, List<NodeFault> faults, UnitText text)
    {
        var open = faults.Count(f => !f.IsCleared);
        var largest = faults.Max(f => f.ProspectiveAmperes);
        return new Explanation(
            $"{scenario}: is a fault to ground cleared wherever it happens?",
            open == 0 ? "yes, at every node" : $"no, not at {text.Number(open, 6)} of {text.Number(faults.Count, 6)} nodes",
            [new("Fault resistance", faultOhms, "Ω", "entered")],
            [new("Current into the fault", "network equations with the node held to ground", "loads left out, conductors at ambient temperature",
                largest is { } most ? $"at most {text.Amperes(most)}" : "no limit", "Kirchhoff's laws"),
             new("Fuse opens", "I > rating, I ≤ interrupting rating entered (one from memory only warns), time known where a curve is given", "in rounds until the node is cut off", "list of fuses", "definition of the ratings")],
            [], faults.FirstOrDefault(f => !f.IsCleared)?.Name);
    }
}
