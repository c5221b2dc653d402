using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Maps parts and links of a job to its connectors.</summary>
internal sealed class ConnectionMapping(Guid jobId, IReadOnlyList<JobPart> installed, IReadOnlyList<SignalLink> links, IReadOnlyList<LoadedDesign<SignalRoutingForm>> routing)
{
    private static readonly PartKind[] _order = [PartKind.Source, PartKind.Processor, PartKind.Amplifier, PartKind.Loudspeaker];

    public ConnectionsView View() => new()
    {
        JobId = jobId,
        Units =
        [
            .. from part in installed
               where Array.IndexOf(_order, part.Kind) >= 0
               orderby Array.IndexOf(_order, part.Kind)
               from unit in Enumerable.Range(0, SignalPorts.Units(part))
               select new ConnectedUnit(SignalDevices.IdOf(part, unit), part.Id, part.Kind, SignalPorts.NameOfUnit(part, unit), [.. Inputs(part, unit)], [.. Outputs(part, unit)]),
        ],
        Processors = [.. installed.Where(part => part.Data is ProcessorData).Select(Processor)],
    };

    private IEnumerable<ConnectedInput> Inputs(JobPart part, int unit)
    {
        var ports = SoundPort.Inputs(part.Data);
        var mine = links.Where(link => link.ToPartId == part.Id).ToDictionary(link => link.ToInput);
        var first = unit * ports.Count;
        // Coils are connectors of their own only where they are fed so; else the loudspeaker is one.
        var whole = part.Data is LoudspeakerData && !Enumerable.Range(first, ports.Count).Any(number => mine.GetValueOrDefault(number)?.Form.Coils == CoilUse.OneCoil);
        for (var at = 0; at < (whole ? Math.Min(1, ports.Count) : ports.Count); at++)
        {
            var link = mine.GetValueOrDefault(first + at);
            var from = installed.FirstOrDefault(other => other.Id == link?.Form.FromPartId);
            yield return new ConnectedInput(
                part.Id, first + at, whole ? "" : ports[at].Name, whole ? SignalPorts.NameOfUnit(part, unit) : SignalPorts.NameOfInput(part, first + at), ports[at].Kind, ports[at].Side, link?.Form, link?.Version ?? Guid.Empty,
                from is null || link is null || SoundPort.Output(from, link.Form.FromOutput) is { } end && PortKinds.Fits(end.Port.Kind, ports[at].Kind));
        }
    }

    private IEnumerable<ConnectedOutput> Outputs(JobPart part, int unit)
    {
        var ports = SoundPort.Outputs(part.Data);
        return ports.Select((port, at) => (port, number: (unit * ports.Count) + at)).Select(each => new ConnectedOutput(
            part.Id, each.number, each.port.Name, SignalPorts.NameOfOutput(part, each.number), each.port.Kind, each.port.Side, links.Count(link => link.Form.FromPartId == part.Id && link.Form.FromOutput == each.number)));
    }

    private ProcessorRow Processor(JobPart part)
    {
        var stored = routing.FirstOrDefault(design => design.Form.PartId == part.Id);
        return new ProcessorRow(
            part.Id, part.Name, stored?.Version ?? Guid.Empty, stored?.Form ?? new SignalRoutingForm { PartId = part.Id },
            [.. Enumerable.Range(0, SignalPorts.Outputs(part, SignalKind.Sound)).Select(output => new ProcessorOutput(output, SignalPorts.NameOfOutput(part, output), string.Join(", ", Ends(part, output).Distinct())))]);
    }

    private IEnumerable<string> Ends(JobPart part, int output)
    {
        foreach (var link in links.Where(link => link.Form.FromPartId == part.Id && link.Form.FromOutput == output))
        {
            if (installed.FirstOrDefault(found => found.Id == link.ToPartId) is not { } to)
            {
                continue;
            }

            var beyond = to.Data is AmplifierData data ? Behind(to, data, link.ToInput).ToList() : [];
            foreach (var name in beyond.Count > 0 ? beyond : [SignalPorts.NameOfInput(to, link.ToInput)])
            {
                yield return name;
            }
        }
    }

    private IEnumerable<string> Behind(JobPart amplifier, AmplifierData data, int input)
    {
        var output = data.Load == ChannelLoading.BridgedFourOhms ? input / 2 : input;
        return from link in links
               where link.Form.FromPartId == amplifier.Id && link.Form.FromOutput == output
               let end = installed.FirstOrDefault(part => part.Id == link.ToPartId)
               where end is not null
               select SignalPorts.NameOfLoudspeaker(end, link.ToInput, link.Form.Coils);
    }
}
