using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Drivers;

/// <summary>The driver measured again with a mass on its cone: by a sweep, or by its resonance alone.</summary>
/// <param name="Kilograms">Mass added, kg (1e-5 to 2).</param>
/// <param name="Table">Impedance as text; null when the resonance is given.</param>
/// <param name="ResonanceHertz">Resonance with the mass found by tone and meter, Hz (1 to 20,000); null when there is a sweep.</param>
public sealed record AddedMassSweep(double Kilograms, string? Table = null, double? ResonanceHertz = null);

/// <summary>The driver measured again on a closed box of known volume: by a sweep, or by its resonance alone.</summary>
/// <param name="CubicMeters">Volume with what the cone and cut-out add, m³ (1e-5 to 2).</param>
/// <param name="Table">Impedance as text; null when the resonance is given.</param>
/// <param name="ResonanceHertz">Resonance on the box found by tone and meter, Hz (1 to 20,000); null when there is a sweep.</param>
public sealed record KnownVolumeSweep(double CubicMeters, string? Table = null, double? ResonanceHertz = null);

/// <summary>A driver measured by its impedance.</summary>
public sealed record DriverMeasurementInput
{
    /// <summary>Impedance in free air as text: frequency, ohms and, where measured, phase; see <see cref="ImpedanceTable"/>. Null when the resonance is given.</summary>
    public string? FreeAir { get; init; }

    /// <summary>Resonance in free air found by tone and meter, Hz (5 to 20,000), where there is no sweep.</summary>
    public double? ResonanceHertz { get; init; }

    /// <summary>Electrical Q (0.05 to 20), where there is no sweep and it is known.</summary>
    public double? Qes { get; init; }

    /// <summary>Mechanical Q (0.2 to 100), where there is no sweep and it is known.</summary>
    public double? Qms { get; init; }

    /// <summary>DC resistance by a meter, Ω (0.1 to 64); null to find it from the sweep.</summary>
    public double? ReOhms { get; init; }

    /// <summary>Effective piston area, m² (1e-5 to 1); null when the diameter is given.</summary>
    public double? PistonSquareMeters { get; init; }

    /// <summary>Diameter from the middle of the surround to the middle, m (0.004 to 1.1); null when the area is given.</summary>
    public double? PistonDiameterMeters { get; init; }

    /// <summary>Again with a mass on the cone; null when not done.</summary>
    public AddedMassSweep? AddedMass { get; init; }

    /// <summary>Again on a box of known volume; null when not done.</summary>
    public KnownVolumeSweep? KnownVolume { get; init; }

    /// <summary>Highest frequency used, Hz (50 to 200,000); null for all.</summary>
    public double? ToHertz { get; init; }

    /// <summary>Air temperature, °C (−40 to 80).</summary>
    public double AirCelsius { get; init; } = 20;

    /// <summary>Linear excursion one way, m (1e-5 to 0.1), for the sheet.</summary>
    public double? XmaxMeters { get; init; }

    /// <summary>Power the coil bears, W (0.1 to 20,000), for the sheet.</summary>
    public double? RatedWatts { get; init; }

    internal double? Piston => PistonSquareMeters ?? Math.PI / 4 * PistonDiameterMeters * PistonDiameterMeters;

    // Evenly spaced sweeps crowd at the top: of points nearer than half a percent one is kept, so that every octave counts alike.
    internal IReadOnlyList<ImpedancePoint> Points(string table)
    {
        var kept = new List<ImpedancePoint>();
        foreach (var point in ImpedanceTable.Parse(table).Points.TakeWhile(point => point.Hertz <= (ToHertz ?? double.MaxValue)))
        {
            if (kept.Count == 0 || point.Hertz >= 1.005 * kept[^1].Hertz)
                kept.Add(point);
        }

        return kept;
    }

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(ReOhms), "DC resistance in Ω", ReOhms, 0.1, 64);
        checks.InRange(nameof(PistonSquareMeters), "Piston area in m²", PistonSquareMeters, 1e-5, 1);
        checks.InRange(nameof(PistonDiameterMeters), "Diameter of the piston", PistonDiameterMeters, 0.004, 1.1, QuantityKind.SmallLength);
        checks.InRange($"{nameof(AddedMass)}.Kilograms", "Mass added in kg", AddedMass?.Kilograms, 1e-5, 2);
        checks.InRange($"{nameof(KnownVolume)}.CubicMeters", "Known volume in m³", KnownVolume?.CubicMeters, 1e-5, 2);
        checks.InRange(nameof(ToHertz), "Highest frequency in Hz", ToHertz, 50, 200_000);
        checks.InRange(nameof(AirCelsius), "Air temperature", AirCelsius, -40, 80, QuantityKind.Temperature);
        checks.InRange(nameof(XmaxMeters), "Linear excursion", XmaxMeters, 1e-5, 0.1, QuantityKind.SmallLength);
        checks.InRange(nameof(RatedWatts), "Rated power", RatedWatts, 0.1, 20_000, QuantityKind.Power);
        checks.InRange(nameof(ResonanceHertz), "Resonance in free air in Hz", ResonanceHertz, 5, 20_000);
        checks.InRange(nameof(Qes), "Electrical Q", Qes, 0.05, 20);
        checks.InRange(nameof(Qms), "Mechanical Q", Qms, 0.2, 100);
        checks.InRange($"{nameof(AddedMass)}.ResonanceHertz", "Resonance with added mass in Hz", AddedMass?.ResonanceHertz, 1, 20_000);
        checks.InRange($"{nameof(KnownVolume)}.ResonanceHertz", "Resonance on the known volume in Hz", KnownVolume?.ResonanceHertz, 1, 20_000);
        Either(checks, nameof(FreeAir), "Free air", true, FreeAir, ResonanceHertz);
        Either(checks, $"{nameof(AddedMass)}.Table", "With added mass", AddedMass is not null, AddedMass?.Table, AddedMass?.ResonanceHertz);
        Either(checks, $"{nameof(KnownVolume)}.Table", "On the known volume", KnownVolume is not null, KnownVolume?.Table, KnownVolume?.ResonanceHertz);
        return checks.Problems;
    }

    private void Either(InputChecks checks, string field, string label, bool done, string? table, double? resonance)
    {
        if (done && table is null && resonance is null)
            checks.Add(field, $"{label}: neither a sweep nor a resonance was given; give one of both.");
        if (table is not null && resonance is not null)
            checks.Add(field, $"{label}: a sweep and a resonance were given; the sweep tells the resonance, so give one of both.");
        if (table is null)
            return;
        var reading = ImpedanceTable.Parse(table, field);
        checks.AddRange(reading.Problems);
        if (reading.Problems.Count == 0 && ImpedanceFit.Refusal(Points(table)) is { } reason)
            checks.Add(field, $"{label}: {reason}");
    }
}
