using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Processors;

/// <summary>Brings settings onto the steps and into the ranges of a processor.</summary>
public static class SettingQuantiser
{
    /// <summary>Rounds every setting to the nearest the processor can hold, and says what was rounded and what could not be kept.</summary>
    /// <param name="preset">Settings wanted.</param>
    /// <param name="profile">The processor.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException">Preset or profile has a problem; the parameter name is the field.</exception>
    public static QuantisedPreset Fit(ProcessorPreset preset, ProcessorProfile profile, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(preset);
        ArgumentNullException.ThrowIfNull(profile);
        InputChecks.ThrowIfAny(profile.Validate(text));
        InputChecks.ThrowIfAny(preset.Validate(profile.SampleRateHertz, text));
        text ??= UnitText.Invariant;
        var findings = new FindingList("preset", preset.Name);
        if (preset.Channels.Count > profile.Channels)
        {
            findings.Add(
                "too-many-channels", Severity.Stop, $"{preset.Channels.Count} channels are set; {profile.Name} has {profile.Channels}.",
                "Take another processor or fewer channels.", "maker's sheet as entered");
        }

        var rounded = preset with
        {
            Channels = [.. preset.Channels.Select(channel => Channel(channel, profile, profile.FiltersPerChannel, "a channel", findings, text))],
            Inputs = [.. preset.Inputs.Select(input => Channel(input, profile, profile.FiltersPerInput, "an input", findings, text))],
        };
        return new QuantisedPreset(rounded, PresetComparison.Between(preset, rounded), findings.Sorted);
    }

    private static ChannelSetting Channel(ChannelSetting channel, ProcessorProfile profile, int most, string what, FindingList findings, UnitText text)
    {
        void Lost(string code, Severity severity, string what, string remedy) =>
            findings.About(channel.Id, channel.Name, code, severity, what, remedy, "maker's sheet as entered");
        void Cut(string what, double wanted, double kept, string unit)
        {
            if (Math.Abs(wanted - kept) > 1e-9)
                Lost("out-of-range", Severity.Warn, $"{what} {text.With(wanted, unit, 4)} is outside what {profile.Name} takes; {text.With(kept, unit, 4)} is set.", "Work within the processor's range, or take another.");
        }

        var level = Math.Clamp(channel.GainDecibels, profile.LeastLevelDecibels, profile.LargestLevelDecibels);
        Cut("Level", channel.GainDecibels, level, "dB");
        var delay = Math.Min(channel.DelaySeconds, profile.MaximumDelaySeconds);
        Cut("Delay", channel.DelaySeconds * 1e3, delay * 1e3, "ms");

        var filters = new List<FilterSetting>();
        foreach (var filter in channel.Filters)
        {
            if ((filter.Kind is FilterKind.LowShelf or FilterKind.HighShelf && !profile.Shelves) || (filter.Kind is FilterKind.AllPass or FilterKind.FirstOrderAllPass && !profile.AllPasses))
                Lost("filter-kind-missing", Severity.Warn, $"{profile.Name} has no filter of the kind {SettingText.Kind(filter.Kind)}; the one at {text.With(filter.Hertz, "Hz")} is left out.", "Fit again without this kind.");
            else
                filters.Add(filter);
        }

        if (filters.Count > most)
        {
            // What does least is given up first; all-pass filters have no gain but a purpose.
            var kept = filters.OrderByDescending(filter => filter.HasGain ? Math.Abs(filter.GainDecibels) / Math.Sqrt(filter.Q) : double.MaxValue).Take(most).ToHashSet(ReferenceEqualityComparer.Instance);
            Lost("too-many-filters", Severity.Warn, $"{filters.Count} filters are set; {what} of {profile.Name} has {most}. The smallest are left out.", "Fit again with fewer filters.");
            filters = [.. filters.Where(kept.Contains)];
        }

        return channel with
        {
            GainDecibels = Within(level, profile.GainStepDecibels, profile.LeastLevelDecibels, profile.LargestLevelDecibels),
            DelaySeconds = Within(delay, profile.DelayStep, 0, profile.MaximumDelaySeconds),
            HighPass = Half(channel.HighPass, "high-pass"),
            LowPass = Half(channel.LowPass, "low-pass"),
            Filters = [.. filters.Select(Filter)],
        };

        Crossover? Half(Crossover? half, string name)
        {
            if (half is null)
                return null;
            // The same shape before the same slope; of two as near, the steeper one protects more.
            var (shape, slope) = profile.Crossovers.DefaultIfEmpty((half.Shape, half.SlopeDecibelsPerOctave))
                .MinBy(made => (made.Item1 != half.Shape, Math.Abs(made.Item2 - half.SlopeDecibelsPerOctave), -made.Item2));
            if (shape != half.Shape || slope != half.SlopeDecibelsPerOctave)
            {
                Lost(
                    "crossover-missing", Severity.Warn, $"{profile.Name} has no {name} {SettingText.Crossover(half)}; {SettingText.Crossover(half with { Shape = shape, SlopeDecibelsPerOctave = slope })} is set.",
                    "Choose crossovers again from those the processor has: sums were judged with the other one.");
            }

            return new Crossover(shape, Frequency(half.Hertz, name), slope);
        }

        FilterSetting Filter(FilterSetting filter)
        {
            var gain = Math.Clamp(filter.GainDecibels, profile.LeastFilterDecibels, profile.LargestFilterDecibels);
            if (filter.HasGain)
                Cut($"Gain at {text.With(filter.Hertz, "Hz")}:", filter.GainDecibels, gain, "dB");
            var q = Math.Clamp(filter.Q, profile.LeastQ, profile.LargestQ);
            if (filter.HasQ)
                Cut($"Q at {text.With(filter.Hertz, "Hz")}:", filter.Q, q, "");
            return filter with
            {
                Hertz = Frequency(filter.Hertz, "Frequency"),
                GainDecibels = filter.HasGain ? Within(gain, profile.GainStepDecibels, profile.LeastFilterDecibels, profile.LargestFilterDecibels) : filter.GainDecibels,
                Q = filter.HasQ ? Within(q, profile.QStep, profile.LeastQ, profile.LargestQ) : filter.Q,
            };
        }

        double Frequency(double hertz, string what)
        {
            var kept = Math.Clamp(hertz, profile.LeastHertz, profile.LargestHertz);
            Cut(what, hertz, kept, "Hz");
            return Within(kept, profile.FrequencyStepHertz, profile.LeastHertz, profile.LargestHertz);
        }
    }

    /// <summary>The nearest whole number of steps that lies within the range; where none does, the value itself.</summary>
    private static double Within(double value, double step, double least, double largest)
    {
        if (step <= 0)
            return value;
        var count = Math.Round(value / step, MidpointRounding.AwayFromZero);
        if (count * step > largest * (1 + Math.Sign(largest) * 1e-12))
            count--;
        if (count * step < least * (1 - Math.Sign(least) * 1e-12))
            count++;
        // Steps such as 0.1 are written as what they mean, not as what 3 × 0.1 makes in binary.
        var rounded = step is 0.1 or 0.01 or 0.001 ? Math.Round(count * step, 3) : count * step;
        return rounded >= least && rounded <= largest ? rounded : value;
    }
}
