using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>Writes down how an operating point was reached.</summary>
internal static class NetworkExplanation
{
    public static Explanation Make(
        FeedNetwork network, Scenario scenario, IReadOnlyList<ElementState> states, int iterations, double residual, bool selfHeating, UnitText text)
    {
        var limits = new List<LimitCheck>();
        for (var e = 0; e < states.Count; e++)
        {
            var (element, state) = (network.Elements[e], states[e]);
            if (element is Conductor c && state.ConductorCelsius is { } celsius)
                limits.Add(new($"{c.Name}, temperature", celsius, c.InsulationCelsius, "°C", celsius <= c.InsulationCelsius + 1e-6, "insulation class entered"));
            if (element.RatedAmperes is { } rated)
                limits.Add(new($"{element.Name}, current", Math.Abs(state.Amperes), rated, "A", Math.Abs(state.Amperes) <= rated * (1 + 1e-9), "rating entered"));
            if (FeedElements.MinimumWorkingVolts(element) is { } least && state.TerminalVolts is { } volts)
                limits.Add(new($"{element.Name}, voltage (at least)", volts, least, "V", volts >= least / (1 + 1e-9), "lowest working voltage entered"));
        }

        var lowest = Enumerable.Range(0, states.Count)
            .Where(e => FeedElements.IsLoad(network.Elements[e]) && states[e] is { TerminalVolts: not null, Amperes: > 0 })
            .OrderBy(e => states[e].TerminalVolts)
            .Select(e => $"lowest load voltage {text.Volts(states[e].TerminalVolts!.Value)} at {states[e].Name}") // filtered just above
            .FirstOrDefault() ?? "no load draws current";
        return new Explanation(
            $"{scenario}: what voltages and currents settle in?", lowest, Inputs(network, scenario), [.. Steps(selfHeating), new(
                "Solution", "J·Δv = −f until Δv vanishes",
                $"{text.Number(iterations, 6)} Newton steps", $"largest current left over at a node {text.Amperes(residual)}", "Newton's method")],
            limits, limits.FirstOrDefault(l => !l.Passed)?.Name);
    }

    public static Explanation MakeWithout(FeedNetwork network, Scenario scenario, VoltageCollapse? collapse, UnitText text) => new(
        $"{scenario}: what voltages and currents settle in?", "none: the voltage collapses", Inputs(network, scenario),
        collapse is null ? Steps(true) : [.. Steps(true), new(
            "Largest load factor", "largest λ at which λ·loads have an operating point", "halving between a factor that has one and one that has none",
            $"λ = {text.Number(collapse.LargestLoadFactor, 6)}", "condition of a positive definite Jacobian")],
        [], collapse?.LoadName);

    private static List<ExplainedInput> Inputs(FeedNetwork network, Scenario scenario)
    {
        var inputs = new List<ExplainedInput>();
        foreach (var element in network.Elements)
        {
            switch (element)
            {
                case Battery b:
                    inputs.Add(new($"{b.Name}, voltage without load", b.OpenCircuitVolts, "V", "entered"));
                    inputs.Add(new($"{b.Name}, internal resistance", b.InternalOhms, "Ω", "entered"));
                    break;
                case Alternator a when scenario.Engine != EngineState.Off:
                    inputs.Add(new($"{a.Name}, regulated voltage", a.SetPointVolts, "V", "entered"));
                    inputs.Add(new($"{a.Name}, largest current at this speed", a.LimitAmperes(scenario.EngineRpm * a.PulleyRatio), "A", a.OutputOrigin));
                    break;
            }
        }

        return inputs;
    }

    private static List<ExplainedStep> Steps(bool selfHeating)
    {
        var steps = new List<ExplainedStep>
        {
            new("Currents at each node", "Σ I = 0", "at every node but the reference", "f(v) = 0", "Kirchhoff's current law"),
            new("Conductor resistance", "R = 1.02·ρ20·L/A·(T0 + T)/(T0 + 20)", "T0 of the material", "Ω of each conductor", "IACS, NBS Handbook 100; ASTM B566 for copper-clad aluminium"),
            new("Load at constant power", "I = P/V", "at the load's own terminals", "A of each load", "definition of power"),
        };
        if (selfHeating)
        {
            steps.Add(new("Conductor temperature", "T = Tamb + (Tins − Ttable)·(I/Itable)²", "solved together with the currents: U = R(Tamb)·I + R′·k·I³",
                "°C of each conductor", "fitted to the ampacity table: at table current and table ambient it is at its insulation limit"));
        }

        return steps;
    }
}
