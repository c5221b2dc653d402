namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>Reserve capacity: minutes a 12 V battery gives 25 A before 10.5 V.</summary>
public static class ReserveCapacity
{
    /// <summary>Current of the definition, A.</summary>
    public const double TestAmperes = 25;

    /// <summary>What the number means.</summary>
    public const string Definition = "definition of the reserve capacity: 25 A for its minutes down to 10.5 V (SAE J537, from memory)";

    /// <summary>Where the slow-discharge estimate comes from.</summary>
    public const string SlowSource = "vehicle service practice: Ah at a slow discharge = 0.6 · reserve capacity in minutes";

    /// <summary>Where the drain limit comes from.</summary>
    public const string DrainSource = "vehicle service practice: key-off limit in mA = reserve capacity in minutes / 4";

    /// <summary>Charge delivered in the test itself, Ah: 25 A for the minutes.</summary>
    /// <param name="minutes">Reserve capacity, min.</param>
    public static double AmpereHoursAtTestCurrent(double minutes) => TestAmperes * minutes / 60;

    /// <summary>Estimate of the charge at a slow discharge (about 20 h), Ah: 0.6 per minute. <see cref="SlowSource"/>.</summary>
    /// <param name="minutes">Reserve capacity, min.</param>
    public static double SlowAmpereHours(double minutes) => 0.6 * minutes;

    /// <summary>Largest key-off current, A: a quarter milliampere per minute. <see cref="DrainSource"/>.</summary>
    /// <param name="minutes">Reserve capacity, min.</param>
    public static double DrainLimitAmperes(double minutes) => minutes / 4 / 1000;
}
