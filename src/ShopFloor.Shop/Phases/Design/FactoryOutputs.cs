using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Outputs of the factory amplifiers, radios and interfaces of a job, read from its parts and links.</summary>
internal static class FactoryOutputs
{
    /// <summary>Factory amplifiers first, what is connected before what is not; none while no part stands for the car's sound.</summary>
    public static async Task<List<FactoryOutputRow>> ListAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var parts = await PartsList.InOrder(db, jobId).AsNoTracking().Where(part => part.Direction == PartDirection.Installed).ToListAsync(cancellationToken);
        var factory = parts.Where(part => IsFactory(part.Data)).ToList();
        if (factory.Count == 0)
        {
            return [];
        }

        var links = await SignalLinks.OfJob(db, jobId).Where(link => link.Kind == SignalKind.Sound).ToListAsync(cancellationToken);
        var devices = (await SignalPaths.ViewAsync(db, jobId, UnitText.Invariant, cancellationToken)).Input?.Devices ?? [];
        return
        [
            .. from part in factory
               from output in Enumerable.Range(0, SignalPorts.Outputs(part, SignalKind.Sound))
               let end = SoundPort.Output(part, output)
               where end is { Port: { IsVoice: false } port } && port.Kind.IsAnalog()
               let feeds = links.Find(link => link.Form.FromPartId == part.Id && link.Form.FromOutput == output)
               // A second connector nobody uses is not what the new system is fed from.
               where feeds is not null || !end.Value.Port.IsOther
               orderby part.Data is ProcessorData { Use: ProcessorUse.FactoryAmplifier } descending, feeds is not null descending
               select new FactoryOutputRow(
                   new FactoryOutputRef { PartId = part.Id, Output = output, Name = NameOf(part, output, devices), Side = SideOf(part, output, end.Value.Port, devices) },
                   feeds is not null && parts.Find(found => found.Id == feeds.ToPartId) is { } to ? SignalPorts.NameOfInput(to, feeds.ToInput) : ""),
        ];
    }

    /// <summary>Parts of which an output was measured.</summary>
    public static async Task<HashSet<Guid>> MeasuredAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken) =>
        [.. (await JobDesigns.ListAsync<MeasuredOutput>(db, jobId, cancellationToken)).Select(design => design.Form.Output.PartId).OfType<Guid>()];

    private static bool IsFactory(PartData data) => data is ProcessorData { Use: ProcessorUse.FactoryAmplifier or ProcessorUse.VehicleInterface } or SourceData { Sounds: not SourceSounds.Music };

    private static SignalPort? PortOf(JobPart part, int output, IReadOnlyList<SignalDevice> devices) => SignalDevices.EndOf(part, output) is { } end
        ? devices.FirstOrDefault(device => device.Id == end.Device)?.Outputs.FirstOrDefault(port => port.Id == end.Port)
        : null;

    // With what it is for, where that was said of the routing.
    private static string NameOf(JobPart part, int output, IReadOnlyList<SignalDevice> devices) =>
        SoundPort.Output(part, output) is { } end && PortOf(part, output, devices) is { } port ? $"{SignalPorts.NameOfUnit(part, end.Unit)}, {port.Name}" : SignalPorts.NameOfOutput(part, output);

    private static ImageSide SideOf(JobPart part, int output, SoundPort own, IReadOnlyList<SignalDevice> devices) =>
        PortOf(part, output, devices) is { Side: not ImageSide.Both } port ? port.Side : own.Side;

    /// <summary>What the design reads of a measurement that a later phase took.</summary>
    private sealed record MeasuredOutput : IDesignForm
    {
        public static DesignKind Kind => DesignKind.FactoryMeasurement;

        public static Permission Needed => Permission.WorkOnJobs;

        public FactoryOutputRef Output { get; init; } = new();

        public List<Problem> Problems() => [];
    }
}
