using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Runs;

/// <summary>A loudspeaker and its two-conductor run.</summary>
public sealed record SpeakerRunInput
{
    /// <summary>Identifier, for findings; give each its own when a job has several.</summary>
    public string Id { get; init; } = "speaker-run";

    /// <summary>Name shown in texts.</summary>
    public string Name { get; init; } = "Speaker run";

    /// <summary>Length one way, m (0.05 to 100).</summary>
    public required double LengthMeters { get; init; }

    /// <summary>Copper cross-section of one conductor, mm² (0.1 to 110); null asks for the least gauge only.</summary>
    public double? AreaSquareMillimeters { get; init; }

    /// <summary>Rated impedance of the load, Ω (0.25 to 100).</summary>
    public required double LoadOhms { get; init; }

    /// <summary>Lowest impedance of the load, Ω (0.2 to 100); null takes 80 % of the rated one, which IEC 60268-5 allows (from memory).</summary>
    public double? MinimumOhms { get; init; }

    /// <summary>Damping factor of the amplifier (1 to 10 000); null counts its output impedance as zero and says so.</summary>
    public double? AmplifierDampingFactor { get; init; }

    /// <summary>Impedance at which that damping factor is stated, Ω (0.25 to 16).</summary>
    public double DampingFactorStatedAtOhms { get; init; } = 4;

    /// <summary>Conductor temperature, °C (−40 to 125).</summary>
    public double ConductorCelsius { get; init; } = 20;

    /// <summary>Largest loss at the lowest impedance, dB (0.01 to 6). Common practice, no source.</summary>
    public double MaxLossDecibels { get; init; } = 0.5;

    /// <summary>Least damping factor at the load (1 to 1000). An amplifier maker's manual advises 25, and 50 for quality.</summary>
    public double MinDampingFactor { get; init; } = 25;

    /// <summary>What is wrong with the input, field by field; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(LengthMeters), $"{Name}, length", LengthMeters, 0.05, 100, QuantityKind.Length);
        checks.InRange(nameof(AreaSquareMillimeters), $"{Name}, conductor", AreaSquareMillimeters, 0.1, 110, QuantityKind.ConductorArea);
        checks.InRange(nameof(LoadOhms), $"{Name}, impedance of the load in Ω", LoadOhms, 0.25, 100);
        checks.InRange(nameof(MinimumOhms), $"{Name}, lowest impedance in Ω", MinimumOhms, 0.2, 100);
        if (MinimumOhms > LoadOhms)
            checks.Add(nameof(MinimumOhms), $"{Name}, lowest impedance in Ω: {(text ?? UnitText.Invariant).Number(MinimumOhms.Value)} is above the rated impedance; enter at most {(text ?? UnitText.Invariant).Number(LoadOhms)}.");
        checks.InRange(nameof(AmplifierDampingFactor), $"{Name}, damping factor of the amplifier", AmplifierDampingFactor, 1, 10_000);
        checks.InRange(nameof(DampingFactorStatedAtOhms), $"{Name}, impedance of the stated damping factor in Ω", DampingFactorStatedAtOhms, 0.25, 16);
        checks.InRange(nameof(ConductorCelsius), $"{Name}, conductor temperature", ConductorCelsius, -40, 125, QuantityKind.Temperature);
        checks.InRange(nameof(MaxLossDecibels), $"{Name}, largest loss in dB", MaxLossDecibels, 0.01, 6);
        checks.InRange(nameof(MinDampingFactor), $"{Name}, least damping factor", MinDampingFactor, 1, 1000);
        return checks.Problems;
    }
}
