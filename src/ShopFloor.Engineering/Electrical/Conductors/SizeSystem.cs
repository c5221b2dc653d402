namespace ShopFloor.Engineering.Electrical.Conductors;

/// <summary>What a conductor's size refers to. Sizes of different systems are never the same by name: compare resistances.</summary>
public enum SizeSystem
{
    /// <summary>American wire gauge (ASTM B258): area by formula, resistance computed with a stranding allowance.</summary>
    Awg,

    /// <summary>Nominal mm², flexible class 5 (IEC 60228): highest resistance tabulated.</summary>
    Class5Metric,

    /// <summary>Nominal mm² of vehicle cable (ISO 6722-1, ISO 19642): highest resistance tabulated, from memory.</summary>
    VehicleMetric,

    /// <summary>A size entered by the shop.</summary>
    Other,
}
