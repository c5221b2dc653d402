namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>What the chosen conductors have least of.</summary>
public enum SizingObjective
{
    /// <summary>Mass of the metal.</summary>
    ConductorMass,

    /// <summary>Mass of metal and insulation; the insulation is an estimate.</summary>
    CableMass,

    /// <summary>Price of the cable.</summary>
    Cost,
}
