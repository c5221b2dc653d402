using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Tuning.Measurements;

namespace ShopFloor.Shop.Phases.Tuning.Presets;

/// <summary>Where the drivers of a front meet, by their roles. Ranges are common practice, no source.</summary>
internal static class BenchJunctions
{
    public static IReadOnlyList<Junction> Of(IReadOnlyList<TuningChannel> channels)
    {
        var roles = channels.Where(channel => channel.Role != DriverRole.Rear).GroupBy(channel => channel.Role).OrderBy(group => Height(group.Key)).ToList();
        List<Junction> found = [];
        foreach (var (lower, upper) in roles.Zip(roles.Skip(1)))
        {
            var sides = Sides([.. lower], [.. upper]);
            if (sides.Count == 0)
            {
                continue;
            }

            var (from, to) = Range(lower.Key, upper.Key);
            from = Math.Max(from, upper.Max(channel => channel.LowestHertz ?? 0));
            found.Add(new Junction
            {
                Id = $"{lower.Key}-{upper.Key}", Name = $"{Word(lower.Key)} to {Word(upper.Key).ToLowerInvariant()}", Sides = sides, FromHertz = from, ToHertz = Math.Max(to, from * 1.6),
            });
        }

        return found;
    }

    // One for both sides where the lower one plays for both, else left and right apart.
    private static List<JunctionSide> Sides(IReadOnlyList<TuningChannel> lower, IReadOnlyList<TuningChannel> upper)
    {
        static List<string> Ids(IReadOnlyList<TuningChannel> channels, StageSide side) => [.. channels.Where(channel => channel.Side == side).Select(channel => channel.Id)];
        if (lower.All(channel => channel.Side == StageSide.Both) || upper.All(channel => channel.Side == StageSide.Both))
        {
            return [new JunctionSide([.. lower.Select(channel => channel.Id)], [.. upper.Select(channel => channel.Id)])];
        }

        return [.. new[] { StageSide.Left, StageSide.Right }.Select(side => new JunctionSide(Ids(lower, side), Ids(upper, side))).Where(side => side.LowerIds.Count > 0 && side.UpperIds.Count > 0)];
    }

    private static int Height(DriverRole role) => role switch
    {
        DriverRole.Subwoofer => 0,
        DriverRole.Midbass => 1,
        DriverRole.Divided => 2,
        DriverRole.Midrange => 3,
        _ => 4,
    };

    private static (double From, double To) Range(DriverRole lower, DriverRole upper) => (lower, upper) switch
    {
        (DriverRole.Subwoofer, DriverRole.Midrange) => (120, 300),
        (DriverRole.Subwoofer, _) => (50, 120),
        (_, DriverRole.Midrange) or (DriverRole.Midbass, DriverRole.Divided) => (200, 600),
        (DriverRole.Midrange, _) => (2_500, 5_500),
        _ => (1_800, 4_500),
    };

    private static string Word(DriverRole role) => role switch
    {
        DriverRole.Subwoofer => "Subwoofer",
        DriverRole.Midbass => "Midbass",
        DriverRole.Midrange => "Midrange",
        DriverRole.Tweeter => "Tweeter",
        _ => "Front speakers",
    };
}
