using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>How far a fuse may sit from its source, measured along the conductor.</summary>
public static class FusePosition
{
    /// <summary>7 in from any source, m. Source: 33 CFR 183.455(b).</summary>
    public const double OpenMeters = 7 * ExactFactors.MetersPerInch;

    /// <summary>40 in from any source inside a sheath or enclosure, m. Source: 33 CFR 183.455(b).</summary>
    public const double SheathedMeters = 40 * ExactFactors.MetersPerInch;

    /// <summary>72 in from the battery, m. Source: 33 CFR 183.460(a).</summary>
    public const double BatteryMeters = 72 * ExactFactors.MetersPerInch;

    /// <summary>18 in from the battery, m: the stricter habit of the trade. Common practice, no source.</summary>
    public const double TradeHabitMeters = 18 * ExactFactors.MetersPerInch;

    internal const string SourceRule = "33 CFR 183.455(b)";
    internal const string BatteryRule = "33 CFR 183.460(a)";

    internal static IEnumerable<LimitCheck> Limits(RunSizingInput input) => Limits(Placement(input));

    internal static Finding? Find(RunSizingInput input, UnitText text) => Find(Placement(input), text);

    internal static IEnumerable<LimitCheck> Limits(FusePlacement fuse)
    {
        if (fuse.SourceToFuseMeters is not { } distance)
            yield break;
        if (fuse.FedFromBattery)
        {
            yield return Check("Battery to fuse, law for boats", distance, BatteryMeters, BatteryRule);
            yield return Check("Battery to fuse, habit of the trade", distance, TradeHabitMeters, Unsourced.CommonPractice);
        }

        yield return fuse.SheathedWholeWay
            ? Check("Source to fuse, sheathed the whole way", distance, SheathedMeters, SourceRule)
            : Check("Source to fuse, not sheathed", distance, OpenMeters, SourceRule);
    }

    internal static Finding? Find(FusePlacement fuse, UnitText text)
    {
        var from = fuse.FedFromBattery ? "battery" : "source";
        if (fuse.SourceToFuseMeters is not { } distance)
        {
            return new Finding(
                "fuse-distance-unknown", Severity.Warn, fuse.Id, fuse.Name,
                $"The distance from the {from} to the fuse is not measured yet; until the fuse the conductor is unprotected.",
                $"Measure it along the conductor and enter it; keep it as short as possible, at most {text.Meters(fuse.FedFromBattery ? TradeHabitMeters : OpenMeters)}.",
                SourceRule);
        }

        var sheath = fuse.SheathedWholeWay;
        var (limit, severity, source) = (fuse.FedFromBattery, sheath) switch
        {
            (true, _) when distance > BatteryMeters => (BatteryMeters, Severity.Stop, BatteryRule),
            (true, true) when distance > SheathedMeters => (SheathedMeters, Severity.Warn, SourceRule),
            (true, _) when distance > TradeHabitMeters => (TradeHabitMeters, Severity.Warn, Unsourced.CommonPractice),
            (true, false) when distance > OpenMeters => (OpenMeters, Severity.Note, SourceRule),
            (false, true) when distance > SheathedMeters => (SheathedMeters, Severity.Stop, SourceRule),
            (false, false) when distance > OpenMeters => (OpenMeters, Severity.Stop, SourceRule),
            _ => (double.NaN, Severity.Note, ""),
        };
        if (double.IsNaN(limit))
            return null;
        var remedy = severity == Severity.Note
            ? "Cover the conductor with a sheath or conduit from the battery to the fuse, or move the fuse closer."
            : $"Move the fuse to within {text.Meters(limit)} of the {from}, measured along the conductor"
                + (sheath ? "." : ", and sheath the conductor up to it.");
        return new Finding(
            "fuse-too-far", severity, fuse.Id, fuse.Name,
            $"The fuse is {text.Meters(distance)} from the {from}; the limit is {text.Meters(limit)}{(sheath ? " in a sheath" : "")}.",
            remedy, source);
    }

    private static FusePlacement Placement(RunSizingInput input) =>
        new(input.Id, input.Name, input.FedFromBattery, input.Run.SheathedWholeWay, input.Run.SourceToFuseMeters);

    private static LimitCheck Check(string name, double distance, double limit, string source) =>
        new(name, distance, limit, "m", distance <= limit, source);
}

/// <summary>Where a fuse sits.</summary>
/// <param name="Id">Identifier of the run or fuse.</param>
/// <param name="Name">Its name.</param>
/// <param name="FedFromBattery">Whether the source is the battery.</param>
/// <param name="SheathedWholeWay">Whether the conductor is sheathed from source to fuse.</param>
/// <param name="SourceToFuseMeters">Distance along the conductor, m, or null when not measured.</param>
internal sealed record FusePlacement(string Id, string Name, bool FedFromBattery, bool SheathedWholeWay, double? SourceToFuseMeters);
