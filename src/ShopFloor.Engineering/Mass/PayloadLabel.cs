namespace ShopFloor.Engineering.Mass;

/// <summary>What the vehicle's labels say.</summary>
public sealed record PayloadLabel
{
    /// <summary>
    /// "The combined weight of occupants and cargo should never exceed …" on the tire and loading placard (49 CFR 571.110 S4.3),
    /// kg (50 to 10 000); null when not read yet.
    /// </summary>
    public double? PayloadKilograms { get; init; }

    /// <summary>Gross vehicle weight rating on the certification label, kg (300 to 40 000); null when not read yet.</summary>
    public double? GrossVehicleWeightRatingKilograms { get; init; }

    /// <summary>Designated seating positions (1 to 60); null when not read yet.</summary>
    public int? SeatingPositions { get; init; }
}
