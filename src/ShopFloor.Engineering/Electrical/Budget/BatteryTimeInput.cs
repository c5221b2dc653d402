using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>What a battery is made of.</summary>
public enum BatteryChemistry
{
    /// <summary>Lead-acid with free electrolyte.</summary>
    Flooded,

    /// <summary>Lead-acid with electrolyte in glass mat.</summary>
    Agm,

    /// <summary>Lead-acid with gelled electrolyte.</summary>
    Gel,

    /// <summary>Lithium iron phosphate with its own management electronics.</summary>
    LithiumIronPhosphate,
}

/// <summary>A battery and the load it carries with the engine off.</summary>
public sealed record BatteryTimeInput
{
    /// <summary>What it is made of.</summary>
    public BatteryChemistry Chemistry { get; init; } = BatteryChemistry.Flooded;

    /// <summary>Capacity at the rate of <see cref="RatingHours"/>, Ah (1 to 2000); null when only the reserve capacity is known.</summary>
    public double? CapacityAmpereHours { get; init; }

    /// <summary>Hours of the capacity rating, 1 to 100. The usual label is 20.</summary>
    public double RatingHours { get; init; } = 20;

    /// <summary>Reserve capacity, min (10 to 1000); used when the capacity is not known.</summary>
    public double? ReserveCapacityMinutes { get; init; }

    /// <summary>Peukert exponent, 1 to 1.6; null takes the default of the chemistry.</summary>
    public double? PeukertExponent { get; init; }

    /// <summary>Current drawn, A (0.01 to 2000).</summary>
    public required double LoadAmperes { get; init; }

    /// <summary>Open-circuit voltage after rest, V (11 to 13.2); sets the start of a flooded battery. Null takes <see cref="StartPercent"/>.</summary>
    public double? RestVolts { get; init; }

    /// <summary>State of charge at the start, percent (1 to 100).</summary>
    public double StartPercent { get; init; } = 100;

    /// <summary>State of charge at which to stop, percent (0 to 99).</summary>
    public double EndPercent { get; init; } = 50;

    /// <summary>Temperature of the battery, °C (−40 to 60).</summary>
    public double BatteryCelsius { get; init; } = 25;

    /// <summary>What is wrong with the input, field by field; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.Known(nameof(Chemistry), "Battery chemistry", Chemistry);
        if (CapacityAmpereHours is null && ReserveCapacityMinutes is null)
            checks.Add(nameof(CapacityAmpereHours), "Battery capacity in Ah: nothing was entered; enter the capacity or the reserve capacity.");
        checks.InRange(nameof(CapacityAmpereHours), "Battery capacity in Ah", CapacityAmpereHours, 1, 2000);
        checks.InRange(nameof(RatingHours), "Hours of the capacity rating", RatingHours, 1, 100);
        checks.InRange(nameof(ReserveCapacityMinutes), "Reserve capacity in minutes", ReserveCapacityMinutes, 10, 1000);
        checks.InRange(nameof(PeukertExponent), "Peukert exponent", PeukertExponent, 1, 1.6);
        checks.InRange(nameof(LoadAmperes), "Current with the engine off", LoadAmperes, 0.01, 2000, QuantityKind.Current);
        checks.InRange(nameof(RestVolts), "Voltage after rest", RestVolts, 11, 13.2, QuantityKind.Voltage);
        if (RestVolts is not null && Chemistry != BatteryChemistry.Flooded)
            checks.Add(nameof(RestVolts), $"Voltage after rest: the table fits flooded lead-acid only, not {Chemistry}; enter the state of charge from the maker's table.");
        checks.InRange(nameof(StartPercent), "State of charge at the start in %", StartPercent, 1, 100);
        checks.InRange(nameof(EndPercent), "State of charge to stop at in %", EndPercent, 0, 99);
        checks.InRange(nameof(BatteryCelsius), "Battery temperature", BatteryCelsius, -40, 60, QuantityKind.Temperature);
        return checks.Problems;
    }
}
