using System.Globalization;
using ShopFloor.Documents.Tuning;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Processors;

namespace ShopFloor.Web.Phases.Tuning;

/// <summary>Shape and steepness of a crossover, without its frequency.</summary>
/// <param name="Shape">Its shape.</param>
/// <param name="Slope">dB per octave.</param>
public readonly record struct CrossoverKind(CrossoverShape Shape, int Slope)
{
    public Crossover At(double hertz) => new(Shape, hertz, Slope);
}

/// <summary>The crossovers a processor makes, for choosing by hand.</summary>
public static class CrossoverChoices
{
    private static readonly CrossoverKind Usual = new(CrossoverShape.LinkwitzRiley, 24);

    /// <param name="now">Always among them, so that an old setting stays to be seen after the processor was changed.</param>
    public static IReadOnlyList<CrossoverKind> Of(ProcessorProfile profile, Crossover? now)
    {
        ArgumentNullException.ThrowIfNull(profile);
        List<CrossoverKind> made = [.. profile.Crossovers.Select(one => new CrossoverKind(one.Shape, one.SlopeDecibelsPerOctave))];
        return now is null || made.Contains(new CrossoverKind(now.Shape, now.SlopeDecibelsPerOctave)) ? made : [new CrossoverKind(now.Shape, now.SlopeDecibelsPerOctave), .. made];
    }

    /// <summary>The crossover moved to a frequency; a new one is the usual, or what the processor has nearest to it.</summary>
    public static Crossover? Half(ProcessorProfile profile, Crossover? old, double? hertz)
    {
        if (hertz is not { } value)
        {
            return null;
        }

        if (old is not null)
        {
            return old with { Hertz = value };
        }

        var made = Of(profile, null);
        return (made.Count == 0 || made.Contains(Usual) ? Usual : made.MinBy(kind => (Math.Abs(kind.Slope - Usual.Slope), -kind.Slope))).At(value);
    }

    public static string Words(CrossoverKind kind) => string.Create(CultureInfo.CurrentCulture, $"{PresetWords.Shape(kind.Shape)} {kind.Slope} dB/oct");
}
