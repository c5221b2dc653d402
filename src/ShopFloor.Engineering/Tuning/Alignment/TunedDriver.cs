using System.Numerics;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Alignment;

/// <summary>Left, right, or both.</summary>
public enum StageSide
{
    /// <summary>Plays for both sides, as a subwoofer or a centre does.</summary>
    Both,

    /// <summary>Left.</summary>
    Left,

    /// <summary>Right.</summary>
    Right,
}

/// <summary>A response at one place of the microphone.</summary>
/// <param name="Response">Level and phase, the phase with the arrival taken out.</param>
/// <param name="ArrivalSeconds">When the sound arrives, s, on the clock of all measurements.</param>
public sealed record SeatResponse(FrequencyResponse Response, double ArrivalSeconds);

/// <summary>A driver, or several on one channel, as measured without any processing.</summary>
public sealed record TunedDriver
{
    /// <summary>Identifier of its channel.</summary>
    public required string Id { get; init; }

    /// <summary>Name for people.</summary>
    public required string Name { get; init; }

    /// <summary>Its side.</summary>
    public StageSide Side { get; init; }

    /// <summary>Identifier of the same driver on the other side; null when there is none.</summary>
    public string? PairId { get; init; }

    /// <summary>Lowest frequency the driver survives with at least 24 dB per octave, Hz (5 to 20,000); null when it needs no protection.</summary>
    public double? LowestHertz { get; init; }

    /// <summary>Lower end of its rated band, Hz.</summary>
    public required double BandFromHertz { get; init; }

    /// <summary>Upper end of its rated band, Hz.</summary>
    public required double BandToHertz { get; init; }

    /// <summary>Whether it is rear fill.</summary>
    public bool IsRearFill { get; init; }

    /// <summary>Responses, the first in the middle of the head, 1 to 16; every driver at the same places.</summary>
    public required IReadOnlyList<SeatResponse> Positions { get; init; }

    /// <summary>Lowest crossover a slope allows: what is measured at 24 dB per octave needs a quarter more at 18 and half more below. Common practice, no source.</summary>
    internal double LowestFor(int slopeDecibelsPerOctave) =>
        Math.Max(BandFromHertz, (LowestHertz ?? 0) * (slopeDecibelsPerOctave >= 24 ? 1 : slopeDecibelsPerOctave >= 18 ? 1.25 : 1.5));

    internal Complex[][] On(IReadOnlyList<double> hertz) =>
        [.. Positions.Select(position => hertz.Select(f => position.Response.At(f) * Complex.FromPolarCoordinates(1, -2 * Math.PI * f * position.ArrivalSeconds)).ToArray())];

    internal void Check(InputChecks checks, string path, UnitText text)
    {
        checks.Named($"{path}.{nameof(Id)}", "Identifier of the driver", Id);
        checks.Named($"{path}.{nameof(Name)}", "Name of the driver", Name);
        checks.InRange($"{path}.{nameof(LowestHertz)}", "Lowest frequency in Hz", LowestHertz, 5, 20_000);
        checks.InRange($"{path}.{nameof(BandFromHertz)}", "Lower end of the band in Hz", BandFromHertz, 5, 20_000);
        checks.InRange($"{path}.{nameof(BandToHertz)}", "Upper end of the band in Hz", BandToHertz, 20, 40_000);
        checks.InRange($"{path}.{nameof(Positions)}", "Places of the microphone", Positions.Count, 1, 16);
        if (BandFromHertz >= BandToHertz)
            checks.Add($"{path}.{nameof(BandToHertz)}", $"Upper end of the band: {text.With(BandToHertz, "Hz")} is not above the lower, {text.With(BandFromHertz, "Hz")}.");
        foreach (var (position, at) in Positions.Select((position, at) => (position, at)))
        {
            var (response, where) = (position.Response, $"{path}.{nameof(Positions)}[{at}]");
            checks.InRange($"{where}.{nameof(position.ArrivalSeconds)}", "Arrival in s", position.ArrivalSeconds, -1, 2);
            if (response.Hertz.Count < 2 || response.Decibels.Count != response.Hertz.Count || response.PhaseRadians?.Count != response.Hertz.Count)
                checks.Add($"{where}.{nameof(position.Response)}", $"Response of {Name}: {response.Hertz.Count} frequencies, {response.Decibels.Count} levels, {response.PhaseRadians?.Count ?? 0} phases; enter at least 2, of each as many.");
            else if (response.Hertz.Concat(response.Decibels).Concat(response.PhaseRadians).Any(value => !double.IsFinite(value)) || response.Hertz[0] <= 0 || response.Hertz.Zip(response.Hertz.Skip(1)).Any(pair => pair.Second <= pair.First))
                checks.Add($"{where}.{nameof(position.Response)}", $"Response of {Name}: its frequencies must rise from above 0, and every value must be a number.");
        }
    }
}

/// <summary>Drivers that meet at a crossover.</summary>
/// <param name="LowerIds">Those that play below it.</param>
/// <param name="UpperIds">Those that play above it.</param>
public sealed record JunctionSide(IReadOnlyList<string> LowerIds, IReadOnlyList<string> UpperIds);

/// <summary>A crossover to be chosen: the same on all its sides.</summary>
public sealed record Junction
{
    /// <summary>Identifier.</summary>
    public required string Id { get; init; }

    /// <summary>Name for people, for example "Midbass to tweeter".</summary>
    public required string Name { get; init; }

    /// <summary>Where drivers meet: left and right apart, or once for a subwoofer under both.</summary>
    public required IReadOnlyList<JunctionSide> Sides { get; init; }

    /// <summary>Lowest frequency it may have, Hz (20 to 20,000).</summary>
    public required double FromHertz { get; init; }

    /// <summary>Highest frequency it may have, Hz (20 to 20,000).</summary>
    public required double ToHertz { get; init; }

    /// <summary>Shapes it may have.</summary>
    public IReadOnlyList<CrossoverShape> Shapes { get; init; } = [CrossoverShape.LinkwitzRiley, CrossoverShape.Butterworth, CrossoverShape.Bessel];

    /// <summary>Slopes it may have, dB per octave.</summary>
    public IReadOnlyList<int> SlopesDecibelsPerOctave { get; init; } = [12, 24, 36, 48];

    /// <summary>Set by hand; null leaves it to the search.</summary>
    public Crossover? Pinned { get; init; }

    /// <summary>Whether polarity is left as it is wired.</summary>
    public bool PolarityPinned { get; init; }

    /// <summary>Whether delays are left as they are.</summary>
    public bool DelayPinned { get; init; }

    internal void Check(InputChecks checks, string path, IReadOnlyList<TunedDriver> drivers, double sampleRateHertz, UnitText text)
    {
        checks.InRange($"{path}.{nameof(FromHertz)}", "Lowest frequency in Hz", FromHertz, 20, 20_000);
        checks.InRange($"{path}.{nameof(ToHertz)}", "Highest frequency in Hz", ToHertz, FromHertz, 20_000);
        if (Sides.Count == 0 || Sides.Any(side => side.LowerIds.Count == 0 || side.UpperIds.Count == 0))
            checks.Add($"{path}.{nameof(Sides)}", $"{Name}: name at least one driver below and one above on each side.");
        foreach (var id in Sides.SelectMany(side => side.LowerIds.Concat(side.UpperIds)).Where(id => drivers.All(driver => driver.Id != id)))
            checks.Add($"{path}.{nameof(Sides)}", $"{Name}: there is no driver \u201c{id}\u201d; use one of {string.Join(", ", drivers.Select(driver => driver.Id))}.");
        if (Pinned is { } pinned)
            checks.AddRange(pinned.Validate(sampleRateHertz, text).Select(problem => problem with { Field = $"{path}.{nameof(Pinned)}.{problem.Field}" }));
        else if (checks.Problems.Count == 0 && !CrossoverCandidates.Of(this, drivers).Any())
            checks.Add(path, $"{Name}: no crossover between {text.With(FromHertz, "Hz")} and {text.With(ToHertz, "Hz")} keeps the limits of the drivers; widen the range or allow steeper slopes.");
    }
}

/// <summary>The crossovers a junction may have.</summary>
internal static class CrossoverCandidates
{
    /// <summary>Frequencies in sixths of an octave, every shape and slope, those left out that a driver does not bear.</summary>
    public static IEnumerable<Crossover> Of(Junction junction, IReadOnlyList<TunedDriver> drivers)
    {
        var lower = drivers.Where(driver => junction.Sides.Any(side => side.LowerIds.Contains(driver.Id))).ToList();
        var upper = drivers.Where(driver => junction.Sides.Any(side => side.UpperIds.Contains(driver.Id))).ToList();
        var steps = Math.Max(1, (int)Math.Round(6 * Math.Log2(junction.ToHertz / junction.FromHertz)));
        return from n in Enumerable.Range(0, steps + 1)
               let hertz = junction.FromHertz * Math.Pow(junction.ToHertz / junction.FromHertz, n / (double)steps)
               from shape in junction.Shapes
               from slope in junction.SlopesDecibelsPerOctave
               where Crossover.SlopesOf(shape).Contains(slope)
               where lower.All(driver => hertz <= driver.BandToHertz) && upper.All(driver => hertz >= driver.LowestFor(slope))
               select new Crossover(shape, hertz, slope);
    }
}
