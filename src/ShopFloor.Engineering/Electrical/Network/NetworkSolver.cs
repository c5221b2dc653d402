using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>
/// Direct-current steady state of a supply network: nodal analysis (C.-W. Ho, A. Ruehli, P. Brennan, IEEE Trans. Circuits and Systems 22
/// (1975) 504) with Newton's method for constant power, the alternator's limit and the warming of conductors. Elements without resistance
/// are taken out beforehand by joining their nodes.
/// </summary>
public static class NetworkSolver
{
    /// <summary>Solves a network in one scenario.</summary>
    /// <param name="network">The network.</param>
    /// <param name="scenario">What engine and loads do.</param>
    /// <param name="selfHeating">Whether conductors warm up with their current; otherwise they stay at ambient temperature.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException">The input is not accepted; see <see cref="FeedNetwork.Validate"/>. The message names element and field.</exception>
    public static NetworkResult Solve(FeedNetwork network, Scenario scenario, bool selfHeating = true, UnitText? text = null)
    {
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny([.. network.Validate(text), .. ValidateScenario(scenario, text)]);
        return SolveChecked(network, scenario, selfHeating, text);
    }

    /// <summary>Solves a network in several scenarios, in the order given; by default in all nine of <see cref="Scenario.All"/>.</summary>
    /// <param name="network">The network.</param>
    /// <param name="scenarios">The scenarios; null takes all.</param>
    /// <param name="selfHeating">Whether conductors warm up with their current.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException">The input is not accepted; see <see cref="FeedNetwork.Validate"/>.</exception>
    public static IReadOnlyList<NetworkResult> SolveAll(
        FeedNetwork network, IReadOnlyList<Scenario>? scenarios = null, bool selfHeating = true, UnitText? text = null)
    {
        text ??= UnitText.Invariant;
        scenarios ??= Scenario.All;
        InputChecks.ThrowIfAny([.. network.Validate(text), .. scenarios.SelectMany(s => ValidateScenario(s, text))]);
        return [.. scenarios.Select(scenario => SolveChecked(network, scenario, selfHeating, text))];
    }

    internal static IReadOnlyList<InputProblem> ValidateScenario(Scenario scenario, UnitText text)
    {
        var checks = new InputChecks(text);
        checks.Known(nameof(Scenario.Engine), "Engine", scenario.Engine);
        checks.Known(nameof(Scenario.Level), "Load level", scenario.Level);
        checks.InRange(nameof(Scenario.IdleEngineRpm), "Engine speed at idle in 1/min", scenario.IdleEngineRpm, 100, 20_000);
        checks.InRange(nameof(Scenario.CruiseEngineRpm), "Engine speed at cruise in 1/min", scenario.CruiseEngineRpm, 100, 20_000);
        return checks.Problems;
    }

    private static NetworkResult SolveChecked(FeedNetwork network, Scenario scenario, bool selfHeating, UnitText text)
    {
        var equations = new NetworkEquations(network, scenario, selfHeating);
        var x = equations.WithoutLoad();
        if (x is null)
            return NoPoint(network, scenario, equations, null, text);
        var unloaded = (double[])x.Clone();
        if (!equations.Solve(x, 1) && FindCollapse(network, equations, unloaded, x) is { } collapse)
            return NoPoint(network, scenario, equations, collapse, text);

        var volts = equations.NodeVolts(x);
        var (amperes, residual) = equations.Currents(x, 1, out _);
        var nodes = network.Nodes.Select((n, i) => new NodeState(n.Id, n.Name, equations.Floating.Contains(i) ? null : volts[i])).ToList();
        var index = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var i = 0; i < network.Nodes.Count; i++)
            index[network.Nodes[i].Id] = i;
        var elements = new List<ElementState>(network.Elements.Count);
        for (var e = 0; e < network.Elements.Count; e++)
        {
            var element = network.Elements[e];
            elements.Add(StateOf(element, equations.Detached(e) ? null : volts[index[element.From]] - volts[index[element.To]], amperes[e]));
        }

        return new NetworkResult
        {
            Scenario = scenario,
            IsSolved = true,
            Nodes = nodes,
            Elements = elements,
            Balance = BalanceOf(network, elements),
            Iterations = equations.Iterations,
            ResidualAmperes = residual,
            Findings = NetworkFindings.Find(network, scenario, elements, equations, text),
            Explanation = NetworkExplanation.Make(network, scenario, elements, equations.Iterations, residual, selfHeating, text),
        };
    }

    private static ElementState StateOf(FeedElement element, double? fromOverTo, double amperes)
    {
        var isSource = element is Battery or Alternator;
        var dissipated = element switch
        {
            Battery b => amperes * amperes * (amperes >= 0 ? b.InternalOhms : b.ChargingOhms ?? b.InternalOhms),
            Alternator => 0,
            _ => (fromOverTo ?? 0) * amperes,
        };
        return new ElementState(
            element.Id, element.Name, amperes, isSource ? -fromOverTo : fromOverTo, dissipated,
            element is Conductor c ? c.CelsiusAt(amperes) : null,
            element is Battery battery ? battery.HoursAt(amperes) : null);
    }

    private static EnergyBalance BalanceOf(FeedNetwork network, List<ElementState> elements)
    {
        var (source, charging, load, loss) = (0.0, 0.0, 0.0, 0.0);
        for (var e = 0; e < elements.Count; e++)
        {
            var state = elements[e];
            switch (network.Elements[e])
            {
                case Battery b:
                    source += Math.Max(0, b.OpenCircuitVolts * state.Amperes);
                    charging += Math.Max(0, -b.OpenCircuitVolts * state.Amperes);
                    loss += state.DissipatedWatts;
                    break;
                case Alternator:
                    source += (state.TerminalVolts ?? 0) * state.Amperes;
                    break;
                case var other when FeedElements.IsLoad(other):
                    load += state.DissipatedWatts;
                    break;
                default:
                    loss += state.DissipatedWatts;
                    break;
            }
        }

        return new EnergyBalance(source, charging, load, loss);
    }

    // Raises all loads together from none. When that reaches the full loads after all, the last solution is kept and there is no collapse.
    private static VoltageCollapse? FindCollapse(FeedNetwork network, NetworkEquations equations, double[] unloaded, double[] x)
    {
        Array.Copy(unloaded, x, x.Length);
        var (good, bad) = (0.0, double.NaN);
        for (var factor = 0.125; factor <= 1; factor += 0.125)
        {
            if (!equations.Solve(x, factor))
            {
                bad = factor;
                break;
            }

            good = factor;
        }

        if (double.IsNaN(bad))
            return null;
        while (bad - good > 1e-11 * bad && bad > 1e-12)
        {
            var middle = (good + bad) / 2;
            if (equations.Solve(x, middle))
                good = middle;
            else
                bad = middle;
        }

        if (good >= 1)
            return null;
        var sensitivity = equations.Sensitivity(x, good);
        var worst = Enumerable.Range(0, sensitivity.Length)
            .Where(e => FeedElements.IsLoad(network.Elements[e]))
            .OrderByDescending(e => Math.Abs(sensitivity[e]))
            .ThenBy(e => network.Elements[e].Id, StringComparer.Ordinal)
            .First();
        return new VoltageCollapse(good, network.Elements[worst].Id, network.Elements[worst].Name, equations.Over(worst, x), Math.Abs(sensitivity[worst]));
    }

    private static NetworkResult NoPoint(FeedNetwork network, Scenario scenario, NetworkEquations equations, VoltageCollapse? collapse, UnitText text) => new()
    {
        Scenario = scenario,
        IsSolved = false,
        Collapse = collapse,
        Nodes = [],
        Elements = [],
        Iterations = equations.Iterations,
        ResidualAmperes = 0,
        Findings = [NetworkFindings.NoOperatingPoint(scenario, collapse, text)],
        Explanation = NetworkExplanation.MakeWithout(network, scenario, collapse, text),
    };
}
