namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>Open-circuit voltage of a rested flooded 12 V lead-acid battery and its state of charge.</summary>
/// <remarks>
/// Source: table of the Battery Council International for 80 °F (27 °C): 12.65 V 100 %, 12.45 V 75 %, 12.24 V 50 %, 12.06 V 25 %,
/// 11.89 V 0 %; straight lines between. Rest the battery 6 to 8 hours first. AGM and gel read 0.1 to 0.2 V higher (from memory): ask the maker.
/// </remarks>
public static class OpenCircuitVoltage
{
    /// <summary>Where the table comes from.</summary>
    public const string Source = "Battery Council International, open-circuit voltage of flooded batteries at 80 °F, rested";

    private static readonly (double Volts, double Percent)[] _table = [(11.89, 0), (12.06, 25), (12.24, 50), (12.45, 75), (12.65, 100)];

    /// <summary>State of charge from the voltage of a rested battery, percent; 0 and 100 outside the table.</summary>
    /// <param name="restedVolts">Voltage at the terminals without load, V.</param>
    public static double StateOfChargePercent(double restedVolts) => Interpolate(restedVolts, t => t.Volts, t => t.Percent);

    /// <summary>Voltage of a rested battery, V; the ends of the table outside 0 to 100 %.</summary>
    /// <param name="stateOfChargePercent">State of charge, percent.</param>
    public static double RestedVolts(double stateOfChargePercent) => Interpolate(stateOfChargePercent, t => t.Percent, t => t.Volts);

    private static double Interpolate(double x, Func<(double Volts, double Percent), double> from, Func<(double Volts, double Percent), double> to)
    {
        if (x <= from(_table[0]))
            return to(_table[0]);
        for (var i = 1; i < _table.Length; i++)
        {
            var (low, high) = (_table[i - 1], _table[i]);
            if (x <= from(high))
                return to(low) + (to(high) - to(low)) * (x - from(low)) / (from(high) - from(low));
        }

        return to(_table[^1]);
    }
}
