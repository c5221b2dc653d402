using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Levels;

namespace ShopFloor.Engineering.Signal.Presets;

/// <summary>One preset for every source of a path.</summary>
public static class SourcePresets
{
    /// <summary>
    /// Formats asked about: sample rates of linear PCM in use (multiples of 44.1 and 48 kHz; rates of the channel-status table of IEC 60958-3,
    /// from memory) and a one-bit stream of 64 · 44.1 kHz (Super Audio CD, from memory).
    /// </summary>
    public static IReadOnlyList<AudioFormat> Usual { get; } =
    [
        new(44_100, 16), new(48_000, 24), new(88_200, 24), new(96_000, 24), new(176_400, 24), new(192_000, 24), new(2_822_400, 1),
    ];

    /// <summary>A preset for every source, in the order of the devices.</summary>
    /// <param name="input">A path without problems.</param>
    /// <param name="channels">Its levels, from <see cref="SignalLevels.Compute"/>.</param>
    public static IReadOnlyList<SourcePreset> Of(SignalPathInput input, IReadOnlyList<ChannelLevels> channels)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(channels);
        var sources = input.Devices.OfType<SourceDevice>().ToList();
        var heard = channels.SelectMany(levels => levels.Routes).Select(way => way.Route.Source.Id).ToHashSet();
        return
        [
            .. sources.Select(source =>
            {
                var reached = channels.Where(levels => levels.Routes.Any(way => way.Route.Source.Id == source.Id)).ToList();
                var route = reached.SelectMany(levels => levels.Routes).Select(way => way.Route).FirstOrDefault(way => way.Source.Id == source.Id);
                var others = sources.Where(other => other.Id != source.Id && other.CarriesVehicleSounds).ToLookup(other => heard.Contains(other.Id), other => other.Name);
                return new SourcePreset
                {
                    SourceId = source.Id,
                    SourceName = source.Name,
                    Way = [.. route?.Hops.Select(hop => hop.Device.Name) ?? []],
                    Links = route is null ? [] : [.. route.Hops.Zip(route.Hops.Skip(1), LinkOf)],
                    Drivers = [.. reached.SelectMany(levels => levels.Channel.Drivers).Select(share => share.Driver.Name).Distinct()],
                    Carried = route is null ? null : FormatCarrier.Follow(route),
                    Formats = route is null ? [] : Passages(route),
                    VolumeAt = source.Volume == VolumeControl.Here ? source.Name : route?.Hops.Select(hop => hop.Device).OfType<ProcessingDevice>().FirstOrDefault()?.Name,
                    CarriesVehicleSounds = source.CarriesVehicleSounds,
                    VehicleSoundsBeside = [.. others[true]],
                    VehicleSoundsLost = [.. others[false]],
                };
            }),
        ];
    }

    /// <summary>What becomes of a format a source plays along a way.</summary>
    /// <param name="route">A way of <see cref="SignalRoutes"/>.</param>
    /// <param name="format">The format.</param>
    public static FormatPassage Follow(SignalRoute route, AudioFormat format)
    {
        ArgumentNullException.ThrowIfNull(route);
        ArgumentNullException.ThrowIfNull(format);
        var carried = FormatCarrier.Follow(new SignalRoute([route.Hops[0] with { Device = route.Source with { Format = format } }, .. route.Hops.Skip(1)]));
        var arrives = carried is { SampleRateHertz: { } rate, Bits: { } bits } ? new AudioFormat(rate, bits) : null;
        if (!format.IsOneBit)
            return new FormatPassage(format, carried.IsWhole == true ? Passage.Whole : Passage.Reduced, arrives);
        return new FormatPassage(
            format,
            route.Hops[0].Output!.Kind switch // a source has an output on its way
            {
                var kind when kind.IsAnalog() => Passage.IntoVoltsAtSource,
                PortKind.Optical or PortKind.Coaxial => Passage.NotNative,
                _ => Passage.AsTheEndsAgree,
            },
            arrives);
    }

    // A one-bit source plays linear PCM too, up to what its way carries; of a PCM source nothing finer than its own format is asked.
    private static List<FormatPassage> Passages(SignalRoute route) => route.Source.Format is not { } best
        ? []
        : [.. Usual.Where(format => best.IsOneBit || (!format.IsOneBit && format.SampleRateHertz <= best.SampleRateHertz && format.Bits <= best.Bits)).Select(format => Follow(route, format))];

    private static WayLink LinkOf(SignalHop from, SignalHop to) => new(from.Device.Name, to.Device.Name, to.Input!.Kind); // only a source has no input
}
