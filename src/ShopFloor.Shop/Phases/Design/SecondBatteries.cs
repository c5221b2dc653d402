using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Electrical.Commissioning;
using ShopFloor.Engineering.Safety;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>A line of batteries on the parts list as one source: those of one line stand side by side on one cable.</summary>
internal static class SecondBatteries
{
    // Ω: the least the plan takes.
    private const double LeastOhms = 0.0001;

    /// <summary>Its rest voltage is that of its kind; taken as flooded lead-acid while the kind is not known.</summary>
    public static BatterySource SourceOf(JobPart part, BatteryData data) => new(
        CommissioningPoints.RestOf(KindOf(data) ?? BatteryKind.Flooded).Full,
        Math.Max((data.InternalMilliohms / 1000 ?? FeedNetworkBuilder.DefaultBatteryOhms) / (double)part.Quantity, LeastOhms));

    /// <returns>Ah of all of them; null while not known.</returns>
    public static double? AmpereHoursOf(JobPart part, BatteryData data) => data.CapacityAmpereHours * (double)part.Quantity;

    /// <returns>Null while the words typed about it say none.</returns>
    public static BatteryKind? KindOf(BatteryData data) => BatteryWords.ChemistryOf(data.Chemistry) is { } known ? WorkSafety.KindOf(known) : null;
}
