using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Accessories;

/// <summary>Place of a device in the order sound passes, which is the order of switching on.</summary>
public enum TurnOnStage
{
    /// <summary>Head unit, player, receiver: on first.</summary>
    Source,

    /// <summary>Adapter, line driver, equaliser: anything between source and processor.</summary>
    Interface,

    /// <summary>Processor.</summary>
    Processor,

    /// <summary>Amplifier: on last, off first.</summary>
    Amplifier,

    /// <summary>Fan, lamp, anything without sound: with the processors.</summary>
    Other,
}

/// <summary>A device switched by the turn-on line.</summary>
public sealed record TurnOnDevice
{
    /// <summary>Identifier, unique in the list.</summary>
    public required string Id { get; init; }

    /// <summary>Name shown in texts.</summary>
    public required string Name { get; init; }

    /// <summary>Place in the order.</summary>
    public required TurnOnStage Stage { get; init; }

    /// <summary>Current it takes from the turn-on line, A (0 to 5); null means not known, which is reported. Not used with a relay coil.</summary>
    public double? TurnOnAmperes { get; init; }

    /// <summary>Resistance of the relay coil on the line, Ω (5 to 2000), when it is a relay.</summary>
    public double? RelayCoilOhms { get; init; }

    /// <summary>Whether the relay has a diode or resistor across its coil.</summary>
    public bool CoilSuppressed { get; init; }

    /// <summary>Time from its turn-on until its output is quiet and steady, s (0 to 60); null means not known. Ignored for amplifiers and others in the order.</summary>
    public double? SettleSeconds { get; init; }

    /// <summary>Time its output stage needs to go quiet after turn-off, s (0 to 60); null takes the default. Used for amplifiers.</summary>
    public double? QuietSeconds { get; init; }

    /// <summary>Whether it keeps its output muted until it is steady, and mutes at once when switched off.</summary>
    public bool MutesWhileUnsteady { get; init; }

    /// <summary>Delay set on the device or its turn-on output, s (0 to 60); null when it comes on with the line.</summary>
    public double? SetDelaySeconds { get; init; }
}

/// <summary>The turn-on output and everything on it.</summary>
public sealed record TurnOnInput
{
    /// <summary>Identifier, for findings; give each its own when a job has several.</summary>
    public string Id { get; init; } = "turn-on-line";

    /// <summary>Name of the device that gives the signal.</summary>
    public string OutputName { get; init; } = "Turn-on output";

    /// <summary>Current the output may give, A (0.01 to 20); null when not known, which is reported.</summary>
    public double? OutputLimitAmperes { get; init; }

    /// <summary>Voltage of the line, V (5 to 32).</summary>
    public double LineVolts { get; init; } = ElectricalDefaults.SupplyVolts;

    /// <summary>Devices on the line.</summary>
    public required IReadOnlyList<TurnOnDevice> Devices { get; init; }

    /// <summary>Time left between one stage being steady and the next coming on, s (0 to 5).</summary>
    public double MarginSeconds { get; init; } = TurnOnChain.DefaultMarginSeconds;

    /// <summary>What is wrong with the input, field by field; empty when it can be computed. Missing currents and times become findings instead.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(OutputLimitAmperes), $"{OutputName}, largest current", OutputLimitAmperes, 0.01, 20, QuantityKind.Current);
        checks.InRange(nameof(LineVolts), "Voltage of the turn-on line", LineVolts, 5, 32, QuantityKind.Voltage);
        checks.InRange(nameof(MarginSeconds), "Time between two stages in s", MarginSeconds, 0, 5);
        for (var i = 0; i < Devices.Count; i++)
        {
            var device = Devices[i];
            var at = $"{nameof(Devices)}[{i}].";
            checks.Named(at + nameof(device.Id), "Device identifier", device.Id);
            checks.Named(at + nameof(device.Name), "Device name", device.Name);
            checks.Known(at + nameof(device.Stage), $"{device.Name}, place in the order", device.Stage);
            checks.InRange(at + nameof(device.TurnOnAmperes), $"{device.Name}, turn-on current", device.TurnOnAmperes, 0, 5, QuantityKind.Current);
            checks.InRange(at + nameof(device.RelayCoilOhms), $"{device.Name}, coil resistance in Ω", device.RelayCoilOhms, 5, 2000);
            checks.InRange(at + nameof(device.SettleSeconds), $"{device.Name}, time to be steady in s", device.SettleSeconds, 0, 60);
            checks.InRange(at + nameof(device.QuietSeconds), $"{device.Name}, time to go quiet in s", device.QuietSeconds, 0, 60);
            checks.InRange(at + nameof(device.SetDelaySeconds), $"{device.Name}, delay in s", device.SetDelaySeconds, 0, 60);
        }

        checks.Distinct(nameof(Devices), "Devices", Devices.Select(d => d.Id));
        return checks.Problems;
    }
}
