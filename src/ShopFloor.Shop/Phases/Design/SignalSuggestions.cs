using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>The usual way of linking what nobody decided: the largest loudspeakers to the strongest outputs, line level in order, turn-on along the sound.</summary>
internal static class SignalSuggestions
{
    public static List<SignalLink> For(Guid jobId, SignalKind kind, List<JobPart> parts, List<SignalLink> links) =>
        kind == SignalKind.TurnOn ? TurnOn(jobId, parts, links) : [.. Loudspeakers(jobId, parts, links), .. LineLevel(jobId, parts, links)];

    private static List<SignalLink> TurnOn(Guid jobId, List<JobPart> parts, List<SignalLink> links)
    {
        var source = parts.Find(part => part.Kind == PartKind.Source && SignalPorts.Outputs(part, SignalKind.TurnOn) > 0);
        var processor = parts.Find(part => part.Kind == PartKind.Processor && SignalPorts.Outputs(part, SignalKind.TurnOn) > 0);
        return
        [
            .. from part in parts
               where SignalPorts.Inputs(part, SignalKind.TurnOn) > 0 && !links.Exists(link => link.ToPartId == part.Id)
               let usual = part.Kind == PartKind.Amplifier ? processor ?? source : part.Kind == PartKind.Processor ? source : null
               select new SignalLink(jobId, SignalKind.TurnOn, part.Id, 0, new SignalLinkForm { FromPartId = usual?.Id }),
        ];
    }

    private static IEnumerable<SignalLink> Loudspeakers(Guid jobId, List<JobPart> parts, List<SignalLink> links)
    {
        var outputs = new Queue<(JobPart Part, int Output)>(
            from part in parts
            let data = part.Data as AmplifierData
            where data is not null
            let count = SignalPorts.Outputs(part, SignalKind.Sound)
            where count > 0
            orderby data.TotalRatedWatts / SignalPorts.AmplifierOutputs(data) ?? 0 descending
            from output in Enumerable.Range(0, count)
            where !links.Exists(link => link.Form.FromPartId == part.Id && link.Form.FromOutput == output)
            select (part, output));
        foreach (var part in parts.Where(part => part.Data is LoudspeakerData).OrderByDescending(part => ((LoudspeakerData)part.Data).SizeMillimeters ?? 0))
        {
            var coils = SignalPorts.Coils((LoudspeakerData)part.Data);
            for (var unit = 0; unit < SignalPorts.Units(part) && outputs.Count > 0; unit++)
            {
                if (!links.Exists(link => link.ToPartId == part.Id && link.ToInput / coils == unit))
                {
                    var (from, output) = outputs.Dequeue();
                    yield return new SignalLink(jobId, SignalKind.Sound, part.Id, unit * coils, new SignalLinkForm { FromPartId = from.Id, FromOutput = output });
                }
            }
        }
    }

    private static IEnumerable<SignalLink> LineLevel(Guid jobId, List<JobPart> parts, List<SignalLink> links)
    {
        var processor = Processor(parts);
        var sources = parts.Where(part => part.Kind == PartKind.Source).ToList();
        var between = parts.Where(part => part.Data is ProcessorData { Use: not ProcessorUse.SignalProcessor }).ToList();
        // A source goes into an interface that takes it, and from there on.
        var givers = between.Count > 0 ? between : sources;
        List<(Guid, int)> given = [.. links.Where(link => link.Form.FromPartId is not null).Select(link => (link.Form.FromPartId!.Value, link.Form.FromOutput))]; // filtered
        bool Taken(JobPart part, int output) => given.Contains((part.Id, output));
        foreach (var part in parts.Where(part => part.Data is AmplifierData or ProcessorData))
        {
            var from = part.Kind == PartKind.Amplifier ? processor is not null ? [processor] : givers
                : part == processor ? [.. givers, .. sources.Except(givers)]
                : between.Contains(part) ? sources
                : new List<JobPart>();
            var free = new SoundQueue(from, part, Taken);
            for (var input = 0; input < SignalPorts.Inputs(part, SignalKind.Sound) && !free.IsEmpty; input++)
            {
                if (!links.Exists(link => link.ToPartId == part.Id && link.ToInput == input) && free.TryTake(input, out var taken))
                {
                    given.Add((taken.Part.Id, taken.Output));
                    yield return new SignalLink(jobId, SignalKind.Sound, part.Id, input, new SignalLinkForm { FromPartId = taken.Part.Id, FromOutput = taken.Output });
                }
            }
        }
    }

    // What shapes the sound; an interface or converter only hands it on.
    private static JobPart? Processor(List<JobPart> parts) =>
        parts.Find(part => part.Data is ProcessorData { Use: ProcessorUse.SignalProcessor }) ?? parts.Find(part => part.Kind == PartKind.Processor);
}
