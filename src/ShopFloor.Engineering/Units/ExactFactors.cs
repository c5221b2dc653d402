namespace ShopFloor.Engineering.Units;

/// <summary>
/// Exact conversion factors. Source: international yard and pound agreement of 1959, as given in NIST SP 811 (2008), appendix B.
/// </summary>
public static class ExactFactors
{
    /// <summary>Kilograms in one avoirdupois pound, exact.</summary>
    public const double KilogramsPerPound = 0.45359237;

    /// <summary>Kilograms in one avoirdupois ounce, a sixteenth of a pound, exact.</summary>
    public const double KilogramsPerOunce = KilogramsPerPound / 16;

    /// <summary>Meters in one international foot, exact.</summary>
    public const double MetersPerFoot = 0.3048;

    /// <summary>Meters in one inch, exact.</summary>
    public const double MetersPerInch = 0.0254;

    /// <summary>Meters in one international mile, exact.</summary>
    public const double MetersPerMile = 1609.344;

    /// <summary>Joules in one watt hour, exact.</summary>
    public const double JoulesPerWattHour = 3600;
}
