using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>A box at its power, worked out for who decides about it.</summary>
public sealed record EnclosureStudyResult
{
    /// <summary>The driver, or several as one.</summary>
    public required DriverParameters Driver { get; init; }

    /// <summary>Response at the voltage behind the high-pass, lowest frequency first.</summary>
    public required IReadOnlyList<ResponsePoint> Response { get; init; }

    /// <summary>Level in the cabin at each of those frequencies, dB; the level at 1 m with the gain of the cabin. Null without a cabin.</summary>
    public required IReadOnlyList<double>? InCarDecibels { get; init; }

    /// <summary>Group delay, s, between neighbouring frequencies.</summary>
    public required IReadOnlyList<(double Hertz, double Seconds)> GroupDelay { get; init; }

    /// <summary>Largest level and what ends it.</summary>
    public required IReadOnlyList<LargestLevelPoint> Largest { get; init; }

    /// <summary>Lowest frequency 3 dB below the flat part, Hz; of a band-pass, below its peak. Null when the band does not show it.</summary>
    public required double? CornerHertz { get; init; }

    /// <summary>Total Q in a closed box; null for others.</summary>
    public required double? Qtc { get; init; }

    /// <summary>Length to cut of each port, m; null without a port or when no length gives the tuning.</summary>
    public required double? PortMeters { get; init; }

    /// <summary>Largest excursion of the cone from the lowest judged frequency on.</summary>
    public required ResponsePoint WorstExcursion { get; init; }

    /// <summary>Fastest air in the port from the lowest judged frequency on; null without one.</summary>
    public required ResponsePoint? WorstPort { get; init; }

    /// <summary>Most power into the resistance of the coil from the lowest judged frequency on.</summary>
    public required ResponsePoint WorstPower { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }

    /// <summary>What stands against it, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }
}

/// <summary>Works a box out at the power it gets: response behind its high-pass, in the car, and every limit.</summary>
/// <remarks>The circuit is linear, so a high-pass before the amplifier scales every quantity of a frequency alike. Beyond the linear excursion a real driver gives less.</remarks>
public static class EnclosureStudy
{
    /// <summary>Computes the study.</summary>
    /// <param name="input">Box, power and car.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="EnclosureStudyInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static EnclosureStudyResult Compute(EnclosureStudyInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        var simulation = input.Simulation;
        var bare = EnclosureSimulation.Compute(simulation, text);
        var response = FilteredResponse.Of(bare.Response, input.Filters);
        var limits = new LevelLimits(simulation.AmplifierVolts, simulation.PortMetersPerSecond, simulation.RadiatorMeters);
        // A short band may lie below the lowest judged frequency; then all of it counts.
        IReadOnlyList<ResponsePoint> judged = response.Where(point => point.Hertz >= input.JudgedFromHertz).ToList() is { Count: > 0 } upper ? upper : response;
        var studied = new StudiedBox(input, bare.Driver, Air.At(simulation.AirCelsius))
        {
            CornerHertz = Corner(response, Flat(simulation, bare.Driver, response)),
            WorstExcursion = judged.MaxBy(point => point.ExcursionMeters)!, // one or more
            WorstPort = judged[0].PortMetersPerSecond is null ? null : judged.MaxBy(point => point.PortMetersPerSecond),
            Boost = judged.Select(point => (point.Hertz, Decibels: 20 * Math.Log10(Math.Max(1e-9, FilteredResponse.Gain(input.Filters, point.Hertz).Magnitude)))).MaxBy(point => point.Decibels),
            WorstPower = judged.MaxBy(point => point.Watts)!, // one or more
        };
        return new EnclosureStudyResult
        {
            Driver = bare.Driver,
            Response = response,
            InCarDecibels = input.Cabin is { } cabin ? BoxSummary.InCabin(response, cabin) : null,
            GroupDelay = EnclosureResponse.GroupDelay(response),
            // Where filters raise the level, the amplifier is at its end that much earlier.
            Largest = [.. response.SelectMany(point => LargestLevel.Of([point], simulation.Volts, bare.Driver, limits with { AmplifierVolts = limits.AmplifierVolts / Math.Max(1, FilteredResponse.Gain(input.Filters, point.Hertz).Magnitude) }))],
            CornerHertz = studied.CornerHertz,
            Qtc = studied.Qtc,
            PortMeters = studied.PortMeters,
            WorstExcursion = studied.WorstExcursion,
            WorstPort = studied.WorstPort,
            WorstPower = studied.WorstPower,
            Explanation = studied.Explain(text),
            Findings = [.. studied.Find(text).Concat(bare.Findings.Select(finding => finding with { SubjectId = $"{input.Id}:{finding.SubjectId}", Subject = $"{input.Name}: {finding.Subject}" })).OrderByDescending(finding => finding.Severity)],
        };
    }

    // Level of the flat part, where mass alone rules the cone; a band-pass has none, so its peak stands for it.
    private static double Flat(EnclosureInput input, DriverParameters driver, IReadOnlyList<ResponsePoint> response) => input.Box is BandPassBox
        ? response.Max(point => point.LevelDecibels)
        : driver.OneWattDecibels(Air.At(input.AirCelsius)) + 10 * Math.Log10(input.Volts * input.Volts / driver.ReOhms);

    private static double? Corner(IReadOnlyList<ResponsePoint> response, double flat)
    {
        var wanted = flat + 10 * Math.Log10(0.5);
        var at = 0;
        while (at < response.Count && response[at].LevelDecibels < wanted)
            at++;
        if (at == 0 || at == response.Count)
            return null;
        var (low, high) = (response[at - 1], response[at]);
        return low.Hertz * Math.Pow(high.Hertz / low.Hertz, (wanted - low.LevelDecibels) / (high.LevelDecibels - low.LevelDecibels));
    }
}
