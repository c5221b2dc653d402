using ShopFloor.Engineering.Signal.Loads;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What the enclosures of a job need to know of the rest of it.</summary>
/// <param name="Loudspeakers">Loudspeakers that go into the car.</param>
/// <param name="CabinLengthMeters">Longest size of the cabin inside; null while nobody measured it.</param>
public sealed record EnclosureFacts(IReadOnlyList<EnclosureDriver> Loudspeakers, double? CabinLengthMeters)
{
    /// <summary>Measured tables of the car that enclosures use, by file.</summary>
    public IReadOnlyDictionary<Guid, CabinTransfer> Transfers { get; init; } = new Dictionary<Guid, CabinTransfer>();

    /// <summary>Filters the channels have in the car.</summary>
    public IReadOnlyList<ChannelInCar> Tuned { get; init; } = [];

    /// <summary>Filters in the car of the channels that play a loudspeaker; channels alike once.</summary>
    public IReadOnlyList<TunedFilters> TunedFor(Guid? partId)
    {
        List<TunedFilters> found = [];
        foreach (var channel in Tuned.Where(channel => channel.LoudspeakerPartIds.Any(id => id == partId)))
        {
            if (!found.Exists(other => other.ActsLike(channel.Filters)))
            {
                found.Add(channel.Filters);
            }
        }

        return found;
    }

    public EnclosureDriver? Find(Guid? partId) => Loudspeakers.FirstOrDefault(driver => driver.PartId == partId);

    internal static EnclosureFacts Of(IReadOnlyList<JobPart> parts, double? cabinLengthMeters, IReadOnlyList<SignalLink> links, IReadOnlyList<PathChannel> channels) => new(
        [
            .. from part in parts
               where part is { Direction: PartDirection.Installed, Data: LoudspeakerData }
               select new EnclosureDriver(part.Id, part.Name, (int)part.Quantity, (LoudspeakerData)part.Data, CoilsOf(part, links), DriveOf(part, channels)),
        ],
        cabinLengthMeters);

    // Coils each on a channel of their own act as if joined side by side at that voltage.
    private static CoilUse? CoilsOf(JobPart part, IReadOnlyList<SignalLink> links)
    {
        var mine = links.Where(link => link.Kind == SignalKind.Sound && link.ToPartId == part.Id).ToList();
        var coils = SignalPorts.Coils((LoudspeakerData)part.Data);
        return mine.Count == 0 ? null
            : mine.TrueForAll(link => link.Form.Coils == CoilUse.OneCoil) && mine.Count >= coils ? CoilUse.AllInParallel
            : mine[0].Form.Coils;
    }

    private static EnclosureDrive? DriveOf(JobPart part, IReadOnlyList<PathChannel> channels)
    {
        bool Drives(LoadedChannel channel) => channel.Drivers.Any(driver => driver.DriverId.StartsWith(part.Id.ToString(), StringComparison.Ordinal));
        var mine = channels.Select(row => row.Levels.Channel).Where(channel => channel.AvailableWatts is not null && Drives(channel)).ToList();
        return mine.Count > 0 ? new EnclosureDrive(mine[0].Name, mine[0].AvailableWatts!.Value, mine[0].NominalOhms, mine.Count) : null; // asked for above
    }
}

/// <param name="Coils">How its voice coils are linked; null while they are not.</param>
/// <param name="Drive">What the channel that feeds it has; null while none does.</param>
public sealed record EnclosureDriver(Guid PartId, string Name, int Quantity, LoudspeakerData Data, CoilUse? Coils, EnclosureDrive? Drive);

/// <param name="Channel">Name of the channel or bridged pair.</param>
/// <param name="Watts">Power it has for its load, W.</param>
/// <param name="Ohms">Nominal impedance of that load, Ω.</param>
/// <param name="Channels">Channels that drive loudspeakers of the part, the named one among them.</param>
public sealed record EnclosureDrive(string Channel, double Watts, double Ohms, int Channels = 1)
{
    public double Volts => Math.Sqrt(Watts * Ohms);
}
