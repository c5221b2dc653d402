using ShopFloor.Engineering.Signal.Chain;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>A device of a signal path to be drawn.</summary>
/// <param name="Key">Unique in the graph.</param>
/// <param name="Label">Its name.</param>
/// <param name="Lines">What else stands in its box.</param>
/// <param name="Inputs">Names of the inputs drawn, from the top.</param>
/// <param name="Outputs">Names of the outputs drawn, from the top.</param>
public sealed record SignalNode(string Key, string Label, IReadOnlyList<string> Lines, IReadOnlyList<string> Inputs, IReadOnlyList<string> Outputs);

/// <summary>A cable from an output to an input; both are counted from the top.</summary>
public sealed record SignalEdge(string From, int Output, string To, int Input);

/// <summary>A signal path as boxes and cables, without places.</summary>
public sealed record SignalGraph(IReadOnlyList<SignalNode> Nodes, IReadOnlyList<SignalEdge> Edges)
{
    /// <summary>The path of a job: connectors that carry something, and amplifier outputs that are free.</summary>
    public static SignalGraph Of(SignalPathView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        if (view.Input is not { } path)
        {
            return new SignalGraph([], []);
        }

        List<(string From, string Output, string To, string Input)> cables = [.. path.Links.Select(link => (link.FromDevice, link.FromPort, link.ToDevice, link.ToPort))];
        foreach (var load in path.Loads)
        {
            // A bridged pair drives from both of its outputs.
            cables.AddRange(from output in load.Outputs from driver in load.Wiring.Coils.Select(coil => coil.DriverId).Distinct() select (load.AmplifierId, output, driver, ""));
        }

        var levels = view.Channels.SelectMany(row => row.Levels.Channel.Drivers.Select(driver => (driver.DriverId, row))).ToLookup(pair => pair.DriverId, pair => pair.row);
        Dictionary<string, (List<string> In, List<string> Out)> drawn = [];
        List<SignalNode> nodes = [];
        foreach (var device in path.Devices)
        {
            var inputs = device.Inputs.Where(port => cables.Exists(cable => cable.To == device.Id && cable.Input == port.Id)).ToList();
            var outputs = device.Outputs.Where(port => device is AmplifierDevice || cables.Exists(cable => cable.From == device.Id && cable.Output == port.Id)).ToList();
            drawn[device.Id] = ([.. inputs.Select(port => port.Id)], [.. outputs.Select(port => port.Id)]);
            List<string> lines = [];
            if (device is DriverDevice driver)
            {
                drawn[device.Id].In.Add("");
                lines.Add(levels[device.Id].FirstOrDefault() is { } row ? $"{row.Coils}, {row.Levels.Channel.NominalOhms.ToString("0.##", System.Globalization.CultureInfo.CurrentCulture)} Ω" : "not connected");
            }

            nodes.Add(new SignalNode(
                device.Id, device.Name, lines, [.. inputs.Select(port => port.Name)],
                [.. outputs.Select(port => device is AmplifierDevice && !cables.Exists(cable => cable.From == device.Id && cable.Output == port.Id) ? $"{port.Name}, free" : port.Name)]));
        }

        return new SignalGraph(
            nodes,
            [.. cables.Select(cable => new SignalEdge(cable.From, drawn[cable.From].Out.IndexOf(cable.Output), cable.To, drawn[cable.To].In.IndexOf(cable.Input))).Distinct()]);
    }
}
