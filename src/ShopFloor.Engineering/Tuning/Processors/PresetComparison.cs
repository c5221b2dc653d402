using ShopFloor.Engineering.Tuning.Filters;

namespace ShopFloor.Engineering.Tuning.Processors;

/// <summary>Tells two presets apart.</summary>
public static class PresetComparison
{
    /// <summary>Every setting that differs: which channel, which field, from, to. Channels and inputs are matched by identifier, filters by place.</summary>
    /// <param name="before">The older one.</param>
    /// <param name="after">The newer one.</param>
    public static IReadOnlyList<SettingChange> Between(ProcessorPreset before, ProcessorPreset after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        var changes = new List<SettingChange>();
        Compare(before.Inputs, after.Inputs, "input", "Input: ");
        Compare(before.Channels, after.Channels, "channel", "");
        return changes;

        void Compare(IReadOnlyList<ChannelSetting> was, IReadOnlyList<ChannelSetting> are, string whole, string prefix)
        {
            foreach (var old in was)
            {
                if (are.FirstOrDefault(channel => channel.Id == old.Id) is { } now)
                    Channel(old, now, prefix, changes);
                else
                    changes.Add(new SettingChange(old.Id, prefix + old.Name, whole, old.Name, ""));
            }

            changes.AddRange(are.Where(now => was.All(old => old.Id != now.Id)).Select(now => new SettingChange(now.Id, prefix + now.Name, whole, "", now.Name)));
        }
    }

    private static void Channel(ChannelSetting old, ChannelSetting now, string prefix, List<SettingChange> changes)
    {
        void Add(string field, string from, string to)
        {
            if (from != to)
                changes.Add(new SettingChange(now.Id, prefix + now.Name, field, from, to));
        }

        void Number(string field, double from, double to, string format, string unit)
        {
            if (Math.Abs(from - to) > 1e-9 * Math.Max(1e-3, Math.Abs(from)))
                changes.Add(new SettingChange(now.Id, prefix + now.Name, field, $"{SettingText.Number(from, format)}{unit}", $"{SettingText.Number(to, format)}{unit}"));
        }

        Add("name", old.Name, now.Name);
        Number("level", old.GainDecibels, now.GainDecibels, "0.####", " dB");
        Number("delay", old.DelaySeconds * 1e3, now.DelaySeconds * 1e3, "0.#####", " ms");
        Add("polarity", old.Inverted ? "turned" : "normal", now.Inverted ? "turned" : "normal");
        Half("high-pass", old.HighPass, now.HighPass);
        Half("low-pass", old.LowPass, now.LowPass);
        for (var n = 0; n < Math.Max(old.Filters.Count, now.Filters.Count); n++)
        {
            var (from, to) = (old.Filters.ElementAtOrDefault(n), now.Filters.ElementAtOrDefault(n));
            if (from is null || to is null)
            {
                Add($"filter {n + 1}", Whole(from), Whole(to));
                continue;
            }

            Add($"filter {n + 1}: kind", SettingText.Kind(from.Kind), SettingText.Kind(to.Kind));
            Number($"filter {n + 1}: frequency", from.Hertz, to.Hertz, "0.####", " Hz");
            Number($"filter {n + 1}: gain", from.GainDecibels, to.GainDecibels, "0.####", " dB");
            Number($"filter {n + 1}: Q", from.Q, to.Q, "0.####", "");
        }

        void Half(string name, Crossover? from, Crossover? to)
        {
            if (from is null || to is null)
            {
                Add(name, SettingText.Crossover(from), SettingText.Crossover(to));
                return;
            }

            Add($"{name}: shape", SettingText.Shape(from.Shape), SettingText.Shape(to.Shape));
            Number($"{name}: frequency", from.Hertz, to.Hertz, "0.####", " Hz");
            Number($"{name}: slope", from.SlopeDecibelsPerOctave, to.SlopeDecibelsPerOctave, "0", " dB/oct");
        }
    }

    private static string Whole(FilterSetting? filter) => filter is null
        ? ""
        : $"{SettingText.Kind(filter.Kind)} {SettingText.Number(filter.Hertz, "0.##")} Hz{(filter.HasGain ? " " + SettingText.Gain(filter.GainDecibels) : "")}{(filter.HasQ ? " Q " + SettingText.Number(filter.Q, "0.###") : "")}";
}
