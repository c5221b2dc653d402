using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>What an amplifier's data sheet says, and the music it plays.</summary>
public sealed record AmplifierCurrentInput
{
    /// <summary>Name shown in texts.</summary>
    public string Name { get; init; } = "Amplifier";

    /// <summary>Rated continuous RMS output power of all channels together, W (1 to 20 000).</summary>
    public required double RatedOutputWatts { get; init; }

    /// <summary>Output stage.</summary>
    public required AmplifierClass Class { get; init; }

    /// <summary>Output over supply power at rated output, 0.05 to 0.98; null takes the default of the class.</summary>
    public double? FullPowerEfficiency { get; init; }

    /// <summary>Supply current without signal, A (0 to 50); null takes the default.</summary>
    public double? IdleAmperes { get; init; }

    /// <summary>Voltage at the amplifier, V (6 to 49.9).</summary>
    public double SupplyVolts { get; init; } = ElectricalDefaults.SupplyVolts;

    /// <summary>Peak to RMS ratio of the music played just below clipping, dB (3.01, a sine, to 30).</summary>
    public double CrestFactorDecibels { get; init; } = ElectricalDefaults.CrestFactorDecibels;

    /// <summary>What is wrong with the input, field by field; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(RatedOutputWatts), $"{Name}, rated output power", RatedOutputWatts, 1, 20_000, QuantityKind.Power);
        checks.Known(nameof(Class), $"{Name}, class", Class);
        checks.InRange(nameof(FullPowerEfficiency), $"{Name}, efficiency at rated output", FullPowerEfficiency, 0.05, 0.98);
        checks.InRange(nameof(IdleAmperes), $"{Name}, idle current", IdleAmperes, 0, 50, QuantityKind.Current);
        checks.InRange(nameof(SupplyVolts), $"{Name}, supply voltage", SupplyVolts, 6, 49.9, QuantityKind.Voltage);
        checks.InRange(nameof(CrestFactorDecibels), $"{Name}, crest factor in dB", CrestFactorDecibels, 3.01, 30);
        return checks.Problems;
    }
}
