using ShopFloor.Engineering.Signal.Chain;

namespace ShopFloor.Engineering.Signal.Presets;

/// <summary>A change between numbers and volts, or between sample rates, on the way.</summary>
/// <param name="DeviceName">Where.</param>
/// <param name="What">What is changed into what, in plain words.</param>
public sealed record Conversion(string DeviceName, string What);

/// <summary>What of a source's format arrives, and what happens to it on the way.</summary>
public sealed record CarriedFormat
{
    /// <summary>What the source plays at best; null when not known.</summary>
    public required AudioFormat? Source { get; init; }

    /// <summary>Lowest sample rate on the way, Hz; null when nothing on the way is digital or none is known.</summary>
    public required double? SampleRateHertz { get; init; }

    /// <summary>Shortest word on the way, bits.</summary>
    public required int? Bits { get; init; }

    /// <summary>Where something is thrown away by a codec; null when nowhere.</summary>
    public required string? LossyAt { get; init; }

    /// <summary>Changes between numbers and volts and between rates, in order.</summary>
    public required IReadOnlyList<Conversion> Conversions { get; init; }

    /// <summary>Delay from source to amplifier, s; null when a device does not say.</summary>
    public required double? DelaySeconds { get; init; }

    /// <summary>Devices that do not say their delay.</summary>
    public required IReadOnlyList<string> DelayMissing { get; init; }

    /// <summary>Whether what the source plays at best arrives as it is, up to the first change into volts; null when not known.</summary>
    public bool? IsWhole => Source is null ? null
        : Source.IsOneBit || LossyAt is not null ? false
        : SampleRateHertz is null || (SampleRateHertz >= Source.SampleRateHertz && (Bits ?? int.MaxValue) >= Source.Bits);
}

/// <summary>Follows the format along a way.</summary>
/// <remarks>
/// IEC 60958 carries two channels of linear PCM of up to 24 bits; optical consumer connectors are specified in practice up to 96 kHz.
/// A one-bit stream (DSD) is not carried as it is. A wireless link carries what its codec leaves over.
/// </remarks>
public static class FormatCarrier
{
    /// <summary>Highest sample rate of an optical connector that does not say its own, Hz. Makers' data sheets; common practice.</summary>
    public const double OpticalHertz = 96_000;

    /// <summary>Highest sample rate of a coaxial connector that does not say its own, Hz: channel-status table of IEC 60958-3, from memory.</summary>
    public const double CoaxialHertz = 192_000;

    /// <summary>Longest word of IEC 60958, bits.</summary>
    public const int Iec60958Bits = 24;

    /// <summary>Highest sample rate a connector takes, Hz; null for analogue ones and where nothing is known.</summary>
    /// <param name="port">The connector.</param>
    public static double? LargestRate(SignalPort port)
    {
        ArgumentNullException.ThrowIfNull(port);
        return port.Kind.IsAnalog() ? null : port.MaxSampleRateHertz ?? port.Kind switch
        {
            PortKind.Optical => OpticalHertz,
            PortKind.Coaxial => CoaxialHertz,
            _ => null,
        };
    }

    /// <summary>Longest word a connector takes, bits; null for analogue ones and where nothing is known.</summary>
    /// <param name="port">The connector.</param>
    public static int? LongestWord(SignalPort port)
    {
        ArgumentNullException.ThrowIfNull(port);
        return port.Kind is PortKind.Optical or PortKind.Coaxial ? Math.Min(port.MaxBits ?? Iec60958Bits, Iec60958Bits)
            : port.Kind.IsAnalog() ? null : port.MaxBits;
    }

    /// <summary>What arrives along a way.</summary>
    /// <param name="route">A way of <see cref="SignalRoutes"/>.</param>
    public static CarriedFormat Follow(SignalRoute route)
    {
        ArgumentNullException.ThrowIfNull(route);
        var source = route.Source.Format;
        var conversions = new List<Conversion>();
        double? rate = source is { IsOneBit: false } ? source.SampleRateHertz : null;
        int? bits = source is { IsOneBit: false } ? source.Bits : null;
        string? lossy = null;
        for (var at = 0; at < route.Hops.Count; at++)
        {
            var hop = route.Hops[at];
            var comes = hop.Input is { } input ? !input.Kind.IsAnalog() : source is not null;
            var leaves = hop.Output is { } output ? !output.Kind.IsAnalog() : (bool?)null;
            foreach (var port in new[] { hop.Input, hop.Output }.OfType<SignalPort>())
            {
                if (LargestRate(port) is { } largest)
                    rate = rate is { } known ? Math.Min(known, largest) : rate;
                if (LongestWord(port) is { } longest)
                    bits = bits is { } word ? Math.Min(word, longest) : bits;
                if (port.CodecKilobitsPerSecond is { } codec)
                    lossy ??= $"{hop.Device.Name}, {port.Name} ({codec:0} kbit/s)";
            }

            if (hop.Device is ProcessingDevice { SampleRateHertz: { } inside } processing)
            {
                if (!comes)
                    conversions.Add(new Conversion(hop.Device.Name, $"volts into numbers at {Kilohertz(inside)}"));
                else if (rate is { } coming && Math.Abs(coming - inside) > 0.5)
                    conversions.Add(new Conversion(hop.Device.Name, $"{Kilohertz(coming)} into {Kilohertz(inside)}"));
                rate = rate is { } known ? Math.Min(known, inside) : inside;
                bits = processing.Bits is { } word ? Math.Min(bits ?? word, word) : bits;
                if (leaves == false)
                    conversions.Add(new Conversion(hop.Device.Name, "numbers into volts"));
            }
            else if (comes && leaves == false)
            {
                conversions.Add(new Conversion(hop.Device.Name, "numbers into volts"));
            }
        }

        var silent = route.Hops.Where(hop => hop.Device is not AmplifierDevice && hop.Device.DelaySeconds is null).Select(hop => hop.Device.Name).ToList();
        return new CarriedFormat
        {
            Source = source,
            SampleRateHertz = rate,
            Bits = bits,
            LossyAt = lossy,
            Conversions = conversions,
            DelaySeconds = silent.Count == 0 ? route.Hops.Sum(hop => hop.Device.DelaySeconds ?? 0) : null,
            DelayMissing = silent,
        };
    }

    private static string Kilohertz(double hertz) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{hertz / 1000:0.###} kHz");
}
