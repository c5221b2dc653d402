using System.Text.Json.Serialization;

namespace ShopFloor.Engineering.Signal.Chain;

/// <summary>One device on a way through the path.</summary>
/// <param name="Device">The device.</param>
/// <param name="Input">Where the signal comes in; null at a source.</param>
/// <param name="Output">Where it leaves; null at the amplifier that ends the way.</param>
/// <param name="Arrival">The link it came by; null at a source.</param>
public sealed record SignalHop(SignalDevice Device, SignalPort? Input, SignalPort? Output, SignalLink? Arrival);

/// <summary>A way from one output of a source to one input of an amplifier.</summary>
/// <param name="Hops">Source first, amplifier last.</param>
public sealed record SignalRoute([property: JsonIgnore] IReadOnlyList<SignalHop> Hops)
{
    /// <summary>Identifiers of the devices passed, source first.</summary>
    public IEnumerable<string> DeviceIds => Hops.Select(hop => hop.Device.Id);

    /// <summary>The source.</summary>
    [JsonIgnore]
    public SourceDevice Source => (SourceDevice)Hops[0].Device; // routes are made from a source on
}

/// <summary>Finds the ways that lead to an input.</summary>
public sealed class SignalRoutes
{
    /// <summary>More ways than this to one input are not followed.</summary>
    public const int MostRoutes = 256;

    private readonly Dictionary<string, SignalDevice> _devices;
    private readonly ILookup<(string, string), SignalLink> _arrivals;
    private readonly HashSet<string> _fed;

    /// <param name="input">A path without problems.</param>
    public SignalRoutes(SignalPathInput input)
    {
        ArgumentNullException.ThrowIfNull(input);
        _devices = input.Devices.ToDictionary(device => device.Id);
        _arrivals = input.Links.ToLookup(link => (link.ToDevice, link.ToPort));
        _fed = FedBySources(input);
    }

    /// <summary>Links that end at an input.</summary>
    /// <param name="deviceId">The device.</param>
    /// <param name="portId">Its input.</param>
    public IEnumerable<SignalLink> Arrivals(string deviceId, string portId) => _arrivals[(deviceId, portId)];

    /// <summary>Every way from a source to an input of an amplifier, at most <see cref="MostRoutes"/>.</summary>
    /// <param name="amplifier">The amplifier.</param>
    /// <param name="port">Its input.</param>
    public IReadOnlyList<SignalRoute> To(AmplifierDevice amplifier, SignalPort port)
    {
        ArgumentNullException.ThrowIfNull(amplifier);
        ArgumentNullException.ThrowIfNull(port);
        var routes = new List<SignalRoute>();
        Follow(amplifier, port, null, [], routes);
        return routes;
    }

    private void Follow(SignalDevice device, SignalPort? input, SignalPort? output, List<SignalHop> behind, List<SignalRoute> routes)
    {
        if (routes.Count >= MostRoutes)
            return;
        if (input is null)
        {
            routes.Add(new SignalRoute([new SignalHop(device, null, output, null), .. Enumerable.Reverse(behind)]));
            return;
        }

        foreach (var link in Arrivals(device.Id, input.Id).Where(link => _fed.Contains(link.FromDevice)))
        {
            behind.Add(new SignalHop(device, input, output, link));
            var before = _devices[link.FromDevice];
            var left = before.Outputs.First(port => port.Id == link.FromPort);
            if (before is SourceDevice)
                Follow(before, null, left, behind, routes);
            else if (before is ProcessingDevice processing)
            {
                foreach (var reached in InputsOf(processing, left.Id))
                    Follow(before, reached, left, behind, routes);
            }

            behind.RemoveAt(behind.Count - 1);
        }
    }

    // Ways that begin at no source are not followed: a wide path of them would take for ever.
    private static HashSet<string> FedBySources(SignalPathInput input)
    {
        var next = input.Links.ToLookup(link => link.FromDevice, link => link.ToDevice);
        var fed = input.Devices.OfType<SourceDevice>().Select(source => source.Id).ToHashSet();
        var open = new Stack<string>(fed);
        while (open.TryPop(out var at))
        {
            foreach (var reached in next[at].Where(fed.Add))
                open.Push(reached);
        }

        return fed;
    }

    private static IEnumerable<SignalPort> InputsOf(ProcessingDevice device, string output) =>
        device.Routes.Count == 0 ? device.Inputs : device.Inputs.Where(port => device.Routes.Contains(new PortRoute(port.Id, output)));
}
