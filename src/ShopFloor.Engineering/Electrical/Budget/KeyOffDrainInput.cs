using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>What one part draws with the key off.</summary>
/// <param name="Id">Identifier, unique in the list.</param>
/// <param name="Name">Name shown in texts.</param>
/// <param name="StandbyAmperes">Current with the key off, A (0 to 20); null means not known, which is reported and never taken as zero.</param>
public sealed record StandbyDraw(string Id, string Name, double? StandbyAmperes);

/// <summary>Where the vehicle's own sleep current comes from.</summary>
public enum SleepCurrentOrigin
{
    /// <summary>Measured on this car before the build.</summary>
    Measured,

    /// <summary>The vehicle maker's figure.</summary>
    MakersFigure,
}

/// <summary>Everything that draws with the key off, and the battery behind it.</summary>
public sealed record KeyOffDrainInput
{
    /// <summary>Added parts.</summary>
    public required IReadOnlyList<StandbyDraw> Draws { get; init; }

    /// <summary>The vehicle's own current once asleep, A (0 to 5); null when not known, which is reported.</summary>
    public double? VehicleSleepAmperes { get; init; }

    /// <summary>Where <see cref="VehicleSleepAmperes"/> comes from.</summary>
    public SleepCurrentOrigin VehicleSleepOrigin { get; init; } = SleepCurrentOrigin.Measured;

    /// <summary>Largest key-off current the vehicle maker allows, A (0.001 to 5); null takes the rule from the reserve capacity.</summary>
    public double? MakersLimitAmperes { get; init; }

    /// <summary>Reserve capacity of the battery, min (10 to 1000); null when not known.</summary>
    public double? ReserveCapacityMinutes { get; init; }

    /// <summary>Capacity of the battery, Ah (1 to 2000); null takes the estimate from the reserve capacity.</summary>
    public double? BatteryAmpereHours { get; init; }

    /// <summary>Share of the capacity after which the car may not start, percent (5 to 90).</summary>
    public double NoStartPercent { get; init; } = KeyOffDrain.DefaultNoStartPercent;

    /// <summary>Days the client wants to leave the car, d (0.1 to 365); null when not asked.</summary>
    public double? ParkedDays { get; init; }

    /// <summary>What is wrong with the input, field by field; empty when it can be computed. Missing currents become findings instead.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        for (var i = 0; i < Draws.Count; i++)
        {
            var at = $"{nameof(Draws)}[{i}].";
            checks.Named(at + nameof(StandbyDraw.Id), "Part identifier", Draws[i].Id);
            checks.Named(at + nameof(StandbyDraw.Name), "Part name", Draws[i].Name);
            checks.InRange(at + nameof(StandbyDraw.StandbyAmperes), $"{Draws[i].Name}, current with the key off", Draws[i].StandbyAmperes, 0, 20, QuantityKind.Current);
        }

        checks.Distinct(nameof(Draws), "Parts", Draws.Select(d => d.Id));
        checks.InRange(nameof(VehicleSleepAmperes), "The vehicle's own sleep current", VehicleSleepAmperes, 0, 5, QuantityKind.Current);
        checks.Known(nameof(VehicleSleepOrigin), "Origin of the vehicle's sleep current", VehicleSleepOrigin);
        checks.InRange(nameof(MakersLimitAmperes), "The vehicle maker's key-off limit", MakersLimitAmperes, 0.001, 5, QuantityKind.Current);
        checks.InRange(nameof(ReserveCapacityMinutes), "Reserve capacity in minutes", ReserveCapacityMinutes, 10, 1000);
        checks.InRange(nameof(BatteryAmpereHours), "Battery capacity in Ah", BatteryAmpereHours, 1, 2000);
        checks.InRange(nameof(NoStartPercent), "Share of the capacity after which the car may not start, in %", NoStartPercent, 5, 90);
        checks.InRange(nameof(ParkedDays), "Days parked", ParkedDays, 0.1, 365);
        return checks.Problems;
    }
}
