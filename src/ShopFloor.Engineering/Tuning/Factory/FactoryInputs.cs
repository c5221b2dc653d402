using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Processors;

namespace ShopFloor.Engineering.Tuning.Factory;

/// <summary>A side of a factory system with what was found in it.</summary>
/// <param name="Outputs">Its outputs, in the order of the result.</param>
/// <param name="Result">What was found.</param>
public sealed record FactorySide(IReadOnlyList<FactoryOutput> Outputs, FactorySignalResult Result)
{
    /// <summary>When its latest output arrives, s; its inputs are delayed to that.</summary>
    public double LatestSeconds => Result.EarliestSeconds + Result.Outputs.Max(output => output.DelaySeconds);
}

/// <summary>What undoes a factory signal at the inputs of a processor.</summary>
public static class FactoryInputs
{
    /// <summary>
    /// One input for each output: delay, polarity, the all-passes it lacks, and the filters of its side's sum, which do the same to the sum when every part of it gets them.
    /// All inputs arrive with the latest of all sides. The side whose filters ask for the higher level is left at 0 dB.
    /// </summary>
    /// <param name="sides">The sides, measured on one clock.</param>
    public static IReadOnlyList<ChannelSetting> Of(IReadOnlyList<FactorySide> sides)
    {
        ArgumentNullException.ThrowIfNull(sides);
        if (sides.Count == 0)
            return [];
        var (latest, highest) = (sides.Max(side => side.LatestSeconds), sides.Max(Level));
        return
        [
            .. from side in sides
               from pair in side.Outputs.Zip(side.Result.Outputs)
               select new ChannelSetting
               {
                   Id = pair.First.Id,
                   Name = pair.First.Name,
                   GainDecibels = Level(side) - highest,
                   DelaySeconds = Math.Max(0, pair.Second.AddDelaySeconds + latest - side.LatestSeconds),
                   Inverted = pair.Second.IsInverted,
                   Filters = [.. pair.Second.AddFilters, .. side.Result.Equaliser?.Filters ?? []],
               },
        ];
    }

    /// <summary>Why a processor cannot hold them, a sentence each; empty when it can. What is cut off one input alone would part it from the others.</summary>
    /// <param name="inputs">Settings of the inputs.</param>
    /// <param name="profile">The processor.</param>
    public static IReadOnlyList<string> Refusals(IReadOnlyList<ChannelSetting> inputs, ProcessorProfile profile)
    {
        ArgumentNullException.ThrowIfNull(inputs);
        ArgumentNullException.ThrowIfNull(profile);
        List<string> found = [];
        foreach (var input in inputs)
        {
            if (input.Filters.Count > profile.FiltersPerInput)
                found.Add($"{input.Name}: {input.Filters.Count} filters with its all-passes; an input of {profile.Name} has {profile.FiltersPerInput}. Allow fewer filters, or enter what the processor has.");
            if (input.DelaySeconds > profile.MaximumDelaySeconds)
                found.Add(FormattableString.Invariant($"{input.Name}: a delay of {input.DelaySeconds * 1e3:0.###} ms; {profile.Name} delays by {profile.MaximumDelaySeconds * 1e3:0.###} ms at most. Leave out the output that is so far off, or measure it again."));
            if (!profile.AllPasses && input.Filters.Any(filter => filter.Kind == FilterKind.AllPass))
                found.Add($"{input.Name}: it needs an all-pass, and {profile.Name} has none. Leave out the output that holds one.");
        }

        return found;
    }

    private static double Level(FactorySide side) => side.Result.Equaliser?.OffsetDecibels ?? 0;
}
