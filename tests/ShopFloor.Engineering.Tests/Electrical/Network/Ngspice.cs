using System.Diagnostics;
using System.Globalization;
using ShopFloor.Engineering.Electrical.Network;

namespace ShopFloor.Engineering.Tests.Electrical.Network;

/// <summary>The circuit simulator ngspice (Debian's package) as an independent judge. Resistances are worked out here again from the standards' numbers.</summary>
internal static class Ngspice
{
    /// <summary>Node voltages of an operating point, or null when ngspice finds none.</summary>
    public static Dictionary<string, double>? Solve(FeedNetwork network, Scenario scenario, bool selfHeating = true, string extra = "", bool loads = true)
    {
        var folder = Directory.CreateTempSubdirectory("feed-network-");
        try
        {
            var file = Path.Combine(folder.FullName, "network.cir");
            File.WriteAllText(file, Netlist(network, scenario, selfHeating, extra, loads));
            return Read(Run(file), network);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    /// <summary>
    /// Voltages and conductor temperatures of a warm network, settled here: ngspice solves it cold, its currents warm the conductors, and
    /// again until no temperature moves. Nothing of the solver under test goes in.
    /// </summary>
    public static (Dictionary<string, double> Volts, Dictionary<string, double> Celsius) SolveWarm(FeedNetwork network, Scenario scenario)
    {
        var conductors = network.Elements.OfType<Conductor>().ToList();
        var celsius = conductors.ToDictionary(c => c.Id, c => c.AmbientCelsius);
        for (var round = 0; round < 40; round++)
        {
            var held = network with { Elements = [.. network.Elements.Select(e => e is Conductor c ? c with { TableAmperes = null, AmbientCelsius = celsius[c.Id] } : e)] };
            var volts = Solve(held, scenario) ?? throw new InvalidOperationException("ngspice found no operating point.");
            var moved = 0.0;
            foreach (var c in conductors)
            {
                // The same numbers as in Conductor below; the rise is the insulation's at the table's current, by the square of the current.
                var ohms = 0.017241 * 1.02 * c.LengthMeters / c.AreaSquareMillimeters * (234.5 + celsius[c.Id]) / 254.5;
                var amperes = (volts.GetValueOrDefault(c.From) - volts.GetValueOrDefault(c.To)) / ohms;
                var next = c.AmbientCelsius + (c.InsulationCelsius - c.TableAmbientCelsius) * Math.Pow(amperes / c.TableAmperes!.Value, 2); // trees of Networks have one on each
                moved = Math.Max(moved, Math.Abs(next - celsius[c.Id]));
                celsius[c.Id] = next;
            }

            if (moved < 1e-7)
                return (volts, celsius);
        }

        throw new InvalidOperationException("The temperatures did not settle.");
    }

    public static void Agrees(FeedNetwork network, Scenario scenario, bool selfHeating = true)
    {
        var ours = NetworkSolver.Solve(network, scenario, selfHeating);
        Assert.True(ours.IsSolved, string.Join("; ", ours.Findings.Select(f => f.Text)));
        var theirs = Solve(network, scenario, selfHeating);
        Assert.True(theirs is not null, "ngspice found no operating point where ours has one.");
        foreach (var node in ours.Nodes.Where(n => n.NodeId != network.ReferenceNodeId))
        {
            var gap = Math.Abs(theirs[node.NodeId] - node.Volts!.Value);
            Assert.True(gap <= 1e-6 * Math.Max(1, Math.Abs(theirs[node.NodeId])), $"{node.NodeId}: ours {node.Volts:R} V, ngspice {theirs[node.NodeId]:R} V");
        }
    }

    internal static string Netlist(FeedNetwork network, Scenario scenario, bool selfHeating, string extra, bool loads)
    {
        var text = new List<string> { "feed network" };
        string Node(string id) => id == network.ReferenceNodeId ? "0" : "x" + id;
        string N(double value) => value.ToString("R", CultureInfo.InvariantCulture);
        for (var e = 0; e < network.Elements.Count; e++)
        {
            var element = network.Elements[e];
            var (a, b) = (Node(element.From), Node(element.To));
            var isLoad = element is ConstantPowerLoad or ConstantCurrentLoad or ResistiveLoad or VehicleBaseLoad;
            if (isLoad && !loads)
                continue;
            void Resistance(double ohms) => text.Add(ohms == 0 ? $"V{e} {a} {b} 0" : $"R{e} {a} {b} {N(ohms)}");
            switch (element)
            {
                case Battery { InternalOhms: 0 } battery:
                    text.Add($"V{e} {b} {a} {N(battery.OpenCircuitVolts)}");
                    break;
                case Battery battery:
                    text.Add($"V{e} k{e} {a} {N(battery.OpenCircuitVolts)}");
                    text.Add($"R{e} k{e} {b} {N(battery.InternalOhms)}");
                    break;
                case Alternator alternator when scenario.Engine != EngineState.Off:
                    text.Add($"B{e} {a} {b} I=min(max(({N(alternator.SetPointVolts)}-V({b},{a}))/{N(alternator.SlopeOhms)},0),{N(alternator.OutputCurve[0].Amperes)})");
                    break;
                case Conductor conductor:
                    Conductor(text, conductor, e, a, b, selfHeating, N);
                    break;
                case LumpedResistance resistance:
                    Resistance(resistance.Ohms);
                    break;
                case FuseElement { IsBlown: false } fuse:
                    Resistance(fuse.Ohms);
                    break;
                case FeedSwitch { IsClosed: true } contact:
                    Resistance(contact.ClosedOhms);
                    break;
                case ConstantPowerLoad power when Level(scenario, power.IdleWatts, power.MusicWatts, power.FullWatts) is > 0 and var watts:
                    // Below 0.1 V the current is held, so that the iteration may pass there.
                    text.Add($"B{e} {a} {b} I={N(watts)}/max(V({a},{b}),0.1)");
                    text.Add($".nodeset V({a})=12");
                    break;
                case ConstantCurrentLoad current:
                    text.Add($"I{e} {a} {b} {N(Level(scenario, current.IdleAmperes, current.MusicAmperes, current.FullAmperes))}");
                    break;
                case VehicleBaseLoad vehicle:
                    text.Add($"I{e} {a} {b} {N(scenario.Engine == EngineState.Off ? vehicle.EngineOffAmperes : vehicle.EngineRunningAmperes)}");
                    break;
                case ResistiveLoad resistive when Level(scenario, resistive.IdleOhms, resistive.MusicOhms, resistive.FullOhms) is { } ohms:
                    Resistance(ohms);
                    break;
            }
        }

        text.Add(extra);
        text.Add(".options reltol=1e-10 abstol=1e-13 vntol=1e-11 gmin=1e-16 itl1=2000");
        text.Add(".control");
        text.Add("set numdgt=15");
        text.Add("op");
        text.Add("print all");
        text.Add("quit");
        text.Add(".endc");
        text.Add(".end");
        return string.Join('\n', text);
    }

    private static void Conductor(List<string> text, Conductor conductor, int e, string a, string b, bool selfHeating, Func<double, string> number)
    {
        // IACS copper 0.017241 Ω·mm²/m and 234.5 °C; ASTM B566 62.9 % and 64.4 % IACS, aluminium 0.00403 per °C; 2 % for stranding.
        var (share, zero) = conductor.Material switch
        {
            ConductorMetal.CopperCladAluminium10 => (0.629, 1 / 0.00403 - 20),
            ConductorMetal.CopperCladAluminium15 => (0.644, 1 / 0.00403 - 20),
            _ => (1.0, 234.5),
        };
        var at20 = 0.017241 / share * 1.02 * conductor.LengthMeters / conductor.AreaSquareMillimeters;
        var cold = at20 * (zero + conductor.AmbientCelsius) / (zero + 20);
        if (!selfHeating || conductor.TableAmperes is not { } table)
        {
            text.Add($"R{e} {a} {b} {number(cold)}");
            return;
        }

        // The voltage follows from the current through the resistance at the temperature that current gives.
        var growth = at20 / (zero + 20) * (conductor.InsulationCelsius - conductor.TableAmbientCelsius) / (table * table);
        text.Add($"V{e} {a} k{e} 0");
        text.Add($"B{e} k{e} {b} V={number(cold)}*I(V{e})+{number(growth)}*I(V{e})*I(V{e})*I(V{e})");
    }

    private static T Level<T>(Scenario scenario, T idle, T music, T full) => scenario.Level switch { LoadLevel.Idle => idle, LoadLevel.Music => music, _ => full };

    /// <summary>What ngspice says to a netlist.</summary>
    internal static string Run(string file)
    {
        var start = new ProcessStartInfo("ngspice", ["-b", file]) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };
        Process process;
        try
        {
            process = Process.Start(start)!; // null only with shell execution
        }
        catch (System.ComponentModel.Win32Exception missing)
        {
            throw new InvalidOperationException("These tests need ngspice, which is not installed: apt-get install ngspice.", missing);
        }

        using (process)
        {
            process.StandardInput.Close();
            var errors = process.StandardError.ReadToEndAsync();
            var output = process.StandardOutput.ReadToEndAsync();
            if (!process.WaitForExit(60_000))
            {
                process.Kill();
                throw new InvalidOperationException("ngspice did not finish within a minute.");
            }

            return output.GetAwaiter().GetResult() + errors.GetAwaiter().GetResult();
        }
    }

    private static Dictionary<string, double>? Read(string output, FeedNetwork network)
    {
        if (output.Contains("singular matrix", StringComparison.OrdinalIgnoreCase) && !output.Contains(" = ", StringComparison.Ordinal))
            return null;
        var values = new Dictionary<string, double>(StringComparer.OrdinalIgnoreCase);
        foreach (var line in output.Split('\n'))
        {
            var parts = line.Split(" = ");
            if (parts.Length == 2 && double.TryParse(parts[1], NumberStyles.Float, CultureInfo.InvariantCulture, out var value))
                values[parts[0].Trim()] = value;
        }

        if (values.Count == 0)
            return null;
        return network.Nodes.Where(n => n.Id != network.ReferenceNodeId && values.ContainsKey("x" + n.Id)).ToDictionary(n => n.Id, n => values["x" + n.Id]);
    }
}
