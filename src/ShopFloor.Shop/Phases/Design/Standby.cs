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

    /// <summary>Current of the whole line with the key off, mA; null when not known.</summary>
    public static double? Milliamperes(JobPart part) => (double)part.Quantity * part.Data switch
    {
        AmplifierData data => data.OffMilliamperes,
        LightingData data => data.OffMilliamperes,
        CapacitorData data => data.OffMilliamperes,
        ProcessorData data => data.OffMilliamperes,
        SourceData data => data.OffMilliamperes,
        // While it watches it does not sleep.
        AccessoryData { ParkedMilliamperes: > 0 and var watching } => watching,
        AccessoryData data => data.OffMilliamperes,
        _ => null,
    };
}
