using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using JobLink = ShopFloor.Shop.Phases.Design.SignalLink;

namespace ShopFloor.Shop.Phases.Tuning.Measurements;

/// <summary>The channels of a job that are tuned, read from its signal path and parts.</summary>
public sealed class TuningChannels(ShopStore store)
{
    /// <summary>Channels from the subwoofer up, left before right; empty while no loudspeaker is linked to an amplifier.</summary>
    public Task<List<TuningChannel>> ListAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => ListAsync(db, jobId, cancellationToken), cancellationToken);
    }

    /// <summary>Inside a reading of the caller.</summary>
    internal static async Task<List<TuningChannel>> ListAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var parts = await PartsList.InOrder(db, jobId).AsNoTracking().Where(part => part.Direction == PartDirection.Installed).ToListAsync(cancellationToken);
        var links = await SignalLinks.OfJob(db, jobId).ToListAsync(cancellationToken);
        return Of(parts, links, await SignalPaths.ViewAsync(db, jobId, UnitText.Invariant, cancellationToken));
    }

    private static List<TuningChannel> Of(List<JobPart> parts, List<JobLink> links, SignalPathView view)
    {
        if (view.Input is not { } path)
        {
            return [];
        }

        var byUnit = parts.SelectMany(part => Enumerable.Range(0, SignalPorts.Units(part)).Select(unit => (Id: SignalDevices.IdOf(part, unit), Part: part, Unit: unit))).ToDictionary(end => end.Id);
        var loads = from load in path.Loads
                    let row = view.Channels.FirstOrDefault(row => row.Levels.Channel.Load.Id == load.Id)
                    where row is not null && byUnit.ContainsKey(load.AmplifierId)
                    let input = "in" + load.Outputs[0]["out".Length..]
                    let cable = path.Links.FirstOrDefault(link => link.ToDevice == load.AmplifierId && link.ToPort == input)
                    let processed = cable is not null && path.Devices.OfType<ProcessingDevice>().Any(device => device.Id == cable.FromDevice)
                    select (Row: row, Cable: cable, Processed: processed, Key: processed ? $"{cable.FromDevice}:{cable.FromPort}" : load.Id);
        List<TuningChannel> found = [];
        // What one output of the processor feeds is tuned together, however many amplifier channels it has.
        foreach (var group in loads.GroupBy(load => load.Key))
        {
            var ends = Ends(parts, links, group.Select(load => load.Row.OutputId).ToHashSet());
            if (ends.Count > 0)
            {
                var (row, cable, processed, _) = group.First();
                var processor = processed ? byUnit[cable!.FromDevice] : default; // processed: there is a cable
                int? output = processed ? ProcessorOutput(processor.Part, processor.Unit, cable!.FromPort) : null; // as above
                found.Add(Channel(group.Key, ends, string.Join(", ", group.Select(load => load.Row.Drivers).Distinct())) with
                {
                    ProcessorPartId = processor.Part?.Id,
                    ProcessorOutput = output,
                    OutputName = processed ? row.FedBy : row.Levels.Channel.Load.Outputs.Count > 1 ? $"{byUnit[row.Levels.Channel.Load.AmplifierId].Part.Name}, bridged" : $"{byUnit[row.Levels.Channel.Load.AmplifierId].Part.Name}, output {row.Levels.Channel.Load.Outputs[0][3..]}",
                });
            }
        }

        return Named(found);
    }

    private static int ProcessorOutput(JobPart processor, int unit, string port) =>
        unit * (((ProcessorData)processor.Data).Outputs ?? 0) + int.Parse(port["out".Length..], CultureInfo.InvariantCulture) - 1; // ports of processing devices are outN

    private static List<(JobPart Part, LoudspeakerData Data, string Zone)> Ends(List<JobPart> parts, List<JobLink> links, HashSet<string> outputs) =>
    [
        .. from link in links
           where link.Kind == SignalKind.Sound
           let amplifier = parts.Find(part => part.Id == link.Form.FromPartId)
           where amplifier is not null && outputs.Contains(SignalFindings.OutputId(amplifier, link.Form.FromOutput))
           let part = parts.Find(part => part.Id == link.ToPartId)
           where part is { Data: LoudspeakerData }
           let data = (LoudspeakerData)part.Data
           orderby data.LowestHertz ?? 0
           select (part, data, SignalPorts.ZoneOf(part, link.ToInput / SignalPorts.Coils(data))),
    ];

    private static TuningChannel Channel(string id, List<(JobPart Part, LoudspeakerData Data, string Zone)> ends, string drivers)
    {
        var roles = ends.Select(end => DriverRoles.Of(end.Data, end.Zone)).Distinct().ToList();
        var role = roles.Count == 1 ? roles[0] : DriverRole.Divided;
        var sides = ends.Select(end => SignalDevices.SideOf(end.Zone)).Distinct().ToList();
        // Behind a crossover the lowest-going one decides; side by side, the weakest.
        var lowest = role == DriverRole.Divided ? ends.Min(end => end.Data.LowestHertz) : ends.Max(end => end.Data.LowestHertz);
        var (from, to) = role == DriverRole.Divided ? (roles.Min(one => DriverRoles.Band(one).From), roles.Max(one => DriverRoles.Band(one).To)) : DriverRoles.Band(role);
        return new TuningChannel
        {
            Id = id,
            Name = "",
            Role = role,
            Side = sides is [ImageSide.Left] ? StageSide.Left : sides is [ImageSide.Right] ? StageSide.Right : StageSide.Both,
            OutputName = "",
            Drivers = drivers,
            LoudspeakerPartIds = [.. ends.Select(end => end.Part.Id).Distinct()],
            Zone = ends[0].Zone,
            LowestHertz = lowest,
            HighPassHertz = ends.TrueForAll(end => end.Data.HighPassHertz is not null) ? ends.Min(end => end.Data.HighPassHertz) : null,
            LowPassHertz = ends.TrueForAll(end => end.Data.LowPassHertz is not null) ? ends.Max(end => end.Data.LowPassHertz) : null,
            BandFromHertz = Math.Min(lowest ?? from, to / 2),
            BandToHertz = to,
            PistonRadiusMeters = DriverRoles.RadiusMeters(ends[0].Data),
        };
    }

    private static List<TuningChannel> Named(List<TuningChannel> channels)
    {
        var ordered = channels.OrderBy(channel => channel.Role).ThenBy(channel => channel.Side).ToList();
        return
        [
            .. ordered.Select(channel =>
            {
                var words = DriverRoles.Words(channel.Role, channel.Side);
                var others = channel.Side == StageSide.Both ? [] : ordered.Where(other => other.Role == channel.Role && other.Side != channel.Side && other.Side != StageSide.Both).ToList();
                var alone = ordered.Count(other => other.Role == channel.Role && other.Side == channel.Side) == 1;
                return channel with { Name = alone ? words : $"{words} ({channel.OutputName})", PairId = alone && others.Count == 1 ? others[0].Id : null };
            }),
        ];
    }
}
