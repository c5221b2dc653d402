using System.Globalization;
using ShopFloor.Documents.Tuning;
using ShopFloor.Engineering.Tuning.Filters;

namespace ShopFloor.Web.Phases.Tuning;

/// <summary>Filters of an input in a few words.</summary>
internal static class FactoryFilters
{
    /// <summary>"8 of the sum; All-pass 1500 Hz Q 0.8".</summary>
    public static string Counted(IReadOnlyList<FilterSetting> filters)
    {
        var own = filters.Where(filter => filter.Kind == FilterKind.AllPass).ToList();
        var words = own.Select(Words).Append(filters.Count > own.Count ? string.Create(CultureInfo.CurrentCulture, $"{filters.Count - own.Count} of the sum") : "").Where(word => word.Length > 0).ToList();
        return words.Count == 0 ? "none" : string.Join("; ", words);
    }

    /// <summary>"Bell 110 Hz −5 dB Q 1.2".</summary>
    public static string Words(FilterSetting filter) => string.Create(
        CultureInfo.CurrentCulture, $"{PresetWords.Kind(filter.Kind)} {filter.Hertz:0.#} Hz{(PresetWords.HasGain(filter.Kind) ? $" {PresetWords.Gain(filter.GainDecibels)}" : "")} Q {filter.Q:0.##}");
}
