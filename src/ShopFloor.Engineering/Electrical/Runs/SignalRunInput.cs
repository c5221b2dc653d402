using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Runs;

/// <summary>A shielded signal run between two devices.</summary>
public sealed record SignalRunInput
{
    /// <summary>Identifier, for findings; give each its own when a job has several.</summary>
    public string Id { get; init; } = "signal-run";

    /// <summary>Name shown in texts.</summary>
    public string Name { get; init; } = "Signal run";

    /// <summary>Length, m (0.05 to 100).</summary>
    public required double LengthMeters { get; init; }

    /// <summary>Output impedance of the source, Ω (1 to 100 000).</summary>
    public required double SourceOhms { get; init; }

    /// <summary>Input impedance it feeds, Ω (100 to 10 000 000).</summary>
    public double InputOhms { get; init; } = 10_000;

    /// <summary>Capacitance of the cable, F/m (1 pF/m to 10 nF/m). Default 150 pF/m, from memory; use the maker's data.</summary>
    public double FaradsPerMeter { get; init; } = 150e-12;

    /// <summary>What is wrong with the input, field by field; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(LengthMeters), $"{Name}, length", LengthMeters, 0.05, 100, QuantityKind.Length);
        checks.InRange(nameof(SourceOhms), $"{Name}, output impedance of the source in Ω", SourceOhms, 1, 100_000);
        checks.InRange(nameof(InputOhms), $"{Name}, input impedance in Ω", InputOhms, 100, 10_000_000);
        checks.InRange(nameof(FaradsPerMeter), $"{Name}, capacitance of the cable in F/m", FaradsPerMeter, 1e-12, 10e-9);
        return checks.Problems;
    }
}
