using System.Text.Json.Serialization;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>A box around the rear of a driver, and for a band-pass around its front.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(ClosedBox), "closed")]
[JsonDerivedType(typeof(VentedBox), "vented")]
[JsonDerivedType(typeof(RadiatorBox), "radiator")]
[JsonDerivedType(typeof(BandPassBox), "bandPass")]
public abstract record Enclosure
{
    /// <summary>Net volume behind the driver, m³ (1e-5 to 5): what is left after bracing, driver and port.</summary>
    public required double NetCubicMeters { get; init; }

    /// <summary>Q of leaks at the tuning (1 to 1000); null for none. Small, JAES 21 (1973): 7 is a good start for vented boxes.</summary>
    public double? LeakQ { get; init; }

    /// <summary>Q of absorption in the box at the tuning (1 to 1000); null for none.</summary>
    public double? AbsorptionQ { get; init; }

    /// <summary>What is out of range.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(NetCubicMeters), "Net volume in m³", NetCubicMeters, 1e-5, 5);
        checks.InRange(nameof(LeakQ), "Q of leaks", LeakQ, 1, 1_000);
        checks.InRange(nameof(AbsorptionQ), "Q of absorption", AbsorptionQ, 1, 1_000);
        Check(checks);
        return checks.Problems;
    }

    private protected virtual void Check(InputChecks checks)
    {
    }
}

/// <summary>A closed box.</summary>
public sealed record ClosedBox : Enclosure;

/// <summary>A box with a port.</summary>
public sealed record VentedBox : Enclosure
{
    /// <summary>Tuning of box and port, Hz (5 to 500).</summary>
    public required double TuningHertz { get; init; }

    /// <summary>Cross-section of the port, m² (1e-5 to 1), for its air speed.</summary>
    public required double PortSquareMeters { get; init; }

    /// <summary>Q of friction in the port at the tuning (1 to 1000); null for none.</summary>
    public double? PortQ { get; init; }

    private protected override void Check(InputChecks checks)
    {
        checks.InRange(nameof(TuningHertz), "Tuning in Hz", TuningHertz, 5, 500);
        checks.InRange(nameof(PortSquareMeters), "Cross-section of the port in m²", PortSquareMeters, 1e-5, 1);
        checks.InRange(nameof(PortQ), "Q of the port", PortQ, 1, 1_000);
    }
}

/// <summary>A box with a passive radiator in place of a port.</summary>
public sealed record RadiatorBox : Enclosure
{
    /// <summary>Moving mass of the radiator with any weight added, kg (1e-4 to 20).</summary>
    public required double RadiatorKilograms { get; init; }

    /// <summary>Compliance of its suspension, m/N (1e-7 to 0.1).</summary>
    public required double RadiatorMetersPerNewton { get; init; }

    /// <summary>Its mechanical resistance, kg/s (0 to 200).</summary>
    public double RadiatorKilogramsPerSecond { get; init; }

    /// <summary>Its piston area, m² (1e-5 to 1).</summary>
    public required double RadiatorSquareMeters { get; init; }

    private protected override void Check(InputChecks checks)
    {
        checks.InRange(nameof(RadiatorKilograms), "Moving mass of the radiator in kg", RadiatorKilograms, 1e-4, 20);
        checks.InRange(nameof(RadiatorMetersPerNewton), "Compliance of the radiator in m/N", RadiatorMetersPerNewton, 1e-7, 0.1);
        checks.InRange(nameof(RadiatorKilogramsPerSecond), "Mechanical resistance of the radiator in kg/s", RadiatorKilogramsPerSecond, 0, 200);
        checks.InRange(nameof(RadiatorSquareMeters), "Piston area of the radiator in m²", RadiatorSquareMeters, 1e-5, 1);
    }
}

/// <summary>A closed box behind the driver and a vented one before it; only the port is heard.</summary>
public sealed record BandPassBox : Enclosure
{
    /// <summary>Net volume before the driver, m³ (1e-5 to 5).</summary>
    public required double FrontCubicMeters { get; init; }

    /// <summary>Tuning of the front box and its port, Hz (5 to 500).</summary>
    public required double TuningHertz { get; init; }

    /// <summary>Cross-section of the port, m² (1e-5 to 1).</summary>
    public required double PortSquareMeters { get; init; }

    /// <summary>Q of leaks of the front box at its tuning (1 to 1000); null for none.</summary>
    public double? FrontQ { get; init; }

    /// <summary>Q of friction in the port at the tuning (1 to 1000); null for none.</summary>
    public double? PortQ { get; init; }

    private protected override void Check(InputChecks checks)
    {
        checks.InRange(nameof(FrontCubicMeters), "Net volume of the front box in m³", FrontCubicMeters, 1e-5, 5);
        checks.InRange(nameof(TuningHertz), "Tuning in Hz", TuningHertz, 5, 500);
        checks.InRange(nameof(PortSquareMeters), "Cross-section of the port in m²", PortSquareMeters, 1e-5, 1);
        checks.InRange(nameof(FrontQ), "Q of the front box", FrontQ, 1, 1_000);
        checks.InRange(nameof(PortQ), "Q of the port", PortQ, 1, 1_000);
    }
}
