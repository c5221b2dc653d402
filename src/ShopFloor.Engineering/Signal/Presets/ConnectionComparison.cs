using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Signal.Presets;

/// <summary>The same source connected in two ways.</summary>
public sealed record ConnectionComparisonInput
{
    /// <summary>The source; it is in both paths.</summary>
    public required string SourceId { get; init; }

    /// <summary>What the first way is called, such as "optical to the processor".</summary>
    public required string FirstName { get; init; }

    /// <summary>The path with the first way.</summary>
    public required SignalPathInput First { get; init; }

    /// <summary>What the second way is called.</summary>
    public required string SecondName { get; init; }

    /// <summary>The path with the second way.</summary>
    public required SignalPathInput Second { get; init; }

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null) =>
    [
        .. Problems(First, nameof(First), text),
        .. Problems(Second, nameof(Second), text),
    ];

    private List<InputProblem> Problems(SignalPathInput path, string field, UnitText? text)
    {
        if (path is null)
            return [new InputProblem(field, $"{field} is missing; accepted is a signal path.")];
        List<InputProblem> problems = [.. path.Validate(text).Select(problem => new InputProblem($"{field}.{problem.Field}", problem.Message))];
        if (path.Devices is not null && !path.Devices.OfType<SourceDevice>().Any(source => source.Id == SourceId))
            problems.Add(new InputProblem(nameof(SourceId), $"The source is '{SourceId}'; accepted is the id of a source that is in the path {field}."));
        return problems;
    }
}

/// <summary>Which of two ways is better in one respect.</summary>
public enum Favour
{
    /// <summary>No difference that matters.</summary>
    Neither,

    /// <summary>The first.</summary>
    First,

    /// <summary>The second.</summary>
    Second,

    /// <summary>A figure is missing.</summary>
    Unknown,
}

/// <summary>One respect in which two ways are compared.</summary>
/// <param name="What">The respect.</param>
/// <param name="First">How the first way stands.</param>
/// <param name="Second">How the second way stands.</param>
/// <param name="Favour">Which is better.</param>
/// <param name="Why">Why that is so, in a sentence.</param>
public sealed record ComparedPoint(string What, string First, string Second, Favour Favour, string Why);

/// <summary>A way as it is compared.</summary>
public sealed record ConnectionFigures
{
    /// <summary>Drivers the source is heard from.</summary>
    public required int Drivers { get; init; }

    /// <summary>Stops of the whole path connected so, other sources with it, as texts.</summary>
    public required IReadOnlyList<string> Stops { get; init; }

    /// <summary>Voltage at the input of the first device behind the source at full scale, V rms; null when it is digital or not known.</summary>
    public required double? InputVolts { get; init; }

    /// <summary>Whether that input takes numbers.</summary>
    public required bool IsDigital { get; init; }

    /// <summary>Distance to clipping there, dB; 0 for a digital link, where full scale is full scale; null when not known.</summary>
    public required double? HeadroomDecibels { get; init; }

    /// <summary>Residual noise of the loudest driver with this source alone, dB at 1 m; null when a figure is missing.</summary>
    public required double? NoiseAtEarDecibels { get; init; }

    /// <summary>Changes between numbers and volts and between rates.</summary>
    public required IReadOnlyList<Conversion> Conversions { get; init; }

    /// <summary>What of the source's best format arrives; null when it is not heard.</summary>
    public required CarriedFormat? Carried { get; init; }

    /// <summary>Cables of the source.</summary>
    public required int Cables { get; init; }

    /// <summary>Their length together, m; null when one is not known.</summary>
    public required double? CableMeters { get; init; }

    /// <summary>Whether metal joins source and next device, so that a ground loop may run through it.</summary>
    public required bool IsJoinedByMetal { get; init; }

    /// <summary>Device the volume is turned at, as far as the path tells.</summary>
    public required string? VolumeAt { get; init; }
}

/// <summary>Two ways compared.</summary>
/// <param name="First">The first way.</param>
/// <param name="Second">The second way.</param>
/// <param name="Points">Respect by respect.</param>
public sealed record ConnectionComparisonResult(ConnectionFigures First, ConnectionFigures Second, IReadOnlyList<ComparedPoint> Points);

/// <summary>Compares two ways to connect the same source.</summary>
public static class ConnectionComparison
{
    // dB below which two figures are the same to an ear. Common practice, no source.
    private const double HeardDecibels = 1;

    /// <summary>Compares.</summary>
    /// <remarks>Every other source is left out of both paths, so that gains and noise are those of this source.</remarks>
    /// <param name="input">Both paths.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="ConnectionComparisonInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static ConnectionComparisonResult Compute(ConnectionComparisonInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        var (first, second) = (FiguresOf(input.First, input.SourceId, text), FiguresOf(input.Second, input.SourceId, text));
        return new ConnectionComparisonResult(first, second, [.. Points(first, second, text)]);
    }

    private static ConnectionFigures FiguresOf(SignalPathInput path, string sourceId, UnitText text)
    {
        var alone = path with
        {
            Devices = [.. path.Devices.Where(device => device is not SourceDevice || device.Id == sourceId)],
            Links = [.. path.Links.Where(link => link.FromDevice == sourceId || path.Devices.First(device => device.Id == link.FromDevice) is not SourceDevice)],
        };
        var channels = SignalLevels.Compute(alone);
        var preset = SourcePresets.Of(alone, channels).First(found => found.SourceId == sourceId);
        var way = channels.SelectMany(levels => levels.Routes).FirstOrDefault();
        var arrival = way?.Route.Hops[1];
        var stage = way?.Stages.FirstOrDefault(found => found.DeviceId == arrival?.Device.Id && found.Volts is not null && found.Name.EndsWith(arrival.Input!.Name, StringComparison.Ordinal)); // it arrives
        var digital = arrival?.Input?.Kind.IsAnalog() == false;
        var cables = alone.Links.Where(link => link.FromDevice == sourceId).ToList();
        // A digital link carries every channel on one cable.
        var runs = digital ? cables.Take(1).ToList() : cables;
        var wireless = arrival?.Input?.Kind == PortKind.Wireless;
        return new ConnectionFigures
        {
            Drivers = channels.Where(levels => levels.Routes.Count > 0).SelectMany(levels => levels.Channel.Drivers).Select(share => share.DriverId).Distinct().Count(),
            Stops = [.. SignalPath.Compute(path, text).Findings.Where(finding => finding.Severity == Severity.Stop).Select(finding => $"{finding.Subject}: {finding.Text}")],
            IsDigital = digital,
            InputVolts = digital ? null : stage?.Volts,
            HeadroomDecibels = digital ? 0 : stage?.HeadroomDecibels,
            NoiseAtEarDecibels = channels.SelectMany(levels => levels.Noise).Max(noise => noise.SoundLevelDecibels),
            Conversions = preset.Carried?.Conversions ?? [],
            Carried = preset.Carried,
            Cables = wireless ? 0 : runs.Count,
            CableMeters = wireless ? 0 : runs.Any(link => link.LengthMeters is null) ? null : runs.Sum(link => link.LengthMeters),
            IsJoinedByMetal = arrival?.Input?.Kind is not (PortKind.Optical or PortKind.Wireless),
            VolumeAt = preset.VolumeAt,
        };
    }

    private static IEnumerable<ComparedPoint> Points(ConnectionFigures first, ConnectionFigures second, UnitText text)
    {
        yield return Point("Heard from", first, second, way => way.Drivers == 0 ? "no loudspeaker" : text.With(way.Drivers, way.Drivers == 1 ? "loudspeaker" : "loudspeakers"), way => way.Drivers, 0.5, "A device passed by leaves out what hangs behind it.");
        yield return Point(
            "Stands against it", first, second, way => way.Stops.Count == 0 ? "nothing" : string.Join(" ", way.Stops), way => -way.Stops.Count, 0.5,
            "Stops of the whole path connected so; they hold delivery until they are mended or signed off.");
        yield return new ComparedPoint(
            "Level at the input", Level(first, text), Level(second, text), Favour.Neither,
            "With the source at full scale. A digital link has no level to match.");
        yield return Point(
            "Distance to clipping there", first, second, way => way.HeadroomDecibels is { } headroom ? text.With(headroom, "dB") : "not known", way => way.HeadroomDecibels is { } headroom ? Math.Min(0, headroom) : null, 0.1,
            "An input that clips distorts at every volume behind it; distance beyond that is no gain by itself.");
        yield return Point(
            "Noise at the ear", first, second, way => way.NoiseAtEarDecibels is { } noise ? $"{text.With(noise, "dB")} at 1 m" : "not known", way => -way.NoiseAtEarDecibels, HeardDecibels,
            "Of the loudest loudspeaker, gains set for this source: a higher voltage or fewer converters before the amplifier leave less hiss.");
        yield return Point(
            "Conversions", first, second, way => way.Conversions.Count == 0 ? "none" : $"{way.Conversions.Count}: {string.Join("; ", way.Conversions.Select(change => $"{change.DeviceName}, {change.What}"))}", way => -way.Conversions.Count, 0.5,
            "Each change between numbers and volts adds noise and delay of its own.");
        yield return Point(
            "Arrives", first, second, way => Format(way.Carried, text), Carries, 0.5,
            "The slowest rate and the shortest word on the way decide; a codec throws away for good.");
        yield return Point(
            "Delay", first, second, way => way.Carried?.DelaySeconds is { } seconds ? text.With(1000 * seconds, "ms") : "not known", way => -1000 * way.Carried?.DelaySeconds, 1,
            "Below some hundredths of a second nobody notices without a picture.");
        yield return Point(
            "Ground", first, second, way => way.IsJoinedByMetal ? "joined by metal" : "apart", way => way.IsJoinedByMetal ? 0 : 1, 0.5,
            "Without metal between them no ground loop whines with the engine.");
        yield return new ComparedPoint("Volume is turned", At(first), At(second), Favour.Neither, "As far as the path tells; a fixed output needs a control behind it.");
        yield return Point(
            "Cable", first, second, way => way.Cables == 0 ? "none" : $"{way.Cables}, {(way.CableMeters is { } meters ? text.Meters(meters) : "length not known")} in all", way => way.Cables == 0 ? 0 : -way.CableMeters, 0.1,
            "Less cable is less to lay and less to pick up noise.");
    }

    private static ComparedPoint Point(string what, ConnectionFigures first, ConnectionFigures second, Func<ConnectionFigures, string> words, Func<ConnectionFigures, double?> good, double matters, string why) => new(
        what, words(first), words(second),
        (good(first), good(second)) switch
        {
            ({ } one, { } other) when Math.Abs(one - other) < matters => Favour.Neither,
            ({ } one, { } other) => one > other ? Favour.First : Favour.Second,
            _ => Favour.Unknown,
        },
        why);

    private static string Level(ConnectionFigures way, UnitText text) =>
        way.IsDigital ? "digital full scale" : way.InputVolts is { } volts ? $"{text.Volts(volts)} ({text.With(DecibelLevels.OfVolts(volts), "dBV")})" : "not known";

    private static string At(ConnectionFigures way) => way.VolumeAt is { } device ? $"at {device}" : "nowhere on the way";

    private static string Format(CarriedFormat? carried, UnitText text) => carried switch
    {
        null => "nothing",
        { LossyAt: { } lossy } => $"less by a codec: {lossy}",
        { SampleRateHertz: { } rate, Bits: { } bits } => $"{text.Number(rate / 1000, 4)} kHz, {text.With(bits, "bits")}",
        { SampleRateHertz: { } rate } => $"{text.Number(rate / 1000, 4)} kHz",
        _ => "volts all the way, or not known",
    };

    // Bits a second of what arrives decide; a codec comes after everything.
    private static double? Carries(ConnectionFigures way) => way.Carried switch
    {
        null => 0,
        { LossyAt: not null } => 1,
        { SampleRateHertz: { } rate, Bits: { } bits } => rate * bits,
        _ => null,
    };
}
