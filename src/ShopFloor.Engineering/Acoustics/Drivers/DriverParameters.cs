using ShopFloor.Engineering.Physics;

namespace ShopFloor.Engineering.Acoustics.Drivers;

/// <summary>A driver as its lumped elements, all known.</summary>
/// <param name="ReOhms">DC resistance of the voice coil, Ω.</param>
/// <param name="LeHenries">Inductance of the voice coil, H; 0 when not known.</param>
/// <param name="BlTeslaMeters">Force factor, T·m.</param>
/// <param name="MmsKilograms">Moving mass, kg.</param>
/// <param name="CmsMetersPerNewton">Compliance, m/N.</param>
/// <param name="RmsKilogramsPerSecond">Mechanical resistance, kg/s.</param>
/// <param name="PistonSquareMeters">Piston area, m².</param>
public sealed record DriverParameters(
    double ReOhms, double LeHenries, double BlTeslaMeters, double MmsKilograms, double CmsMetersPerNewton, double RmsKilogramsPerSecond, double PistonSquareMeters)
{
    /// <summary>Linear excursion one way, m; null when not known.</summary>
    public double? XmaxMeters { get; init; }

    /// <summary>Power the coil bears for long, W; null when not known.</summary>
    public double? RatedWatts { get; init; }

    /// <summary>Second part of a lossy coil, H: in series with Le, bridged by <see cref="LossOhms"/>; 0 for a plain coil.</summary>
    public double LossHenries { get; init; }

    /// <summary>Eddy-current resistance across <see cref="LossHenries"/>, Ω.</summary>
    public double LossOhms { get; init; }

    /// <summary>Resonance in free air, Hz: 1/(2π√(Mms·Cms)).</summary>
    public double ResonanceHertz => 1 / (2 * Math.PI * Math.Sqrt(MmsKilograms * CmsMetersPerNewton));

    /// <summary>Electrical Q: 2π·fs·Mms·Re/Bl².</summary>
    public double Qes => 2 * Math.PI * ResonanceHertz * MmsKilograms * ReOhms / (BlTeslaMeters * BlTeslaMeters);

    /// <summary>Mechanical Q: 2π·fs·Mms/Rms.</summary>
    public double Qms => 2 * Math.PI * ResonanceHertz * MmsKilograms / RmsKilogramsPerSecond;

    /// <summary>Total Q: Qes·Qms/(Qes + Qms).</summary>
    public double Qts => Qes * Qms / (Qes + Qms);

    /// <summary>Volume of air as compliant as the suspension, m³: ρc²·Sd²·Cms.</summary>
    /// <param name="air">The air.</param>
    public double VasCubicMeters(Air air)
    {
        ArgumentNullException.ThrowIfNull(air);
        return air.BulkModulusPascals * PistonSquareMeters * PistonSquareMeters * CmsMetersPerNewton;
    }

    /// <summary>Reference efficiency, a share of 1: 4π²·fs³·Vas/(c³·Qes) (Small, JAES 20, 1972).</summary>
    /// <param name="air">The air.</param>
    public double ReferenceEfficiency(Air air) =>
        4 * Math.PI * Math.PI * Math.Pow(ResonanceHertz / air.SpeedMetersPerSecond, 3) * VasCubicMeters(air) / Qes;

    /// <summary>Level of the reference efficiency for 1 W into Re at 1 m in half-space, dB.</summary>
    /// <param name="air">The air.</param>
    public double OneWattDecibels(Air air)
    {
        ArgumentNullException.ThrowIfNull(air);
        return 10 * Math.Log10(ReferenceEfficiency(air) * air.DensityKilogramsPerCubicMeter * air.SpeedMetersPerSecond / (2 * Math.PI) / (Air.ReferencePascals * Air.ReferencePascals));
    }

    /// <summary>Level at 1 m in half-space for 2.83 V at the terminals, dB: that of the reference efficiency with 8 V² over the DC resistance.</summary>
    /// <param name="air">The air.</param>
    /// <param name="reOhms">DC resistance as the coils are joined for it, Ω, above 0; null for <see cref="ReOhms"/>. How they are joined does not change the efficiency.</param>
    /// <exception cref="ArgumentOutOfRangeException">The resistance is not above 0.</exception>
    public double SensitivityDecibels(Air air, double? reOhms = null)
    {
        var ohms = reOhms ?? ReOhms;
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(ohms, nameof(reOhms));
        return OneWattDecibels(air) + 10 * Math.Log10(2.83 * 2.83 / ohms);
    }

    /// <summary>Several alike as one: side by side on the air, joined electrically as said.</summary>
    /// <param name="count">How many, 1 or more.</param>
    /// <param name="inSeries">Whether the coils are in series; else in parallel.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than one.</exception>
    public DriverParameters Several(int count, bool inSeries)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        var electric = inSeries ? count : 1.0 / count;
        return this with
        {
            ReOhms = ReOhms * electric,
            LeHenries = LeHenries * electric,
            LossHenries = LossHenries * electric,
            LossOhms = LossOhms * electric,
            BlTeslaMeters = BlTeslaMeters * (inSeries ? count : 1),
            MmsKilograms = MmsKilograms * count,
            CmsMetersPerNewton = CmsMetersPerNewton / count,
            RmsKilogramsPerSecond = RmsKilogramsPerSecond * count,
            PistonSquareMeters = PistonSquareMeters * count,
            RatedWatts = RatedWatts * count,
        };
    }

    /// <summary>Strings of alike drivers in series, the strings in parallel, as one driver.</summary>
    /// <param name="inSeries">Drivers in a string, 1 or more.</param>
    /// <param name="inParallel">Strings, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than one.</exception>
    public DriverParameters Wired(int inSeries, int inParallel) => Several(inSeries, inSeries: true).Several(inParallel, inSeries: false);

    /// <summary>Two alike one behind the other on one piston (isobaric), joined electrically as said.</summary>
    /// <param name="inSeries">Whether the coils are in series; else in parallel.</param>
    /// <remarks>Twice the mass and the motor on the piston of one: half the Vas at the same resonance and Q (Small's parameters of the pair).</remarks>
    public DriverParameters Isobaric(bool inSeries) => Several(2, inSeries) with { PistonSquareMeters = PistonSquareMeters };

    /// <summary>Several alike as one, side by side or in isobaric pairs side by side.</summary>
    /// <param name="count">How many, 1 or more; even for pairs.</param>
    /// <param name="inSeries">Whether the coils are in series; else in parallel.</param>
    /// <param name="isobaric">Whether they stand in pairs one behind the other.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than one.</exception>
    public DriverParameters Joined(int count, bool inSeries, bool isobaric)
    {
        var all = Several(count, inSeries);
        return isobaric ? all with { PistonSquareMeters = all.PistonSquareMeters / 2 } : all;
    }
}
