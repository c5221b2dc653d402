using System.Globalization;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>A connector of one unit that sound goes through.</summary>
/// <param name="Name">As it reads behind the device's name, "left", "digital in, left".</param>
/// <param name="IsVoice">Chimes, navigation and telephone come out here, and nothing else.</param>
/// <param name="IsOther">It is the second output of a source, with figures of its own.</param>
public sealed record SoundPort(string Name, PortKind Kind, ImageSide Side = ImageSide.Both, bool IsVoice = false, bool IsOther = false)
{
    /// <summary>What leaves one unit, in the order outputs are counted: those of its first connector, then of a second one, then the car's own sounds.</summary>
    public static IReadOnlyList<SoundPort> Outputs(PartData data) => data switch
    {
        SourceData source =>
        [
            .. Pair(source.OutputKind, ""),
            .. SignalDevices.KindOf(source.OtherOutput) is { } other ? Pair(other, $"{other.Words()}, ").Select(port => port with { IsOther = true }) : [],
            .. source.Sounds == SourceSounds.VehicleSoundsApart ? [new SoundPort("vehicle sounds", source.OutputKind, IsVoice: true)] : Array.Empty<SoundPort>(),
        ],
        ProcessorData processor => [.. Numbered("output", processor.Outputs ?? 0, processor.OutputKind)],
        AmplifierData { Load: ChannelLoading.BridgedFourOhms } amplifier => [.. Numbers((amplifier.Channels ?? 0) / 2).Select(pair => new SoundPort(Text($"bridged {(2 * pair) + 1}+{(2 * pair) + 2}"), PortKind.SpeakerLevel))],
        AmplifierData amplifier => [.. Numbered("output", amplifier.Channels ?? 0, PortKind.SpeakerLevel)],
        _ => [],
    };

    /// <summary>What comes into one unit, in the order inputs are counted.</summary>
    public static IReadOnlyList<SoundPort> Inputs(PartData data) => data switch
    {
        // A digital connector is counted behind analogue ones whose number is known.
        ProcessorData { Inputs: { } inputs } processor =>
            [.. Numbered("input", inputs, processor.InputKind), .. SignalDevices.KindOf(processor.DigitalInput) is { } digital ? Pair(digital, $"{digital.Words()}, ") : []],
        AmplifierData amplifier => [.. Numbered("input", amplifier.Channels ?? 0, amplifier.InputKind)],
        LoudspeakerData loudspeaker when SignalPorts.Coils(loudspeaker) is var coils => coils == 1 ? [new SoundPort("", PortKind.SpeakerLevel)] : [.. Numbers(coils).Select(coil => new SoundPort(Text($"coil {coil + 1}"), PortKind.SpeakerLevel))],
        _ => [],
    };

    /// <summary>Unit and connector of an output counted over the units of a line; null when there is no such one.</summary>
    internal static (int Unit, int Number, SoundPort Port)? Output(JobPart part, int output) => At(Outputs(part.Data), part, output);

    /// <inheritdoc cref="Output"/>
    internal static (int Unit, int Number, SoundPort Port)? Input(JobPart part, int input) => At(Inputs(part.Data), part, input);

    private static (int, int, SoundPort)? At(IReadOnlyList<SoundPort> ports, JobPart part, int at) =>
        ports.Count > 0 && at >= 0 && at < ports.Count * SignalPorts.Units(part) ? (at / ports.Count, at % ports.Count, ports[at % ports.Count]) : null;

    private static IEnumerable<SoundPort> Pair(PortKind kind, string before) => [new($"{before}left", kind, ImageSide.Left), new($"{before}right", kind, ImageSide.Right)];

    private static IEnumerable<SoundPort> Numbered(string what, int count, PortKind kind) => Numbers(count).Select(number => new SoundPort(Text($"{what} {number + 1}"), kind));

    private static IEnumerable<int> Numbers(int count) => Enumerable.Range(0, Math.Min(count, SignalPorts.Most));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
