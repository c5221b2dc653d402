namespace ShopFloor.Engineering.Electrical;

/// <summary>Voltage drop along a conductor.</summary>
public static class VoltageDrop
{
    /// <summary>Drop along a length of conductor, V: resistance per length × length × current (FAA AC 43.13-1B, table 11-7).</summary>
    /// <param name="ohmsPerMeter">Resistance at the conductor's temperature, Ω/m.</param>
    /// <param name="conductorMeters">Length of conductor the current flows through; there and back for a dedicated return, m.</param>
    /// <param name="amperes">Current, A.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is negative or not finite.</exception>
    public static double Volts(double ohmsPerMeter, double conductorMeters, double amperes)
    {
        RequireFinite(ohmsPerMeter, nameof(ohmsPerMeter));
        RequireFinite(conductorMeters, nameof(conductorMeters));
        RequireFinite(amperes, nameof(amperes));
        return ohmsPerMeter * conductorMeters * amperes;
    }

    /// <summary>Circular mils needed for a drop: CM = K·I·L/E with K = 10.75 Ω·cmil/ft. Source: ABYC E-11.</summary>
    /// <param name="amperes">Current, A.</param>
    /// <param name="conductorFeet">Length there and back, ft.</param>
    /// <param name="dropVolts">Drop allowed, V.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is negative or not finite, or the drop is zero.</exception>
    public static double CircularMils(double amperes, double conductorFeet, double dropVolts)
    {
        RequireFinite(amperes, nameof(amperes));
        RequireFinite(conductorFeet, nameof(conductorFeet));
        RequireFinite(dropVolts, nameof(dropVolts));
        ArgumentOutOfRangeException.ThrowIfZero(dropVolts);
        return 10.75 * amperes * conductorFeet / dropVolts;
    }

    /// <summary>
    /// Temperature of a loaded conductor, °C: T2 = T1 + (Tr − T1)·√(I/Imax). The form is from FAA AC 43.13-1B, chapter 11, which calls
    /// it quite conservative; symbols from memory. Heating really goes with the square of the current, so this errs on the warm side.
    /// </summary>
    /// <param name="ambientCelsius">Ambient, °C.</param>
    /// <param name="ratedCelsius">Insulation class, °C.</param>
    /// <param name="amperes">Current, A.</param>
    /// <param name="deratedAmperes">Current that would bring the conductor to its insulation class, A.</param>
    /// <returns>Never below the insulation class when no current is allowed at all.</returns>
    public static double ConductorCelsius(double ambientCelsius, double ratedCelsius, double amperes, double deratedAmperes) =>
        deratedAmperes > 0
            ? ambientCelsius + (ratedCelsius - ambientCelsius) * Math.Sqrt(amperes / deratedAmperes)
            : Math.Max(ratedCelsius, ambientCelsius);

    private static void RequireFinite(double value, string name)
    {
        if (!double.IsFinite(value) || value < 0)
            throw new ArgumentOutOfRangeException(name, value, "Enter a number of 0 or more.");
    }
}
