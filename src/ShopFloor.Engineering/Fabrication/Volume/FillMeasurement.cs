using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Volume;

/// <summary>What fills an enclosure: water or beads by their mass and density, or beads by the litre as they are poured from a jug.</summary>
/// <remarks>V = m/ρ, or V as poured; standard uncertainties combine as u(V)/V = √((u(m)/m)² + (u(ρ)/ρ)²) (JCGM 100:2008, 5.1.6).</remarks>
public sealed record FillMeasurement
{
    /// <summary>Density of water at 20 °C, kg/m³. From memory: 998.2.</summary>
    public const double WaterKilogramsPerCubicMeter = 998.2;

    /// <summary>Mass of the fill, kg (0.001 to 2000); null where it was poured by volume.</summary>
    public double? FillKilograms { get; init; }

    /// <summary>Half of the smallest step the scale shows, or its stated accuracy, kg (0 to 10).</summary>
    public double ScaleKilograms { get; init; } = 0.005;

    /// <summary>Volume of a cup filled with the same beads the same way, m³ (1e-5 to 0.05); null for water at 20 °C.</summary>
    public double? CupCubicMeters { get; init; }

    /// <summary>Mass of the beads in the cup, kg (0.0001 to 50).</summary>
    public double? CupKilograms { get; init; }

    /// <summary>Beads poured in, by the marks of a jug, m³ (1e-6 to 2); null where the fill was weighed.</summary>
    public double? PouredCubicMeters { get; init; }

    /// <summary>How well all of the pouring was read, m³ (0 to 0.1).</summary>
    public double JugCubicMeters { get; init; } = 0.0001;

    /// <summary>How far beads in the box may lie denser or looser than in cup or jug, percent (0 to 20): beads settle. 2, common practice, no source.</summary>
    public double PackingPercent { get; init; } = 2;

    internal void Check(InputChecks checks, string at)
    {
        checks.InRange(at + nameof(FillKilograms), "Mass of the fill", FillKilograms, 0.001, 2000, QuantityKind.Mass);
        checks.InRange(at + nameof(ScaleKilograms), "Accuracy of the scale", ScaleKilograms, 0, 10, QuantityKind.Mass);
        checks.InRange(at + nameof(CupCubicMeters), "Volume of the cup in m³", CupCubicMeters, 1e-5, 0.05);
        checks.InRange(at + nameof(CupKilograms), "Mass of beads in the cup", CupKilograms, 0.0001, 50, QuantityKind.Mass);
        checks.InRange(at + nameof(PouredCubicMeters), "Beads poured in, in m³", PouredCubicMeters, 1e-6, 2);
        checks.InRange(at + nameof(JugCubicMeters), "Accuracy of the pouring in m³", JugCubicMeters, 0, 0.1);
        checks.InRange(at + nameof(PackingPercent), "Difference in packing in %", PackingPercent, 0, 20);
        if (FillKilograms is null == PouredCubicMeters is null)
            checks.Add(at + nameof(FillKilograms), "Fill: enter either its mass, or the volume of beads poured in.");
        if (CupCubicMeters is null != CupKilograms is null)
            checks.Add(at + nameof(CupKilograms), "Cup: enter both its volume and the mass of beads in it, or neither for water.");
        if (PouredCubicMeters is not null && CupKilograms is not null)
            checks.Add(at + nameof(CupKilograms), "Cup: beads poured by volume need none; leave it empty.");
    }

    internal FillResult Measure()
    {
        var packing = PackingPercent / 100;
        if (PouredCubicMeters is { } poured)
            return new FillResult(poured, poured * Math.Sqrt(Square(packing) + Square(JugCubicMeters / poured)), null);
        var fill = FillKilograms!.Value; // checked: one of both is there
        var density = CupCubicMeters is { } cup && CupKilograms is { } mass ? mass / cup : WaterKilogramsPerCubicMeter;
        var cupShare = CupKilograms is { } beads ? Math.Sqrt(Square(packing) + Square(ScaleKilograms / beads)) : 0;
        var volume = fill / density;
        return new FillResult(volume, volume * Math.Sqrt(Square(ScaleKilograms / fill) + Square(cupShare)), density);
    }

    private static double Square(double value) => value * value;
}

/// <summary>Volume by filling.</summary>
/// <param name="CubicMeters">Volume, m³.</param>
/// <param name="UncertaintyCubicMeters">Combined standard uncertainty, m³; about two in three true values lie within it.</param>
/// <param name="KilogramsPerCubicMeter">Density used, kg/m³; null where it was poured by volume.</param>
public sealed record FillResult(double CubicMeters, double UncertaintyCubicMeters, double? KilogramsPerCubicMeter);
