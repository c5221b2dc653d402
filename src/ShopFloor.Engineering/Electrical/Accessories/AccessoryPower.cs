using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Accessories;

/// <summary>Sums accessories as loads, driving and parked.</summary>
public static class AccessoryPower
{
    /// <summary>Computes currents, charge and time.</summary>
    /// <param name="input">Accessories and battery.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="AccessoryPowerInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static AccessoryPowerResult Compute(AccessoryPowerInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));

        var driving = input.Accessories.Sum(a => a.DrivingAmperes ?? 0);
        var parked = input.Accessories.Where(a => a.WatchesParked).Sum(a => a.ParkedAmperes ?? 0);
        var load = parked + (input.VehicleSleepAmperes ?? 0);
        var battery = input.Battery is { } b && load >= 0.001 ? BatteryTime.Compute(b with { LoadAmperes = load }, text) : null;
        var charge = parked * input.WatchedHours;
        var limits = new List<LimitCheck>();
        if (battery is not null)
            limits.Add(new LimitCheck("Hours watched within what the battery stands", input.WatchedHours, battery.Hours, "h", input.WatchedHours <= battery.Hours, "battery time"));
        var steps = new List<ExplainedStep>
        {
            new("Charge taken while parked", "Q = Σ I_parked · t", $"{text.Number(parked)} · {text.Number(input.WatchedHours)}", text.With(charge, "Ah"), "definition of charge"),
        };
        if (battery is not null)
            steps.AddRange(battery.Explanation.Steps);
        return new AccessoryPowerResult
        {
            DrivingAmperes = driving,
            ParkedAmperes = parked,
            WatchedAmpereHours = charge,
            Battery = battery,
            StandbyDraws = [.. input.Accessories.Select(a => new StandbyDraw(a.Id, a.Name, a.WatchesParked ? a.ParkedAmperes : 0))],
            Findings = AccessoryFindings.Find(input, battery, text),
            Explanation = new Explanation("What do the accessories draw?",
                $"{text.Amperes(driving)} while driving, {text.With(parked * 1000, "mA")} while parked" + (battery is null ? "" : $"; {text.With(battery.Hours, "h")} until the battery is down to {text.Percent(input.Battery!.EndPercent)}"), // battery came from it
                [new("Driving", driving, "A", "part data"), new("Parked", parked, "A", "part data"), new("Hours watched", input.WatchedHours, "h", "entered")],
                steps, limits, limits.FirstOrDefault(l => !l.Passed)?.Name),
        };
    }
}
