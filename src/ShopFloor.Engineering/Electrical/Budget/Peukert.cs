namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>Peukert's law for a capacity given at an hour rate.</summary>
/// <remarks>
/// t = H·(C/(I·H))^k. The short form t = C/I^k holds only for a capacity at the one-hour rate; used with the usual 20-hour rating it is wrong
/// (100 Ah at the 20-hour rate and 5 A must give 20 h; the short form with k = 1.2 gives 14.5 h).
/// </remarks>
public static class Peukert
{
    /// <summary>Hours from full to empty at a constant current.</summary>
    /// <param name="capacityAmpereHours">Capacity at the hour rate, Ah, above 0.</param>
    /// <param name="ratedHours">The hour rate, h, above 0; 20 for most batteries.</param>
    /// <param name="amperes">Current, A, above 0.</param>
    /// <param name="exponent">Peukert exponent, 1 to 2.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public static double Hours(double capacityAmpereHours, double ratedHours, double amperes, double exponent)
    {
        Positive(capacityAmpereHours, nameof(capacityAmpereHours));
        Positive(ratedHours, nameof(ratedHours));
        Positive(amperes, nameof(amperes));
        if (!(exponent >= 1 && exponent <= 2))
            throw new ArgumentOutOfRangeException(nameof(exponent), exponent, "Enter an exponent of 1 to 2.");
        return ratedHours * Math.Pow(capacityAmpereHours / (amperes * ratedHours), exponent);
    }

    /// <summary>Exponent from two discharges of one battery: ln(t2/t1)/ln(I1/I2).</summary>
    /// <param name="firstAmperes">Current of the first discharge, A.</param>
    /// <param name="firstHours">Its duration, h.</param>
    /// <param name="secondAmperes">Current of the second discharge, A; not the first.</param>
    /// <param name="secondHours">Its duration, h.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is not above 0, or the currents are equal.</exception>
    public static double Exponent(double firstAmperes, double firstHours, double secondAmperes, double secondHours)
    {
        Positive(firstAmperes, nameof(firstAmperes));
        Positive(firstHours, nameof(firstHours));
        Positive(secondAmperes, nameof(secondAmperes));
        Positive(secondHours, nameof(secondHours));
        if (firstAmperes == secondAmperes)
            throw new ArgumentOutOfRangeException(nameof(secondAmperes), secondAmperes, "Enter two different currents.");
        return Math.Log(secondHours / firstHours) / Math.Log(firstAmperes / secondAmperes);
    }

    private static void Positive(double value, string name)
    {
        if (!(double.IsFinite(value) && value > 0))
            throw new ArgumentOutOfRangeException(name, value, "Enter a value above 0.");
    }
}
