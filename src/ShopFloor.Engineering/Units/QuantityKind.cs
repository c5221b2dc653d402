namespace ShopFloor.Engineering.Units;

/// <summary>A kind of quantity, the unit it is stored in, and the units it is shown in.</summary>
public enum QuantityKind
{
    /// <summary>Stored in kg; shown in kg or lb.</summary>
    Mass,

    /// <summary>Stored in m; shown in m or ft.</summary>
    Length,

    /// <summary>Stored in m like every length; shown in mm or in.</summary>
    SmallLength,

    /// <summary>Road distance stored in km; shown in km or mi.</summary>
    Distance,

    /// <summary>Conductor cross-section stored in mm²; shown in mm² or AWG.</summary>
    ConductorArea,

    /// <summary>Stored in °C; shown in °C or °F.</summary>
    Temperature,

    /// <summary>V in both systems.</summary>
    Voltage,

    /// <summary>A in both systems.</summary>
    Current,

    /// <summary>W in both systems.</summary>
    Power,

    /// <summary>Stored and shown in Wh in both systems.</summary>
    Energy,
}
