namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>A load of constant power on a source with resistance and a capacitor with series resistance, solved in closed form.</summary>
/// <remarks>
/// With source V0, Rs, capacitor C, Re at voltage u, and load P at voltage v: (V0 − v)/Rs + (u − v)/Re = P/v and C·u' = −(u − v)/Re.
/// Eliminating u gives dt/dv = −C·Rs·[(1 + Re/Rs)·v − Re·P/v] / (v² − V0·v + Rs·P), which integrates in logarithms when the source can
/// carry the load alone (two real roots) and in an arc tangent when it cannot. The time is C times a function of v, so the capacitance
/// for a time and a voltage follows directly. The voltage is lost where the bracket is zero: v = √(P·Rs·Re/(Rs + Re)).
/// Checked against a circuit simulator's transient analysis.
/// </remarks>
public sealed class ConstantPowerSag
{
    private readonly double _sourceVolts;
    private readonly double _sourceOhms;
    private readonly double _seriesOhms;
    private readonly double _watts;
    private readonly double _first;

    /// <summary>Sets the circuit up.</summary>
    /// <param name="sourceVolts">V0: source without load, and capacitor at the start, V.</param>
    /// <param name="sourceOhms">Rs, Ω, above 0.</param>
    /// <param name="seriesOhms">Re, series resistance of the capacitor, Ω, 0 or more.</param>
    /// <param name="watts">P, W, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public ConstantPowerSag(double sourceVolts, double sourceOhms, double seriesOhms, double watts)
    {
        static void Check(bool good, double value, string name)
        {
            if (!good || !double.IsFinite(value))
                throw new ArgumentOutOfRangeException(name, value, "Enter a value above 0 (a series resistance may be 0).");
        }

        Check(sourceVolts > 0, sourceVolts, nameof(sourceVolts));
        Check(sourceOhms > 0, sourceOhms, nameof(sourceOhms));
        Check(seriesOhms >= 0, seriesOhms, nameof(seriesOhms));
        Check(watts > 0, watts, nameof(watts));
        _sourceVolts = sourceVolts;
        _sourceOhms = sourceOhms;
        _seriesOhms = seriesOhms;
        // A load exactly at the limit of the source has a double root, which neither form of the integral covers.
        _watts = Math.Abs(1 - 4 * sourceOhms * watts / (sourceVolts * sourceVolts)) < 1e-9 ? watts * (1 + 2e-9) : watts;
        var parallel = sourceOhms * seriesOhms / (sourceOhms + seriesOhms);
        _first = UpperRoot(parallel * _watts) ?? double.NaN;
        CollapseVolts = Math.Sqrt(parallel * _watts);
    }

    /// <summary>Voltage the source holds alone for ever, V; null when the power is above V0²/(4·Rs).</summary>
    public double? SteadyVolts => UpperRoot(_sourceOhms * _watts);

    /// <summary>Voltage right after the load comes on, V; null when not even that moment can be fed.</summary>
    public double? FirstVolts => double.IsNaN(_first) ? null : _first;

    /// <summary>Voltage below which the circuit has no solution, V.</summary>
    public double CollapseVolts { get; }

    /// <summary>Time to fall to a voltage, per farad, s/F.</summary>
    /// <param name="volts">Voltage, V.</param>
    /// <returns>0 at or above the first voltage; infinite at or below the steady voltage; NaN below the collapse or when no moment can be fed.</returns>
    public double SecondsPerFarad(double volts)
    {
        if (double.IsNaN(_first) || volts < CollapseVolts)
            return double.NaN;
        if (volts >= _first)
            return 0;
        if (SteadyVolts is { } steady && volts <= steady)
            return double.PositiveInfinity;
        return Primitive(_first) - Primitive(volts);
    }

    /// <summary>Time until the voltage is lost, s; infinite when the source carries the load alone.</summary>
    /// <param name="farads">Capacitance, F.</param>
    public double CollapseSeconds(double farads) =>
        SteadyVolts is not null ? double.PositiveInfinity
        : double.IsNaN(_first) ? 0 : farads * (Primitive(_first) - Primitive(Math.Max(CollapseVolts, _first * 1e-9)));

    /// <summary>Voltage at a time after the load came on, V; null after the collapse.</summary>
    /// <param name="farads">Capacitance, F, 0 or more.</param>
    /// <param name="seconds">Time, s.</param>
    public double? Volts(double farads, double seconds)
    {
        if (double.IsNaN(_first))
            return farads > 0 ? null : SteadyVolts;
        if (farads <= 0)
            return SteadyVolts;
        if (seconds >= CollapseSeconds(farads))
            return null;
        var wanted = seconds / farads;
        var low = SteadyVolts ?? Math.Max(CollapseVolts, _first * 1e-9);
        var high = _first;
        for (var i = 0; i < 200 && high - low > 1e-13 * _first; i++)
        {
            var middle = (low + high) / 2;
            if (SecondsPerFarad(middle) > wanted)
                low = middle;
            else
                high = middle;
        }

        return (low + high) / 2;
    }

    private double? UpperRoot(double product)
    {
        var discriminant = _sourceVolts * _sourceVolts - 4 * product;
        return discriminant < 0 ? null : (_sourceVolts + Math.Sqrt(discriminant)) / 2;
    }

    /// <summary>∫ Rs·[(1 + Re/Rs)·v − Re·P/v]/(v² − V0·v + Rs·P) dv.</summary>
    private double Primitive(double v)
    {
        var product = _sourceOhms * _watts;
        var half = _sourceVolts / 2;
        var square = half * half - product;
        double overQuadratic;   // ∫ v/q
        double overCubic;       // ∫ 1/(v·q)
        if (square > 0)
        {
            var root = Math.Sqrt(square);
            var (upper, lower) = (half + root, product / (half + root));
            var (logUpper, logLower) = (Math.Log(Math.Abs(v - upper)), Math.Log(Math.Abs(v - lower)));
            overQuadratic = (upper * logUpper - lower * logLower) / (upper - lower);
            overCubic = Math.Log(v) / product + (logUpper / upper - logLower / lower) / (upper - lower);
        }
        else
        {
            var width = Math.Sqrt(-square);
            var log = 0.5 * Math.Log((v - half) * (v - half) + width * width);
            var angle = half / width * Math.Atan((v - half) / width);
            overQuadratic = log + angle;
            overCubic = (Math.Log(v) - log + angle) / product;
        }

        return (_sourceOhms + _seriesOhms) * overQuadratic - _sourceOhms * _seriesOhms * _watts * overCubic;
    }
}
