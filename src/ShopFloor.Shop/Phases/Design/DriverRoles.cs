using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Shop.Catalogue;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What a channel plays.</summary>
public enum DriverRole
{
    Subwoofer,
    Midbass,
    Midrange,
    Tweeter,

    /// <summary>Several loudspeakers behind a passive crossover, as one.</summary>
    Divided,

    Rear,
}

/// <summary>What a loudspeaker is for, by its place, its size and how low it may be driven. Limits are common practice, no source.</summary>
internal static class DriverRoles
{
    private const double SmallestWooferMillimeters = 200;
    private const double LargestMidrangeMillimeters = 115;
    private const double LargestTweeterMillimeters = 45;

    public static DriverRole Of(LoudspeakerData data, string zone)
    {
        var front = zone.StartsWith("boot", StringComparison.Ordinal) || zone is "spare-well" ? DriverRole.Subwoofer : ByData(data);
        return front != DriverRole.Subwoofer && zone.StartsWith("rear", StringComparison.Ordinal) ? DriverRole.Rear : front;
    }

    /// <summary>Band usual for a role, Hz.</summary>
    public static (double From, double To) Band(DriverRole role) => role switch
    {
        DriverRole.Subwoofer => (20, 200),
        DriverRole.Midbass => (60, 3_000),
        DriverRole.Midrange => (250, 8_000),
        DriverRole.Tweeter => (2_500, 20_000),
        DriverRole.Rear => (120, 12_000),
        _ => (60, 20_000),
    };

    public static string Words(DriverRole role, StageSide side)
    {
        var name = role switch
        {
            DriverRole.Subwoofer => "Subwoofer",
            DriverRole.Midbass => "Midbass",
            DriverRole.Midrange => "Midrange",
            DriverRole.Tweeter => "Tweeter",
            DriverRole.Rear => "Rear",
            _ => "Speakers behind a crossover",
        };
        return side switch
        {
            StageSide.Left => $"{name}, left",
            StageSide.Right => $"{name}, right",
            _ => role == DriverRole.Subwoofer ? name : $"{name}, centre",
        };
    }

    // A cone is some four fifths of the frame it is named by.
    public static double? RadiusMeters(LoudspeakerData data) =>
        data.PistonSquareCentimeters is { } area ? Math.Sqrt(area * 1e-4 / Math.PI)
        : data.SizeMillimeters is { } size ? 0.8 * size / 2000
        : null;

    private static DriverRole ByData(LoudspeakerData data) => (data.SizeMillimeters, data.LowestHertz) switch
    {
        ({ } size, _) => size <= LargestTweeterMillimeters ? DriverRole.Tweeter : size <= LargestMidrangeMillimeters ? DriverRole.Midrange : size < SmallestWooferMillimeters ? DriverRole.Midbass : DriverRole.Subwoofer,
        (_, { } lowest) => lowest >= 1_000 ? DriverRole.Tweeter : lowest >= 180 ? DriverRole.Midrange : lowest >= 45 ? DriverRole.Midbass : DriverRole.Subwoofer,
        _ => data.LowPassHertz <= 150 ? DriverRole.Subwoofer : data.HighPassHertz >= 1_000 ? DriverRole.Tweeter : DriverRole.Midbass,
    };
}
