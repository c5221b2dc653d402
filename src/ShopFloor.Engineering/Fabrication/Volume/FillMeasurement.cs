using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Volume;

/// <summary>The mass of what fills an enclosure, and how dense that is.</summary>
/// <remarks>V = m/ρ; standard uncertainties combine as u(V)/V = √((u(m)/m)² + (u(ρ)/ρ)²) (JCGM 100:2008, 5.1.6).</remarks>
public sealed record FillMeasurement
{
    /// <summary>Density of water at 20 °C, kg/m³. From memory: 998.2.</summary>
    public const double WaterKilogramsPerCubicMeter = 998.2;

    /// <summary>Mass of the fill, kg (0.001 to 2000).</summary>
    public required double FillKilograms { get; init; }

    /// <summary>Half of the smallest step the scale shows, or its stated accuracy, kg (0 to 10).</summary>
    public double ScaleKilograms { get; init; } = 0.005;

    /// <summary>Volume of a cup filled with the same beads the same way, m³ (1e-5 to 0.05); null for water at 20 °C.</summary>
    public double? CupCubicMeters { get; init; }

    /// <summary>Mass of the beads in the cup, kg (0.0001 to 50).</summary>
    public double? CupKilograms { get; init; }

    /// <summary>How far the cup's density may differ from that in the box, percent (0 to 20): beads settle. 2, common practice, no source.</summary>
    public double PackingPercent { get; init; } = 2;

    internal void Check(InputChecks checks, string at)
    {
        checks.InRange(at + nameof(FillKilograms), "Mass of the fill", FillKilograms, 0.001, 2000, QuantityKind.Mass);
        checks.InRange(at + nameof(ScaleKilograms), "Accuracy of the scale", ScaleKilograms, 0, 10, QuantityKind.Mass);
        checks.InRange(at + nameof(CupCubicMeters), "Volume of the cup in m³", CupCubicMeters, 1e-5, 0.05);
        checks.InRange(at + nameof(CupKilograms), "Mass of beads in the cup", CupKilograms, 0.0001, 50, QuantityKind.Mass);
        checks.InRange(at + nameof(PackingPercent), "Difference in packing in %", PackingPercent, 0, 20);
        if (CupCubicMeters is null != CupKilograms is null)
            checks.Add(at + nameof(CupKilograms), "Cup: enter both its volume and the mass of beads in it, or neither for water.");
    }

    internal FillResult Measure()
    {
        var density = CupCubicMeters is { } cup && CupKilograms is { } mass ? mass / cup : WaterKilogramsPerCubicMeter;
        var cupShare = CupKilograms is { } beads ? Math.Sqrt(Square(PackingPercent / 100) + Square(ScaleKilograms / beads)) : 0;
        var volume = FillKilograms / density;
        return new FillResult(volume, volume * Math.Sqrt(Square(ScaleKilograms / FillKilograms) + Square(cupShare)), density);
    }

    private static double Square(double value) => value * value;
}

/// <summary>Volume by filling.</summary>
/// <param name="CubicMeters">Volume, m³.</param>
/// <param name="UncertaintyCubicMeters">Combined standard uncertainty, m³; about two in three true values lie within it.</param>
/// <param name="KilogramsPerCubicMeter">Density used, kg/m³.</param>
public sealed record FillResult(double CubicMeters, double UncertaintyCubicMeters, double KilogramsPerCubicMeter);
