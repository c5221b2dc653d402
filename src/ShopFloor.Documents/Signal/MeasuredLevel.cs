using ShopFloor.Shop.Phases.Build;

namespace ShopFloor.Documents.Signal;

/// <summary>What was measured at an amplifier output, beside the volts of the gain sheet.</summary>
/// <param name="Volts">With its unit.</param>
/// <param name="Decibels">How far it lies from the sheet; null at 0 V.</param>
public sealed record MeasuredLevel(string Volts, double? Decibels, bool Within)
{
    /// <summary>The levels that stand, by the channel's load.</summary>
    public static IReadOnlyDictionary<string, MeasuredLevel> Of(MeasuredSheet levels)
    {
        ArgumentNullException.ThrowIfNull(levels);
        return levels.Rows.Where(row => row is { Gain: not null, Current: not null })
            .ToDictionary(row => row.Gain!.ChannelId, row => new MeasuredLevel(MeasuredWords.Number(row.Current!.Value, row.Point.Unit), row.Gain!.Decibels(row.Current.Value), row.Verdict == MeasuredVerdict.Within)); // filtered
    }
}
