using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Drivers;

/// <summary>Small-signal parameters as a data sheet or a measurement gives them. What is not known is null.</summary>
public sealed record DriverSheet
{
    /// <summary>Resonance in free air, Hz (5 to 20 000).</summary>
    public double? ResonanceHertz { get; init; }

    /// <summary>Electrical Q (0.05 to 20).</summary>
    public double? Qes { get; init; }

    /// <summary>Mechanical Q (0.2 to 100).</summary>
    public double? Qms { get; init; }

    /// <summary>Total Q (0.05 to 20).</summary>
    public double? Qts { get; init; }

    /// <summary>Volume of air as compliant as the suspension, m³ (1e-6 to 5).</summary>
    public double? VasCubicMeters { get; init; }

    /// <summary>Effective piston area, m² (1e-5 to 1).</summary>
    public double? PistonSquareMeters { get; init; }

    /// <summary>DC resistance of the voice coil, Ω (0.1 to 64).</summary>
    public double? ReOhms { get; init; }

    /// <summary>Inductance of the voice coil, H (0 to 0.1).</summary>
    public double? LeHenries { get; init; }

    /// <summary>Second part of a lossy coil, H (1e-6 to 0.1): in series with Le and bridged by <see cref="LossOhms"/>, as impedance meters fit it; both or none.</summary>
    public double? LossHenries { get; init; }

    /// <summary>Eddy-current resistance across <see cref="LossHenries"/>, Ω (0.01 to 1,000).</summary>
    public double? LossOhms { get; init; }

    /// <summary>Moving mass with the air it carries, kg (1e-5 to 5).</summary>
    public double? MmsKilograms { get; init; }

    /// <summary>Compliance of the suspension, m/N (1e-7 to 0.1).</summary>
    public double? CmsMetersPerNewton { get; init; }

    /// <summary>Mechanical resistance, kg/s (0.001 to 200).</summary>
    public double? RmsKilogramsPerSecond { get; init; }

    /// <summary>Force factor, T·m (0.1 to 100).</summary>
    public double? BlTeslaMeters { get; init; }

    /// <summary>Linear excursion one way, m (1e-5 to 0.1).</summary>
    public double? XmaxMeters { get; init; }

    /// <summary>Power the coil bears for long, W (0.1 to 20 000).</summary>
    public double? RatedWatts { get; init; }

    /// <summary>Level at 1 m in half-space for 2.83 V, dB (50 to 130).</summary>
    public double? SensitivityDecibels { get; init; }

    /// <summary>DC resistance of the coils as they were joined for the sensitivity, Ω (0.1 to 256); null for <see cref="ReOhms"/>.</summary>
    public double? SensitivityReOhms { get; init; }

    /// <summary>What is out of range; empty when it can be completed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(ResonanceHertz), "Resonance in Hz", ResonanceHertz, 5, 20_000);
        checks.InRange(nameof(Qes), "Electrical Q", Qes, 0.05, 20);
        checks.InRange(nameof(Qms), "Mechanical Q", Qms, 0.2, 100);
        checks.InRange(nameof(Qts), "Total Q", Qts, 0.05, 20);
        checks.InRange(nameof(VasCubicMeters), "Vas in m³", VasCubicMeters, 1e-6, 5);
        checks.InRange(nameof(PistonSquareMeters), "Piston area in m²", PistonSquareMeters, 1e-5, 1);
        checks.InRange(nameof(ReOhms), "DC resistance in Ω", ReOhms, 0.1, 64);
        checks.InRange(nameof(LeHenries), "Inductance in H", LeHenries, 0, 0.1);
        checks.InRange(nameof(LossHenries), "Second inductance of the coil in H", LossHenries, 1e-6, 0.1);
        checks.InRange(nameof(LossOhms), "Resistance across the second inductance in Ω", LossOhms, 0.01, 1_000);
        if (LossHenries is null != LossOhms is null)
            checks.Add(LossHenries is null ? nameof(LossHenries) : nameof(LossOhms), "Lossy coil: one of second inductance and the resistance across it is missing; enter both, or none.");
        checks.InRange(nameof(MmsKilograms), "Moving mass in kg", MmsKilograms, 1e-5, 5);
        checks.InRange(nameof(CmsMetersPerNewton), "Compliance in m/N", CmsMetersPerNewton, 1e-7, 0.1);
        checks.InRange(nameof(RmsKilogramsPerSecond), "Mechanical resistance in kg/s", RmsKilogramsPerSecond, 0.001, 200);
        checks.InRange(nameof(BlTeslaMeters), "Force factor in T·m", BlTeslaMeters, 0.1, 100);
        checks.InRange(nameof(XmaxMeters), "Linear excursion in m", XmaxMeters, 1e-5, 0.1);
        checks.InRange(nameof(RatedWatts), "Rated power in W", RatedWatts, 0.1, 20_000);
        checks.InRange(nameof(SensitivityDecibels), "Sensitivity in dB", SensitivityDecibels, 50, 130);
        checks.InRange(nameof(SensitivityReOhms), "DC resistance for the sensitivity in Ω", SensitivityReOhms, 0.1, 256);
        return checks.Problems;
    }
}
