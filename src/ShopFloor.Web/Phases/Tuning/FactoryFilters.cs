using System.Globalization;
using ShopFloor.Documents.Tuning;
using ShopFloor.Engineering.Tuning.Filters;

namespace ShopFloor.Web.Phases.Tuning;

/// <summary>Filters of an input in a few words.</summary>
internal static class FactoryFilters
{
    /// <summary>"Bell 110 Hz −5 dB Q 1.2".</summary>
    public static string Words(FilterSetting filter) => string.Create(
        CultureInfo.CurrentCulture, $"{PresetWords.Kind(filter.Kind)} {filter.Hertz:0.#} Hz{(PresetWords.HasGain(filter.Kind) ? $" {PresetWords.Gain(filter.GainDecibels)}" : "")} Q {filter.Q:0.##}");
}
