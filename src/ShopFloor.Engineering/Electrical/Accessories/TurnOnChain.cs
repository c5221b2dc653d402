using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Accessories;

/// <summary>Load of the turn-on line, and an order of switching that makes no noise.</summary>
/// <remarks>
/// Each stage comes on when every earlier stage is steady: sources, interfaces, processors, amplifiers last; off the other way round,
/// each stage after the amplifiers are quiet. The order follows the sound; the times are the declared ones. Common practice, no source.
/// </remarks>
public static class TurnOnChain
{
    /// <summary>Time between two stages when nothing is entered, s. Common practice, no source.</summary>
    public const double DefaultMarginSeconds = 0.2;

    /// <summary>Time an amplifier needs to go quiet when nothing is entered, s. From memory; try it.</summary>
    public const double DefaultQuietSeconds = 0.5;

    private static readonly TurnOnStage[][] _order =
        [[TurnOnStage.Source], [TurnOnStage.Interface], [TurnOnStage.Processor, TurnOnStage.Other], [TurnOnStage.Amplifier]];

    /// <summary>Computes the load and both sequences.</summary>
    /// <param name="input">Output and devices.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="TurnOnInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static TurnOnResult Compute(TurnOnInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));

        var total = input.Devices.Sum(d => Amperes(d, input.LineVolts) ?? 0);
        var missing = input.Devices.Where(d => Amperes(d, input.LineVolts) is null).ToList();
        var (up, upSeconds) = PowerUp(input);
        var (down, downSeconds) = PowerDown(input);
        var limits = new List<LimitCheck>();
        if (input.OutputLimitAmperes is { } limit)
            limits.Add(new LimitCheck("Current of the turn-on line within the output's limit", total, limit, "A", total <= limit, "part data"));
        bool? relay = input.OutputLimitAmperes is { } allowed ? total > allowed || (missing.Count > 0 && total > 0.8 * allowed) : null;

        var steps = new List<ExplainedStep>
        {
            new("Current of the line", "I = Σ I_device, a coil takes U / R", $"{input.Devices.Count} devices at {text.Volts(input.LineVolts)}", text.With(total * 1000, "mA"), "Ohm's law, part data"),
            new("Switching on", "t_stage = max(t_earlier + t_steady) + margin", string.Join(", ", up.Select(s => $"{s.Name} at {text.With(s.DelaySeconds, "s")}")), text.With(upSeconds, "s"), Unsourced.CommonPractice),
            new("Switching off", "amplifiers at once, the others when they are quiet, last stage of the signal path first", string.Join(", ", down.Select(s => $"{s.Name} at {text.With(s.DelaySeconds, "s")}")), text.With(downSeconds, "s"), Unsourced.CommonPractice),
        };
        var inputs = new List<ExplainedInput> { new("Time between two stages", input.MarginSeconds, "s", ElectricalDefaults.Origin(input.MarginSeconds, DefaultMarginSeconds, Unsourced.CommonPractice)) };
        if (input.OutputLimitAmperes is { } most)
            inputs.Insert(0, new("Current the output may give", most, "A", "part data"));
        return new TurnOnResult
        {
            TotalAmperes = total,
            MissingCurrentIds = [.. missing.Select(d => d.Id)],
            RelayNeeded = relay,
            PowerUp = up,
            PowerUpSeconds = upSeconds,
            PowerDown = down,
            PowerDownSeconds = downSeconds,
            Findings = TurnOnFindings.Find(input, total, missing, relay, up, text),
            Explanation = new Explanation("Turn-on line: what does it carry, and in which order?",
                $"{text.With(total * 1000, "mA")}{(relay == true ? ", a relay is needed" : "")}; on in {text.With(upSeconds, "s")}, off in {text.With(downSeconds, "s")}"
                + (missing.Count > 0 ? $"; not complete: {missing.Count} without a current" : ""),
                inputs, steps, limits, limits.FirstOrDefault(l => !l.Passed)?.Name),
        };
    }

    internal static double? Amperes(TurnOnDevice device, double volts) => device.RelayCoilOhms is { } coil ? volts / coil : device.TurnOnAmperes;

    private static (List<SequenceStep> Steps, double Seconds) PowerUp(TurnOnInput input)
    {
        var steps = new List<SequenceStep>();
        var steady = 0.0;
        var first = true;
        foreach (var devices in _order.Select(stages => Of(input, stages)).Where(d => d.Count > 0))
        {
            var start = first ? 0 : steady + input.MarginSeconds;
            first = false;
            foreach (var device in devices)
            {
                var step = new SequenceStep(device.Id, device.Name, device.Stage, start, start + (device.SettleSeconds ?? 0));
                steps.Add(step);
                // A fan or lamp makes no sound: nothing waits for it.
                if (device.Stage != TurnOnStage.Other)
                    steady = Math.Max(steady, step.SteadySeconds);
            }
        }

        return (steps, steps.Count == 0 ? 0 : steps.Max(s => s.SteadySeconds));
    }

    private static (List<SequenceStep> Steps, double Seconds) PowerDown(TurnOnInput input)
    {
        var steps = new List<SequenceStep>();
        var start = 0.0;
        foreach (var devices in _order.Reverse().Select(stages => Of(input, stages)).Where(d => d.Count > 0))
        {
            var quiet = start;
            foreach (var device in devices)
            {
                var until = start + (device.Stage == TurnOnStage.Amplifier ? device.QuietSeconds ?? DefaultQuietSeconds : 0);
                steps.Add(new SequenceStep(device.Id, device.Name, device.Stage, start, until));
                quiet = Math.Max(quiet, until);
            }

            start = quiet + input.MarginSeconds;
        }

        return (steps, steps.Count == 0 ? 0 : steps.Max(s => s.SteadySeconds));
    }

    private static List<TurnOnDevice> Of(TurnOnInput input, TurnOnStage[] stages) =>
        [.. input.Devices.Where(d => stages.Contains(d.Stage)).OrderBy(d => Array.IndexOf(stages, d.Stage))];
}
