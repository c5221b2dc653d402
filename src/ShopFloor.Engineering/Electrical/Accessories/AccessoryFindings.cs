using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Accessories;

/// <summary>What is wrong with accessories, and what the law may say.</summary>
internal static class AccessoryFindings
{
    private const string LocalLaw = "local law; it differs by country, state and vehicle class";

    public static List<Finding> Find(AccessoryPowerInput input, BatteryTimeResult? battery, UnitText text)
    {
        var findings = new List<Finding>();
        foreach (var accessory in input.Accessories)
        {
            void Add(string code, Severity severity, string what, string remedy, string source) =>
                findings.Add(new Finding(code, severity, accessory.Id, accessory.Name, what, remedy, source));

            if (accessory.DrivingAmperes is null)
                Add("accessory-current-missing", Severity.Warn, "Its current is not known, so it is not in the sum.", "Take it from the data sheet, or measure it.", "needed for the loads");
            if (accessory is { WatchesParked: true, ParkedAmperes: null })
                Add("accessory-parked-current-missing", Severity.Warn, "Its current while parked is not known, so it is not in the sum.", "Take it from the data sheet, or measure it.", "needed for the key-off drain");
            if (accessory is { WatchesParked: true, CutOffVolts: null })
            {
                Add("accessory-no-cut-off", Severity.Warn, "It watches the parked car, and no cut-off voltage is known: it may empty the battery.",
                    "Set or fit a cut-off, or feed it from a battery of its own.", Unsourced.CommonPractice);
            }

            if (accessory is { WatchesParked: true, CutOffVolts: { } volts } && input.Battery?.Chemistry == BatteryChemistry.Flooded
                && OpenCircuitVoltage.StateOfChargePercent(volts) < input.Battery.EndPercent)
            {
                Add("accessory-cut-off-low", Severity.Warn,
                    $"Its cut-off of {text.With(volts, "V", 4)} stands for {text.Percent(OpenCircuitVoltage.StateOfChargePercent(volts))} of charge, below the {text.Percent(input.Battery.EndPercent)} to stop at.",
                    $"Set it to {text.With(OpenCircuitVoltage.RestedVolts(input.Battery.EndPercent), "V", 4)} or more.", OpenCircuitVoltage.Source);
            }

            switch (accessory.Kind)
            {
                case AccessoryKind.DetectionDevice:
                    Add("detection-device-law", Severity.Warn, "Having or using one is forbidden in many places, and for some vehicles everywhere.",
                        "Have the client confirm in writing that it is allowed where the car is used.", LocalLaw);
                    break;
                case AccessoryKind.RecordingCamera:
                    Add("recording-camera-law", Severity.Note, "Recording the road, people or sound, and where on the windscreen it may sit, is regulated in many places.",
                        "Tell the client to check; keep it out of the driver's view and of airbags.", LocalLaw);
                    break;
                case AccessoryKind.Camera:
                    Add("camera-view", Severity.Note, "A camera helps, it does not replace looking; a screen seen by the driver may have to go dark while driving.",
                        "Follow the vehicle maker and local law on screens.", LocalLaw);
                    break;
                case AccessoryKind.Other:
                    break;
                default:
                    throw new ArgumentOutOfRangeException(nameof(input), accessory.Kind, "Unknown kind.");
            }
        }

        if (battery is not null && battery.Hours < input.WatchedHours)
        {
            findings.Add(new Finding("watched-too-long", Severity.Warn, "accessories-parked", "Watching the parked car",
                $"{text.With(input.WatchedHours, "h")} are wanted; the battery is down to {text.Percent(input.Battery!.EndPercent)} after {text.With(battery.Hours, "h")}.", // battery came from it
                "Watch for less time, use motion wake-up, or fit a battery of its own.", "battery time"));
        }

        return [.. findings.OrderByDescending(f => f.Severity)];
    }
}
