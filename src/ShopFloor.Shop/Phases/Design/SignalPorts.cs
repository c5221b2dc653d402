using System.Globalization;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Outputs and inputs of parts, counted and named from their data.</summary>
public static class SignalPorts
{
    /// <summary>Most ports of one line; more are not offered.</summary>
    public const int Most = 128;

    /// <summary>Sizes a loudspeaker run may have.</summary>
    public static IReadOnlyList<ConductorSize> Gauges { get; } = ConductorSize.Gauges;

    public static ConductorSize? Gauge(string? label) => WireGauge.TryParse(label, out var gauge) ? Gauges.FirstOrDefault(size => size.Label == WireGauge.Label(gauge)) : null;

    /// <summary>How many outputs carry this kind; 0 when there are none or their number is not known.</summary>
    public static int Outputs(JobPart part, SignalKind kind) => Math.Min(Most, (kind, part.Data) switch
    {
        (SignalKind.Sound, _) => Units(part) * SoundPort.Outputs(part.Data).Count,
        (SignalKind.TurnOn, ProcessorData { RemoteOutMilliamperes: not null }) => 1,
        (SignalKind.TurnOn, SourceData { RemoteOutMilliamperes: not null }) => 1,
        (SignalKind.TurnOn, AccessoryData { RelayCoilOhms: not null }) => 1,
        _ => 0,
    });

    /// <inheritdoc cref="Outputs"/>
    public static int Inputs(JobPart part, SignalKind kind) => Math.Min(Most, (kind, part.Data) switch
    {
        (SignalKind.Sound, _) => Units(part) * SoundPort.Inputs(part.Data).Count,
        (SignalKind.TurnOn, AmplifierData or ProcessorData) => 1,
        (SignalKind.TurnOn, AccessoryData { RelayCoilOhms: not null } or AccessoryData { RemoteInMilliamperes: not null }) => 1,
        _ => 0,
    });

    public static int Coils(LoudspeakerData data) => data.Coils ?? 1;

    public static int Units(JobPart part) => (int)Math.Clamp(part.Quantity, 1, Most);

    /// <summary>Bridged channels make one output of two.</summary>
    public static int AmplifierOutputs(AmplifierData data) => data.Load == ChannelLoading.BridgedFourOhms ? (data.Channels ?? 0) / 2 : data.Channels ?? 0;

    /// <summary>"Tweeter (2 of 2)", "Woofer, coil 2".</summary>
    public static string NameOfLoudspeaker(JobPart part, int input, CoilUse use)
    {
        var coils = part.Data is LoudspeakerData data ? Coils(data) : 1;
        var name = NameOfUnit(part, input / coils);
        return coils > 1 && use == CoilUse.OneCoil ? string.Create(CultureInfo.InvariantCulture, $"{name}, coil {(input % coils) + 1}") : name;
    }

    /// <summary>One unit of a line. A pair of loudspeakers is told apart by its sides, as the trade does; a number says nothing about where it sits.</summary>
    public static string NameOfUnit(JobPart part, int unit) => (Units(part), part.Kind, ZoneOf(part, unit)) switch
    {
        (1, _, _) => part.Name,
        (2, PartKind.Loudspeaker, { } zone) when zone.EndsWith("-left", StringComparison.Ordinal) => $"{part.Name}, left",
        (2, PartKind.Loudspeaker, { } zone) when zone.EndsWith("-right", StringComparison.Ordinal) => $"{part.Name}, right",
        var (units, _, _) => string.Create(CultureInfo.InvariantCulture, $"{part.Name} ({unit + 1} of {units})"),
    };

    /// <summary>"Amplifier, output 3"; bridged outputs are named by their pair.</summary>
    public static string NameOfOutput(JobPart part, int output) => SoundPort.Output(part, output) is { } found
        ? $"{NameOfUnit(part, found.Unit)}, {found.Port.Name}"
        : string.Create(CultureInfo.InvariantCulture, $"{part.Name}, output {output + 1}");

    /// <summary>"Processor, input 2", "Woofer, coil 1"; a loudspeaker with one coil by its own name.</summary>
    public static string NameOfInput(JobPart part, int input) => SoundPort.Input(part, input) is not { } found ? string.Create(CultureInfo.InvariantCulture, $"{part.Name}, input {input + 1}")
        : found.Port.Name.Length > 0 ? $"{NameOfUnit(part, found.Unit)}, {found.Port.Name}"
        : NameOfUnit(part, found.Unit);

    /// <summary>Where one unit of a line sits: of a pair entered on one line, the second is taken to sit on the other side.</summary>
    public static string ZoneOf(JobPart part, int unit)
    {
        if (unit % 2 == 0 || part.Zone.Length == 0)
        {
            return part.Zone;
        }

        var other = part.Zone.EndsWith("-left", StringComparison.Ordinal) ? part.Zone[..^4] + "right"
            : part.Zone.EndsWith("-right", StringComparison.Ordinal) ? part.Zone[..^5] + "left"
            : part.Zone;
        return VehicleZones.Exists(other) ? other : part.Zone;
    }

    /// <summary>Suggested by place; null while a place is not set.</summary>
    public static double? SuggestedMeters(string from, string to) => from.Length > 0 && to.Length > 0 ? VehicleZones.SuggestedRunMeters(from, to) : null;
}
