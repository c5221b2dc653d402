using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Loads;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using PathLink = ShopFloor.Engineering.Signal.Chain.SignalLink;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>One loaded amplifier output of a job's path.</summary>
/// <param name="FirstChannel">Channel whose input drives it.</param>
/// <param name="OutputId">What findings about its output are about.</param>
internal sealed record PathLoad(ChannelLoad Load, int FirstChannel, string Drivers, string Coils, double? HighPassHertz, double? LowPassHertz, ImageSide Side, string OutputId);

/// <summary>What is set inside one processor.</summary>
/// <param name="Roles">What outputs are for, by output.</param>
internal sealed record ProcessorRouting(
    IReadOnlyDictionary<string, ImageSide> Sides, IReadOnlyList<PortRoute> Routes, IReadOnlyList<PortBand> Bands, IReadOnlyDictionary<string, string> Roles)
{
    public string NameOf(string output, string name) => Roles.TryGetValue(output, out var role) ? $"{name}, {role}" : name;
}

/// <summary>
/// Settles what reaches which output of every processor: as somebody said it; else straight through in an interface; else as set for what the
/// output ends at.
/// </summary>
internal sealed class ProcessorRoutings(IReadOnlyList<JobPart> installed, IReadOnlyList<PathLink> links, IReadOnlyList<PathLoad> loads, IReadOnlyList<SignalRoutingForm> said)
{
    private readonly Dictionary<string, (JobPart Part, int Unit)> _units = installed
        .SelectMany(part => Enumerable.Range(0, SignalPorts.Units(part)).Select(unit => (part, unit)))
        .ToDictionary(each => SignalDevices.IdOf(each.part, each.unit));

    public ProcessorRouting Of(JobPart part, ProcessorData data, int unit)
    {
        var id = SignalDevices.IdOf(part, unit);
        Dictionary<string, ImageSide> sides = [];
        Dictionary<string, string> roles = [];
        List<PortBand> bands = [];
        List<PortRoute> routes = [];
        var used = UsedInputs(id);
        var each = data.Outputs ?? 0;
        var form = said.FirstOrDefault(routing => routing.PartId == part.Id);
        var decided = form?.Outputs.Exists(route => route.Takes != OutputMix.AsItEnds) == true || data.Use != ProcessorUse.SignalProcessor;
        for (var number = 0; number < each; number++)
        {
            var output = SignalDevices.Output(number);
            var route = form?.Of((unit * each) + number);
            sides[output] = SideLeaving(part, data, unit, number, 0);
            if (route is { Role.Length: > 0 })
            {
                roles[output] = route.Role;
            }

            if (BandOf(id, output) is { } band)
            {
                bands.Add(band);
            }

            if (decided)
            {
                routes.AddRange(InputsFor(id, data, number, route?.Takes ?? OutputMix.AsItEnds, used).Select(input => new PortRoute(input, output)));
            }
        }

        return new ProcessorRouting(sides, routes, bands, roles);
    }

    private List<string> InputsFor(string id, ProcessorData data, int number, OutputMix takes, List<string> used)
    {
        if (used.Count == 0)
        {
            return [];
        }

        if (takes == OutputMix.AsItEnds)
        {
            return data.Use == ProcessorUse.SignalProcessor ? used : [used[number % used.Count]];
        }

        var wanted = takes == OutputMix.Left ? ImageSide.Left : ImageSide.Right;
        var found = used.Where(input => takes == OutputMix.Sum || SideArriving(id, input, 0) is var side && (side == wanted || side == ImageSide.Both)).ToList();
        // Made of a side nothing brings, it is silent: an input without a cable says so.
        return found.Count > 0 ? found : [.. SoundPort.Inputs(data).Select((_, input) => SignalDevices.Input(input)).Where(input => !used.Contains(input)).Take(1)];
    }

    private ImageSide SideLeaving(JobPart part, ProcessorData data, int unit, int number, int depth)
    {
        var id = SignalDevices.IdOf(part, unit);
        var takes = said.FirstOrDefault(routing => routing.PartId == part.Id)?.Of((unit * (data.Outputs ?? 0)) + number).Takes ?? OutputMix.AsItEnds;
        var used = UsedInputs(id);
        return takes switch
        {
            OutputMix.Left => ImageSide.Left,
            OutputMix.Right => ImageSide.Right,
            OutputMix.Sum => ImageSide.Both,
            _ when data.Use != ProcessorUse.SignalProcessor => used.Count > 0 ? SideArriving(id, used[number % used.Count], depth + 1) : ImageSide.Both,
            _ => Ends(id, SignalDevices.Output(number)) is { Count: > 0 } ends && ends.Select(load => load.Side).Distinct().Count() == 1 ? ends[0].Side : ImageSide.Both,
        };
    }

    private ImageSide SideArriving(string device, string input, int depth)
    {
        // Links have no circles; the bound is for a store somebody changed by hand.
        if (depth > SignalPorts.Most || links.FirstOrDefault(link => link.ToDevice == device && link.ToPort == input) is not { } link || !_units.TryGetValue(link.FromDevice, out var from))
        {
            return ImageSide.Both;
        }

        var ports = SoundPort.Outputs(from.Part.Data);
        var number = Enumerable.Range(0, ports.Count).FirstOrDefault(at => SignalDevices.Output(at) == link.FromPort);
        return from.Part.Data is ProcessorData data ? SideLeaving(from.Part, data, from.Unit, number, depth + 1) : number < ports.Count ? ports[number].Side : ImageSide.Both;
    }

    private List<string> UsedInputs(string id)
    {
        var fed = links.Where(link => link.ToDevice == id).Select(link => link.ToPort).ToHashSet();
        return [.. Enumerable.Range(0, SignalPorts.Most).Select(SignalDevices.Input).Where(fed.Contains)];
    }

    private List<PathLoad> Ends(string id, string output) =>
        [.. loads.Where(load => links.Any(link => link.FromDevice == id && link.FromPort == output && link.ToDevice == load.Load.AmplifierId && link.ToPort == SignalDevices.Input(load.FirstChannel)))];

    private PortBand? BandOf(string id, string output)
    {
        var ends = Ends(id, output);
        return ends.Count == 0
            ? null
            : new PortBand(
                output,
                ends.TrueForAll(load => load.HighPassHertz is not null) ? ends.Min(load => load.HighPassHertz) : null,
                ends.TrueForAll(load => load.LowPassHertz is not null) ? ends.Max(load => load.LowPassHertz) : null);
    }
}
