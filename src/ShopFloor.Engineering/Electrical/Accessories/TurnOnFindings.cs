using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Accessories;

/// <summary>What is wrong with a turn-on line or its order.</summary>
internal static class TurnOnFindings
{
    public static List<Finding> Find(
        TurnOnInput input, double total, List<TurnOnDevice> missing, bool? relay, IReadOnlyList<SequenceStep> up, UnitText text)
    {
        var findings = new List<Finding>();
        void Add(string code, Severity severity, string id, string name, string what, string remedy, string source) =>
            findings.Add(new Finding(code, severity, id, name, what, remedy, source));

        foreach (var device in missing)
        {
            Add("turn-on-current-missing", Severity.Warn, device.Id, device.Name, "Its turn-on current is not known, so it is not in the sum.",
                "Take it from the data sheet, or measure it.", "needed for the turn-on line");
        }

        if (input.OutputLimitAmperes is not { } limit)
        {
            Add("turn-on-limit-missing", Severity.Warn, input.Id, input.OutputName, "The current it may give is not known.",
                "Take it from the data sheet; until then switch anything but one or two amplifiers through a relay.", Unsourced.CommonPractice);
        }
        else if (total > limit)
        {
            Add("turn-on-overload", Severity.Stop, input.Id, input.OutputName, $"{text.With(total * 1000, "mA")} are drawn; it may give {text.With(limit * 1000, "mA")}.",
                "Switch the line through a relay whose coil alone hangs on the output, and fuse its contact.", "part data");
        }
        else if (relay == true)
        {
            Add("turn-on-near-limit", Severity.Warn, input.Id, input.OutputName, $"{text.With(total * 1000, "mA")} of {text.With(limit * 1000, "mA")} are taken, and a current is missing.",
                "Find the missing current, or use a relay.", Unsourced.CommonPractice);
        }

        foreach (var coil in input.Devices.Where(d => d.RelayCoilOhms is not null && !d.CoilSuppressed))
        {
            Add("coil-not-suppressed", Severity.Warn, coil.Id, coil.Name, "Nothing is across its coil: when it is switched off the coil drives the line to a high voltage that can destroy the output.",
                "Use a relay with a built-in diode or resistor, or fit a diode across the coil with its bar to the positive end; mind the polarity.", Unsourced.CommonPractice);
        }

        Order(input, up, text, Add);
        return [.. findings.OrderByDescending(f => f.Severity)];
    }

    private static void Order(
        TurnOnInput input, IReadOnlyList<SequenceStep> up, UnitText text, Action<string, Severity, string, string, string, string, string> add)
    {
        var upstream = input.Devices.Where(d => d.Stage is TurnOnStage.Source or TurnOnStage.Interface or TurnOnStage.Processor).ToList();
        foreach (var device in upstream.Where(d => d.SettleSeconds is null))
        {
            add("settle-time-missing", Severity.Warn, device.Id, device.Name, "The time until its output is steady is not known, so the order leaves none for it.",
                "Take it from the data sheet, or listen and time it.", "needed for the order");
        }

        var amplifiers = input.Devices.Where(d => d.Stage == TurnOnStage.Amplifier).ToList();
        // What is not muted is heard through every amplifier that is on before it is steady.
        var audible = upstream.Where(d => !d.MutesWhileUnsteady).ToList();
        foreach (var amplifier in amplifiers)
        {
            var planned = up.Single(s => s.DeviceId == amplifier.Id).DelaySeconds;
            var on = amplifier.SetDelaySeconds ?? 0;
            var early = audible.Where(d => (d.SetDelaySeconds ?? 0) + (d.SettleSeconds ?? 0) > on && !amplifier.MutesWhileUnsteady).ToList();
            if (early.Count > 0)
            {
                add("amplifier-on-too-early", Severity.Warn, amplifier.Id, amplifier.Name,
                    $"It comes on after {text.With(on, "s")} while {string.Join(", ", early.Select(d => d.Name))} is not steady and not muted: a thump, loud enough to hurt ears and drivers.",
                    $"Switch it from the processor's turn-on output, or delay it to {text.With(planned, "s")}.", Unsourced.CommonPractice);
            }
        }

        if (amplifiers.Count > 0 && audible.Count > 0)
        {
            add("power-down-order", Severity.Note, input.Id, input.OutputName,
                $"{string.Join(", ", audible.Select(d => d.Name))} does not mute when switched off: the amplifiers have to be off and quiet first.",
                "Try switching off at a low level before delivery.", Unsourced.CommonPractice);
        }
    }
}
