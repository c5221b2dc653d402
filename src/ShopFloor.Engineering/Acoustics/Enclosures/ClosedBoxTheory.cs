namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>The closed box without coil inductance and losses: Small, "Closed-Box Loudspeaker Systems", JAES 20 (1972) and 21 (1973).</summary>
public static class ClosedBoxTheory
{
    /// <summary>Total Q in the box: Qts·√(1 + Vas/Vb).</summary>
    /// <param name="qts">Total Q of the driver.</param>
    /// <param name="vasOverVolume">Vas over net volume.</param>
    public static double Qtc(double qts, double vasOverVolume) => qts * Math.Sqrt(1 + vasOverVolume);

    /// <summary>Net volume for a wanted Qtc, m³: Vas/((Qtc/Qts)² − 1); null when the driver's own Q is not below it.</summary>
    /// <param name="qts">Total Q of the driver.</param>
    /// <param name="vasCubicMeters">Vas, m³.</param>
    /// <param name="qtc">Wanted total Q in the box.</param>
    public static double? VolumeFor(double qts, double vasCubicMeters, double qtc) => qtc > qts ? vasCubicMeters / (Math.Pow(qtc / qts, 2) - 1) : null;

    /// <summary>Frequency 3 dB down over the resonance in the box: √((k + √(k² + 4))/2), k = 1/Qtc² − 2.</summary>
    /// <param name="qtc">Total Q in the box, above 0.</param>
    public static double CornerOverResonance(double qtc)
    {
        var k = 1 / (qtc * qtc) - 2;
        return Math.Sqrt((k + Math.Sqrt(k * k + 4)) / 2);
    }

    /// <summary>Height of the hump before the roll-off, dB: 20·log10(Qtc²/√(Qtc² − 1/4)); 0 up to Qtc = 1/√2.</summary>
    /// <param name="qtc">Total Q in the box, above 0.</param>
    public static double PeakDecibels(double qtc) => qtc <= Math.Sqrt(0.5) ? 0 : 20 * Math.Log10(qtc * qtc / Math.Sqrt(qtc * qtc - 0.25));
}
