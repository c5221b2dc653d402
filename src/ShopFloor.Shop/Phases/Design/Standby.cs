using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What parts draw with the key off, for the drain budget and for what is measured against it.</summary>
internal static class Standby
{
    /// <summary>Whether a part may draw then. One that takes no current when it works takes none asleep; cables, loudspeakers and materials never do.</summary>
    public static bool Draws(JobPart part) => part.Data switch
    {
        AmplifierData or LightingData or CapacitorData => true,
        ProcessorData processor => processor.WorkingAmperes is not 0 || processor.OffMilliamperes > 0,
        SourceData source => source.WorkingAmperes is not 0 || source.OffMilliamperes > 0,
        AccessoryData accessory => accessory.WorkingAmperes is not 0 || accessory.OffMilliamperes > 0,
        _ => false,
    };

    /// <summary>Whether it watches the parked car, and does not sleep while it does.</summary>
    public static bool Watches(JobPart part) => part.Data is AccessoryData { ParkedMilliamperes: > 0 };

    /// <summary>Current of the whole line while the car is parked, mA; null when not known. What watches counts as watching.</summary>
    public static double? Milliamperes(JobPart part) =>
        part.Data is AccessoryData { ParkedMilliamperes: > 0 and var watching } ? (double)part.Quantity * watching : OffMilliamperes(part);

    /// <summary>Current of the whole line when it is switched off, mA; null when not known.</summary>
    public static double? OffMilliamperes(JobPart part) => (double)part.Quantity * part.Data switch
    {
        AmplifierData data => data.OffMilliamperes,
        LightingData data => data.OffMilliamperes,
        CapacitorData data => data.OffMilliamperes,
        ProcessorData data => data.OffMilliamperes,
        SourceData data => data.OffMilliamperes,
        AccessoryData data => data.OffMilliamperes,
        _ => null,
    };
}
