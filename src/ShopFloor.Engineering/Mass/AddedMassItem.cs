namespace ShopFloor.Engineering.Mass;

/// <summary>Whether something is put into the vehicle or taken out.</summary>
public enum MassChange
{
    /// <summary>Put into the vehicle.</summary>
    Installed,

    /// <summary>Taken out of the vehicle for good.</summary>
    Removed,
}

/// <summary>Something put into or taken out of the vehicle.</summary>
public sealed record AddedMassItem
{
    /// <summary>Identifier, unique in the list.</summary>
    public required string Id { get; init; }

    /// <summary>Name shown in texts.</summary>
    public required string Name { get; init; }

    /// <summary>Place in the vehicle, in the shop's words.</summary>
    public required string Zone { get; init; }

    /// <summary>Put in or taken out.</summary>
    public MassChange Change { get; init; } = MassChange.Installed;

    /// <summary>How many, or how much of the unit the mass is given for (0.001 to 10 000).</summary>
    public double Quantity { get; init; } = 1;

    /// <summary>Mass of one, kg (0 to 2000); null means not known, which is reported and never taken as zero.</summary>
    public double? UnitMassKilograms { get; init; }
}
