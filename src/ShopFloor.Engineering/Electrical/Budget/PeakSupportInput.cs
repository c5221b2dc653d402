using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>A capacitor across the supply.</summary>
/// <param name="Farads">Capacitance, F (0.001 to 2000).</param>
/// <param name="SeriesOhms">Its equivalent series resistance with its own leads, Ω (0 to 1).</param>
/// <param name="RatedVolts">Highest voltage it stands, V (6 to 100); null when not read.</param>
public sealed record SupportCapacitor(double Farads, double SeriesOhms, double? RatedVolts = null);

/// <summary>A second battery across the supply.</summary>
/// <param name="RestedVolts">Its voltage without load, V (6 to 60).</param>
/// <param name="Ohms">Internal resistance with leads and fuse, Ω (0.0005 to 1).</param>
/// <param name="AmpereHours">Capacity, Ah (1 to 2000).</param>
public sealed record SupportBattery(double RestedVolts, double Ohms, double AmpereHours);

/// <summary>A burst of constant power at the end of a feed, and what helps the supply through it.</summary>
public sealed record PeakSupportInput
{
    /// <summary>Identifier, for findings; give each its own when a job has several.</summary>
    public string Id { get; init; } = "peak-support";

    /// <summary>Voltage at the load just before the burst, V (6 to 60).</summary>
    public double SourceVolts { get; init; } = ElectricalDefaults.SupplyVolts;

    /// <summary>Resistance of battery, alternator and feed together as seen by the load, Ω (0.0005 to 1).</summary>
    public required double SourceOhms { get; init; }

    /// <summary>Power taken during the burst, W (1 to 50 000).</summary>
    public required double BurstWatts { get; init; }

    /// <summary>Duration of the burst, s (0.001 to 60).</summary>
    public required double BurstSeconds { get; init; }

    /// <summary>Voltage that shall be kept, V (5 to 59, below <see cref="SourceVolts"/>).</summary>
    public required double LeastVolts { get; init; }

    /// <summary>Capacitor, or null.</summary>
    public SupportCapacitor? Capacitor { get; init; }

    /// <summary>Second battery, or null.</summary>
    public SupportBattery? SecondBattery { get; init; }

    /// <summary>Resistor used to charge the capacitor before it is connected, Ω (0.1 to 10 000); null proposes one.</summary>
    public double? PrechargeOhms { get; init; }

    /// <summary>What the alternator leaves on music, A (−2000 to 2000), from the alternator budget; null when not known.</summary>
    public double? AlternatorSurplusAmperes { get; init; }

    /// <summary>What is wrong with the input, field by field; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(SourceVolts), "Voltage before the burst", SourceVolts, 6, 60, QuantityKind.Voltage);
        checks.InRange(nameof(SourceOhms), "Resistance of the supply in Ω", SourceOhms, 0.0005, 1);
        checks.InRange(nameof(BurstWatts), "Power of the burst", BurstWatts, 1, 50_000, QuantityKind.Power);
        checks.InRange(nameof(BurstSeconds), "Duration of the burst in s", BurstSeconds, 0.001, 60);
        checks.InRange(nameof(LeastVolts), "Voltage to keep", LeastVolts, 5, 59, QuantityKind.Voltage);
        if (LeastVolts >= SourceVolts)
            checks.Add(nameof(LeastVolts), $"Voltage to keep: {(text ?? UnitText.Invariant).Volts(LeastVolts)} is not accepted; enter less than the voltage before the burst.");
        if (Capacitor is { } capacitor)
        {
            const string At = nameof(Capacitor) + ".";
            checks.InRange(At + nameof(SupportCapacitor.Farads), "Capacitance in F", capacitor.Farads, 0.001, 2000);
            checks.InRange(At + nameof(SupportCapacitor.SeriesOhms), "Series resistance of the capacitor in Ω", capacitor.SeriesOhms, 0, 1);
            checks.InRange(At + nameof(SupportCapacitor.RatedVolts), "Rated voltage of the capacitor", capacitor.RatedVolts, 6, 100, QuantityKind.Voltage);
        }

        if (SecondBattery is { } battery)
        {
            const string At = nameof(SecondBattery) + ".";
            checks.InRange(At + nameof(SupportBattery.RestedVolts), "Rested voltage of the second battery", battery.RestedVolts, 6, 60, QuantityKind.Voltage);
            checks.InRange(At + nameof(SupportBattery.Ohms), "Resistance of the second battery in Ω", battery.Ohms, 0.0005, 1);
            checks.InRange(At + nameof(SupportBattery.AmpereHours), "Capacity of the second battery in Ah", battery.AmpereHours, 1, 2000);
        }

        checks.InRange(nameof(PrechargeOhms), "Resistor for charging the capacitor in Ω", PrechargeOhms, 0.1, 10_000);
        checks.InRange(nameof(AlternatorSurplusAmperes), "What the alternator leaves on music", AlternatorSurplusAmperes, -2000, 2000, QuantityKind.Current);
        return checks.Problems;
    }
}
