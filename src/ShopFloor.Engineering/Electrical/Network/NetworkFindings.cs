using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>What is wrong with the operating point of a network.</summary>
internal static class NetworkFindings
{
    // Rounding must not turn a limit that is met exactly into a broken one.
    private const double Slack = 1 + 1e-9;

    public static IReadOnlyList<Finding> Find(
        FeedNetwork network, Scenario scenario, IReadOnlyList<ElementState> states, NetworkEquations equations, UnitText text)
    {
        var findings = new List<Finding>();
        for (var e = 0; e < states.Count; e++)
        {
            var (element, state) = (network.Elements[e], states[e]);
            void Add(string code, Severity severity, string what, string remedy, string source) =>
                findings.Add(new Finding(code, severity, element.Id, element.Name, what, remedy, source));

            var current = Math.Abs(state.Amperes);
            if (element.RatedAmperes is { } rated && current > rated * Slack)
            {
                Add(element is FuseElement ? "fuse-over-rating" : "element-over-rating", Severity.Stop,
                    $"{scenario}: it carries {text.Amperes(current)}; its rating is {text.Amperes(rated)}.",
                    element is FuseElement ? "It will open in use: less load, or a larger fuse on a conductor that allows it." : "Choose one with a higher rating or reduce the load.",
                    "rating entered");
            }

            if (element is Conductor conductor && state.ConductorCelsius is { } celsius && celsius > conductor.InsulationCelsius + 1e-6)
            {
                Add("conductor-above-insulation", Severity.Stop,
                    $"{scenario}: with {text.Amperes(current)} it reaches {text.Celsius(celsius)}; its insulation is rated for {text.Celsius(conductor.InsulationCelsius)}.",
                    "Use a thicker conductor, a higher insulation class or a cooler route.", "temperature rise with the square of the current, fitted to the ampacity table");
            }

            if (equations.Reversed.Contains(e))
                Add("load-reversed", Severity.Stop, $"{scenario}: it is connected the wrong way round and was left out.", "Exchange its two terminals.", "the voltage without load");
            else if (equations.Unfed.Contains(e))
                Add("load-not-fed", Severity.Warn, $"{scenario}: no source reaches it, so it draws nothing.", "Close the switch or mend the connection if it should work here.", "the shape of the network");
            else if (FeedElements.IsLoad(element) && state.TerminalVolts is < 0 and var below)
                Add("load-reversed", Severity.Stop, $"{scenario}: its voltage comes out at {text.Volts(below)}; its feed cannot carry its current.", "Shorten or thicken its feed or reduce the load.", "Kirchhoff's laws");
            else if (FeedElements.MinimumWorkingVolts(element) is { } minimum && state.TerminalVolts is { } volts && volts < minimum / Slack && state.Amperes != 0)
            {
                Add("load-below-minimum", Severity.Stop,
                    $"{scenario}: {text.Volts(volts)} arrive at it; it works from {text.Volts(minimum)}.",
                    "Shorten or thicken its feed and return, or reduce the load.", "lowest working voltage entered");
            }

            if (element is Alternator alternator && scenario.Engine != EngineState.Off)
            {
                var limit = alternator.LimitAmperes(scenario.EngineRpm * alternator.PulleyRatio);
                if (state.Amperes >= limit * (1 - 1e-12))
                {
                    Add("alternator-at-limit", Severity.Warn,
                        $"{scenario}: it gives all it can, {text.Amperes(limit)}; its voltage is {text.Volts(state.TerminalVolts ?? 0)} instead of {text.Volts(alternator.SetPointVolts)}.",
                        "Reduce the load or plan a larger alternator.", alternator.OutputOrigin);
                }
            }

            if (element is Battery && scenario.Engine != EngineState.Off && state.Amperes > 1e-6)
            {
                var hours = state.HoursToEmpty is { } h ? $"; full, it would last {text.Number(h)} hours" : "";
                Add("battery-discharging", Severity.Warn,
                    $"{scenario}: it gives {text.Amperes(state.Amperes)} though the engine runs{hours}.",
                    "Reduce the load, raise the alternator's output or tell the client how long it may play like this.", "Kirchhoff's laws; Peukert's law");
            }
        }

        return [.. findings.OrderByDescending(f => f.Severity)];
    }

    public static Finding NoOperatingPoint(Scenario scenario, VoltageCollapse? collapse, UnitText text) => collapse is null
        ? new Finding("no-operating-point", Severity.Stop, "network", "Supply network",
            $"{scenario}: even without load there is no stable state.", "Check sources and resistances.", "Newton's method")
        : new Finding("voltage-collapse", Severity.Stop, collapse.LoadId, collapse.LoadName,
            $"{scenario}: the network cannot carry its loads. At {text.Percent(collapse.LargestLoadFactor * 100)} of all loads the voltage breaks down, first at this load, which then has {text.Volts(collapse.LoadVolts)}.",
            "Shorten or thicken its feed and return, add a source near it, or reduce the loads.", "largest common load factor with an operating point");
}
