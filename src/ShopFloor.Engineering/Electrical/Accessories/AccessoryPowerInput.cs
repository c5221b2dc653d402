using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Accessories;

/// <summary>Kind of accessory, for what has to be said about it.</summary>
public enum AccessoryKind
{
    /// <summary>Camera for reversing or for seeing around the car.</summary>
    Camera,

    /// <summary>Camera that records.</summary>
    RecordingCamera,

    /// <summary>Receiver that warns of speed or distance measurement.</summary>
    DetectionDevice,

    /// <summary>Anything else.</summary>
    Other,
}

/// <summary>A camera, detection device or other accessory as a load.</summary>
public sealed record Accessory
{
    /// <summary>Identifier, unique in the list.</summary>
    public required string Id { get; init; }

    /// <summary>Name shown in texts.</summary>
    public required string Name { get; init; }

    /// <summary>Kind.</summary>
    public required AccessoryKind Kind { get; init; }

    /// <summary>Current while driving, A (0 to 20); null means not known, which is reported.</summary>
    public double? DrivingAmperes { get; init; }

    /// <summary>Current while it watches the parked car, A (0 to 20); null means not known unless <see cref="WatchesParked"/> is false.</summary>
    public double? ParkedAmperes { get; init; }

    /// <summary>Whether it watches the parked car.</summary>
    public bool WatchesParked { get; init; }

    /// <summary>Voltage at which it switches itself off to save the battery, V (10 to 13); null when it has no such cut-off or it is not known.</summary>
    public double? CutOffVolts { get; init; }
}

/// <summary>Accessories and the parked car's battery.</summary>
public sealed record AccessoryPowerInput
{
    /// <summary>The accessories.</summary>
    public required IReadOnlyList<Accessory> Accessories { get; init; }

    /// <summary>The vehicle's own sleep current, A (0 to 5); null when not known.</summary>
    public double? VehicleSleepAmperes { get; init; }

    /// <summary>Battery, its start and the state of charge to stop at; the load is filled in. Null when not known.</summary>
    public BatteryTimeInput? Battery { get; init; }

    /// <summary>Hours watched where nobody says how many, h: overnight. Common practice, no source.</summary>
    public const double DefaultWatchedHours = 12;

    /// <summary>Hours the car stands and is watched, h (0.1 to 1000).</summary>
    public double WatchedHours { get; init; } = DefaultWatchedHours;

    /// <summary>What is wrong with the input, field by field; empty when it can be computed. Missing currents become findings instead.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        for (var i = 0; i < Accessories.Count; i++)
        {
            var accessory = Accessories[i];
            var at = $"{nameof(Accessories)}[{i}].";
            checks.Named(at + nameof(accessory.Id), "Accessory identifier", accessory.Id);
            checks.Named(at + nameof(accessory.Name), "Accessory name", accessory.Name);
            checks.Known(at + nameof(accessory.Kind), $"{accessory.Name}, kind", accessory.Kind);
            checks.InRange(at + nameof(accessory.DrivingAmperes), $"{accessory.Name}, current while driving", accessory.DrivingAmperes, 0, 20, QuantityKind.Current);
            checks.InRange(at + nameof(accessory.ParkedAmperes), $"{accessory.Name}, current while parked", accessory.ParkedAmperes, 0, 20, QuantityKind.Current);
            checks.InRange(at + nameof(accessory.CutOffVolts), $"{accessory.Name}, cut-off voltage", accessory.CutOffVolts, 10, 13, QuantityKind.Voltage);
        }

        checks.Distinct(nameof(Accessories), "Accessories", Accessories.Select(a => a.Id));
        checks.InRange(nameof(VehicleSleepAmperes), "The vehicle's own sleep current", VehicleSleepAmperes, 0, 5, QuantityKind.Current);
        checks.InRange(nameof(WatchedHours), "Hours watched", WatchedHours, 0.1, 1000);
        if (Battery is { } battery)
        {
            // The load of the battery is computed, so whatever stands in that field does not matter.
            checks.AddRange((battery with { LoadAmperes = 1 }).Validate(text).Select(p => p with { Field = $"{nameof(Battery)}.{p.Field}" }));
        }

        return checks.Problems;
    }
}
