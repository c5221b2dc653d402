using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Engineering.Signal.Loads;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using PathLink = ShopFloor.Engineering.Signal.Chain.SignalLink;
using SourceDevice = ShopFloor.Engineering.Signal.Chain.SourceDevice;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Maps parts and links of a job to its signal path. What the parts do not know is left out and named, never guessed.</summary>
internal sealed class SignalPathMapping(
    IReadOnlyList<JobPart> installed, IReadOnlyList<SignalLink> links, IReadOnlyList<SpeakerRow> runs, SignalGrounds grounds, IReadOnlyList<SignalRoutingForm> routing, double gainOverlapDecibels, IReadOnlySet<Guid> measuredFactory)
{
    private readonly List<SignalLink> _sound = [.. links.Where(link => link.Kind == SignalKind.Sound && (link.Form.FromPartId is null || installed.Any(part => part.Id == link.Form.FromPartId)))];
    private readonly List<PathLoad> _loads = [];
    private readonly List<DriverDevice> _drivers = [];
    private List<PathLink> _links = [];

    public List<Finding> Findings { get; } = [];

    /// <summary>Null while nothing is linked: a job that is not designed here is not judged here.</summary>
    public SignalPathInput? Map()
    {
        if (_sound.Count == 0)
        {
            return null;
        }

        var amplifiers = Amplifiers();
        var known = amplifiers.Select(pair => pair.Device.Id).ToHashSet();
        _links = Links(amplifiers);
        foreach (var group in _sound.Where(link => PartOf(link.Form.FromPartId)?.Data is AmplifierData && PartOf(link.ToPartId)?.Data is LoudspeakerData)
            .GroupBy(link => (link.Form.FromPartId!.Value, link.Form.FromOutput))) // filtered: an amplifier
        {
            AddLoad(PartOf(group.Key.Value)!, group.Key.FromOutput, [.. group], known); // filtered
        }

        AddOpenDrivers();
        Findings.AddRange(SignalFacts.Missing(installed, _sound, grounds));
        Findings.AddRange(SignalFacts.TurnedTwins(_sound, PartOf));
        var processors = Processors();
        var sources = Sources();
        return new SignalPathInput
        {
            Devices = [.. sources, .. processors, .. amplifiers.Select(pair => pair.Device), .. _drivers],
            Links = _links,
            // As the bench reads an amplifier: channel by channel.
            Loads = [.. _loads.OrderBy(load => amplifiers.FindIndex(pair => pair.Device.Id == load.Load.AmplifierId)).ThenBy(load => load.FirstChannel).Select(load => load.Load)],
            GainOverlapDecibels = gainOverlapDecibels,
        };
    }

    public PathChannel Row(ChannelLevels levels)
    {
        ArgumentNullException.ThrowIfNull(levels);
        var load = _loads.First(found => found.Load.Id == levels.Channel.Load.Id);
        var input = SignalDevices.Input(load.FirstChannel);
        var cable = _links.Find(link => link.ToDevice == load.Load.AmplifierId && link.ToPort == input);
        return new PathChannel(load.Drivers, load.Coils, cable is null ? "" : NameOf(cable.FromDevice, cable.FromPort), load.OutputId, levels);
    }

    private JobPart? PartOf(Guid? id) => id is null ? null : installed.FirstOrDefault(part => part.Id == id);

    private string NameOf(string device, string port)
    {
        foreach (var part in installed.Where(part => part.Data is SourceData or ProcessorData))
        {
            for (var output = 0; output < SignalPorts.Outputs(part, SignalKind.Sound); output++)
            {
                if (SignalDevices.EndOf(part, output) == (device, port))
                {
                    return SignalPorts.NameOfOutput(part, output);
                }
            }
        }

        return "The car's own sound";
    }

    private List<(JobPart Part, AmplifierDevice Device)> Amplifiers()
    {
        List<(JobPart, AmplifierDevice)> found = [];
        foreach (var part in installed)
        {
            if (part.Data is not AmplifierData data)
            {
                continue;
            }

            if (data.Channels is null || SignalDevices.Ratings(data).Count == 0)
            {
                Findings.Add(new Finding(
                    "amplifier-rating-missing", Severity.Warn, part.Id.ToString(), part.Name, $"{(data.Channels is null ? "Its channels are" : "Its power is")} not known, so what hangs on it is not worked out.",
                    "Enter it on the part from its data sheet.", "needed for loads and gains"));
                continue;
            }

            found.AddRange(Enumerable.Range(0, SignalPorts.Units(part)).Select(unit => (part, SignalDevices.Amplifier(part, data, unit, grounds.Of(part)))));
        }

        return found;
    }

    // Cables to processors and amplifiers, input by input.
    private List<PathLink> Links(List<(JobPart Part, AmplifierDevice Device)> amplifiers)
    {
        List<PathLink> made = [];
        foreach (var link in _sound)
        {
            if (PartOf(link.ToPartId) is not { Data: AmplifierData or ProcessorData } to || link.ToInput >= SignalPorts.Inputs(to, SignalKind.Sound))
            {
                continue;
            }

            var each = SignalPorts.Inputs(to, SignalKind.Sound) / SignalPorts.Units(to);
            var (unit, input) = (link.ToInput / each, link.ToInput % each);
            if (to.Data is AmplifierData && !amplifiers.Exists(pair => pair.Device.Id == SignalDevices.IdOf(to, unit)))
            {
                continue;
            }

            if (link.Form.FromPartId is not { } fromId)
            {
                made.Add(FromCar(to, unit, input) with { BesideSupplyCable = link.Form.Lies == LinkLay.AlongSupply });
                continue;
            }

            var from = PartOf(fromId)!; // filtered at the start
            if (from.Data is SourceData or ProcessorData && SignalDevices.EndOf(from, link.Form.FromOutput) is { } end)
            {
                made.Add(new PathLink
                {
                    Id = link.Id.ToString(),
                    FromDevice = end.Device,
                    FromPort = end.Port,
                    ToDevice = SignalDevices.IdOf(to, unit),
                    ToPort = SignalDevices.Input(input),
                    LengthMeters = link.Form.LengthMeters ?? SignalPorts.SuggestedMeters(from.Zone, to.Zone),
                    BesideSupplyCable = link.Form.Lies == LinkLay.AlongSupply,
                });
            }
        }

        AssumeTheCar(made, amplifiers);
        JoinInputs(made, amplifiers);
        return made;
    }

    // Without a source on the list and without a word about it, the car's own radio plays.
    private void AssumeTheCar(List<PathLink> made, List<(JobPart Part, AmplifierDevice Device)> amplifiers)
    {
        if (installed.Any(part => part.Data is SourceData))
        {
            return;
        }

        var processors = installed.Where(part => part.Data is ProcessorData).SelectMany(part => Enumerable.Range(0, SignalPorts.Units(part)).Select(unit => (Part: part, Unit: unit))).ToList();
        var first = processors.Count > 0 ? processors : [.. amplifiers.Select(pair => (pair.Part, Unit: Enumerable.Range(0, SignalPorts.Units(pair.Part)).First(unit => SignalDevices.IdOf(pair.Part, unit) == pair.Device.Id)))];
        foreach (var (part, unit) in first.Where(pair => !made.Exists(link => link.ToDevice == SignalDevices.IdOf(pair.Part, pair.Unit))))
        {
            var inputs = part.Data is ProcessorData data ? data.Inputs ?? 0 : SignalPorts.Inputs(part, SignalKind.Sound) / SignalPorts.Units(part);
            made.AddRange(Enumerable.Range(0, inputs).Select(input => FromCar(part, unit, input)));
            Findings.Add(new Finding(
                "car-sound-assumed", Severity.Note, SignalDevices.IdOf(part, unit), SignalPorts.NameOfUnit(part, unit), "No source is on the parts list; it is taken as fed by the car's own radio, whose levels are not known.",
                "Put the source or the interface on the parts list.", Unsourced.CommonPractice));
        }
    }

    // An amplifier with fewer cables than channels passes them on by its input switch.
    private void JoinInputs(List<PathLink> made, List<(JobPart Part, AmplifierDevice Device)> amplifiers)
    {
        foreach (var (_, device) in amplifiers)
        {
            var cables = device.Inputs.Select(port => made.Find(link => link.ToDevice == device.Id && link.ToPort == port.Id)).OfType<PathLink>().ToList();
            var open = device.Inputs.Where(port => !cables.Exists(link => link.ToPort == port.Id)).ToList();
            if (cables.Count == 0 || open.Count == 0)
            {
                continue;
            }

            made.AddRange(open.Select((port, at) => cables[at % cables.Count] with { Id = $"{device.Id}:{port.Id}", ToPort = port.Id, IsInternal = true }));
            Findings.Add(new Finding(
                "inputs-joined", Severity.Note, device.Id, device.Name, $"{string.Join(", ", open.Select(port => port.Name))}: no cable of their own; taken as joined to the others by the amplifier's input switch.",
                "Set the switch so, or give each channel its own cable.", Unsourced.CommonPractice));
        }
    }

    private static PathLink FromCar(JobPart part, int unit, int input)
    {
        var kind = part.Data switch { AmplifierData data => data.InputKind, ProcessorData data => data.InputKind, _ => PortKind.UnbalancedLine };
        var device = SignalDevices.IdOf(part, unit);
        return new PathLink { Id = $"{SignalDevices.CarId}:{device}:{SignalDevices.Input(input)}", FromDevice = SignalDevices.CarId, FromPort = kind.ToString(), ToDevice = device, ToPort = SignalDevices.Input(input) };
    }

    private void AddLoad(JobPart amplifier, int output, List<SignalLink> group, HashSet<string> known)
    {
        var data = (AmplifierData)amplifier.Data; // grouped by amplifiers
        var each = SignalPorts.AmplifierOutputs(data);
        if (each == 0 || output >= each * SignalPorts.Units(amplifier) || !known.Contains(SignalDevices.IdOf(amplifier, output / each)))
        {
            return;
        }

        var bridged = data.Load == ChannelLoading.BridgedFourOhms;
        var local = output % each;
        var first = bridged ? 2 * local : local;
        var device = SignalDevices.IdOf(amplifier, output / each);
        if (SignalLoad.Of(group, PartOf, runs, FedByProcessor(device, first), SignalPorts.NameOfOutput(amplifier, output), Findings) is not { } load)
        {
            return;
        }

        string[] outputs = bridged ? [SignalDevices.Output(first), SignalDevices.Output(first + 1)] : [SignalDevices.Output(first)];
        _drivers.AddRange(load.Devices.Where(driver => _drivers.TrueForAll(found => found.Id != driver.Id)));
        _loads.Add(new PathLoad(
            new ChannelLoad { Id = $"{device}:{string.Join('+', outputs)}", AmplifierId = device, Outputs = outputs, Wiring = load.Wiring, CableOhms = load.CableOhms },
            first, load.Names, load.Coils, load.HighPassHertz, load.LowPassHertz, load.Side, SignalFindings.OutputId(amplifier, output)));
    }

    private bool FedByProcessor(string amplifier, int channel) =>
        _links.Find(link => link.ToDevice == amplifier && link.ToPort == SignalDevices.Input(channel)) is { } cable
        && installed.Any(part => part.Data is ProcessorData && Enumerable.Range(0, SignalPorts.Units(part)).Any(unit => SignalDevices.IdOf(part, unit) == cable.FromDevice));

    // A loudspeaker nothing feeds is part of the path, so that it is told; one with an unknown impedance or amplifier was told already.
    private void AddOpenDrivers()
    {
        foreach (var part in installed)
        {
            if (part.Data is LoudspeakerData { NominalOhms: not null } data)
            {
                var coils = SignalPorts.Coils(data);
                _drivers.AddRange(Enumerable.Range(0, SignalPorts.Units(part))
                    .Where(unit => !_sound.Exists(link => link.ToPartId == part.Id && link.ToInput / coils == unit))
                    .Select(unit => SignalDevices.Driver(part, data, unit, data.LowestHertz)));
            }
        }
    }

    private List<ProcessingDevice> Processors()
    {
        var routings = new ProcessorRoutings(installed, _links, _loads, routing);
        List<ProcessingDevice> found = [];
        foreach (var part in installed)
        {
            if (part.Data is not ProcessorData data)
            {
                continue;
            }

            for (var unit = 0; unit < SignalPorts.Units(part); unit++)
            {
                var id = SignalDevices.IdOf(part, unit);
                var digital = _links.Where(link => link.ToDevice == id && DigitalSource(link.FromDevice) is { } kind && kind == SignalDevices.KindOf(data.DigitalInput)).Select(link => link.ToPort).ToHashSet();
                found.Add(SignalDevices.Processor(part, data, unit, digital, routings.Of(part, data, unit), grounds.Of(part)) with { OutputsMeasured = data.Use == ProcessorUse.FactoryAmplifier ? measuredFactory.Contains(part.Id) : null });
            }
        }

        return found;
    }

    private PortKind? DigitalSource(string device) => installed
        .Where(part => part.Data is SourceData && Enumerable.Range(0, SignalPorts.Units(part)).Any(unit => SignalDevices.IdOf(part, unit) == device))
        .Select(part => (PortKind?)((SourceData)part.Data).OutputKind)
        .FirstOrDefault(kind => !kind!.Value.IsAnalog()); // made of values

    private List<SourceDevice> Sources()
    {
        List<SourceDevice> found = [.. installed.Where(part => part.Data is SourceData).SelectMany(part => Enumerable.Range(0, SignalPorts.Units(part)).SelectMany(unit => SignalDevices.Sources(part, (SourceData)part.Data, unit, grounds.Of(part))))];
        var fromCar = _links.Where(link => link.FromDevice == SignalDevices.CarId).Select(link => Enum.Parse<PortKind>(link.FromPort)).ToList();
        if (fromCar.Count > 0)
        {
            found.Add(SignalDevices.Car(fromCar));
        }

        return found;
    }
}
