using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>Kind of battery.</summary>
public enum BatteryChemistry
{
    /// <summary>Lead-acid with liquid electrolyte.</summary>
    Flooded,

    /// <summary>Lead-acid with the electrolyte in glass mats.</summary>
    GlassMat,

    /// <summary>Lead-acid with the electrolyte in gel.</summary>
    Gel,

    /// <summary>Lithium iron phosphate with a protection circuit.</summary>
    LithiumIronPhosphate,
}

/// <summary>A battery, what it feeds with the engine off, and how far down it may go.</summary>
public sealed record BatteryTimeInput
{
    /// <summary>Identifier, for findings; give each its own when a job has several.</summary>
    public string Id { get; init; } = "battery";

    /// <summary>Name shown in texts.</summary>
    public string Name { get; init; } = "Battery";

    /// <summary>Kind of battery.</summary>
    public required BatteryChemistry Chemistry { get; init; }

    /// <summary>Capacity at <see cref="RatedHours"/>, Ah (1 to 2000); null takes the reserve capacity.</summary>
    public double? CapacityAmpereHours { get; init; }

    /// <summary>Hour rate of the capacity, h (1 to 100).</summary>
    public double RatedHours { get; init; } = 20;

    /// <summary>Reserve capacity, min (10 to 1000), used when the capacity is not known.</summary>
    public double? ReserveCapacityMinutes { get; init; }

    /// <summary>Peukert exponent (1 to 1.6); null takes the default of the chemistry.</summary>
    public double? PeukertExponent { get; init; }

    /// <summary>Everything it feeds, A (0.001 to 2000).</summary>
    public required double LoadAmperes { get; init; }

    /// <summary>State of charge at the start, percent (1 to 100).</summary>
    public double StartPercent { get; init; } = 100;

    /// <summary>Voltage of the rested battery, V (10 to 13.5): replaces <see cref="StartPercent"/>; flooded batteries only.</summary>
    public double? RestedVolts { get; init; }

    /// <summary>State of charge to stop at, percent (0 to 99).</summary>
    public double EndPercent { get; init; } = 50;

    /// <summary>Battery temperature, °C (−40 to 70).</summary>
    public double BatteryCelsius { get; init; } = 25;

    /// <summary>What is wrong with the input, field by field; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.Known(nameof(Chemistry), $"{Name}, kind", Chemistry);
        if (CapacityAmpereHours is null && ReserveCapacityMinutes is null)
            checks.Add(nameof(CapacityAmpereHours), $"{Name}, capacity: nothing was entered; enter the capacity in Ah or the reserve capacity in minutes.");
        checks.InRange(nameof(CapacityAmpereHours), $"{Name}, capacity in Ah", CapacityAmpereHours, 1, 2000);
        checks.InRange(nameof(RatedHours), $"{Name}, hour rate of the capacity", RatedHours, 1, 100);
        checks.InRange(nameof(ReserveCapacityMinutes), $"{Name}, reserve capacity in minutes", ReserveCapacityMinutes, 10, 1000);
        checks.InRange(nameof(PeukertExponent), $"{Name}, Peukert exponent", PeukertExponent, 1, 1.6);
        checks.InRange(nameof(LoadAmperes), $"{Name}, load", LoadAmperes, 0.001, 2000, QuantityKind.Current);
        checks.InRange(nameof(StartPercent), $"{Name}, state of charge at the start in %", StartPercent, 1, 100);
        checks.InRange(nameof(EndPercent), $"{Name}, state of charge to stop at in %", EndPercent, 0, 99);
        checks.InRange(nameof(BatteryCelsius), $"{Name}, temperature", BatteryCelsius, -40, 70, QuantityKind.Temperature);
        checks.InRange(nameof(RestedVolts), $"{Name}, rested voltage", RestedVolts, 10, 13.5, QuantityKind.Voltage);
        if (RestedVolts is not null && Chemistry != BatteryChemistry.Flooded)
            checks.Add(nameof(RestedVolts), $"{Name}, rested voltage: the table holds for flooded batteries only; enter the state of charge by the maker's table.");
        return checks.Problems;
    }
}
