using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Mass;

/// <summary>Sums what is put into and taken out of a vehicle and compares it with the vehicle's labels.</summary>
public static class AddedMass
{
    /// <summary>Mass of an occupant in the vehicle capacity weight, kg. Source: 49 CFR 571.110 S3.</summary>
    public const double KilogramsPerOccupant = 68;

    /// <summary>Share of GVWR from which a placard is corrected. Source: 49 CFR 571.110 S10.1.</summary>
    public const double LabelThresholdOfRating = 0.015;

    /// <summary>Cap of that threshold, kg (100 lb). Source: 49 CFR 571.110 S10.1.</summary>
    public const double LabelThresholdCapKilograms = 45.4;

    internal const string Placard = "49 CFR 571.110 S4.3, the vehicle's placard";
    internal const string LabelRule = "49 CFR 571.110 S10.1";

    /// <summary>Sums the items and compares them with the labels.</summary>
    /// <param name="input">Items and labels.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// <see cref="AddedMassInput.Validate"/> finds a problem; the parameter name is the field.
    /// </exception>
    public static AddedMassResult Compute(AddedMassInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));

        var known = input.Items.Where(i => i.UnitMassKilograms is not null).ToList();
        var missing = input.Items.Where(i => i.UnitMassKilograms is null).ToList();
        var installed = Sum(known, MassChange.Installed);
        var removed = Sum(known, MassChange.Removed);
        var net = installed - removed;
        var label = input.Label;
        var remaining = label.PayloadKilograms - net;
        var occupants = label.SeatingPositions * KilogramsPerOccupant;
        double? threshold = label.GrossVehicleWeightRatingKilograms is { } rating
            ? Math.Min(LabelThresholdOfRating * rating, LabelThresholdCapKilograms)
            : null;

        var limits = new List<LimitCheck>();
        if (label.PayloadKilograms is { } payload)
            limits.Add(new LimitCheck("Added mass within the placard payload", net, payload, "kg", net <= payload, Placard));
        if (remaining is { } left && occupants is { } people)
            limits.Add(new LimitCheck("Every seat taken within what is left", people, left, "kg", people <= left, "49 CFR 571.110 S3: 68 kg per seating position"));
        if (threshold is { } bound)
            limits.Add(new LimitCheck("Added mass below the placard correction threshold (binds before first retail sale)", net, bound, "kg", net <= bound, LabelRule));

        return new AddedMassResult
        {
            InstalledKilograms = installed,
            RemovedKilograms = removed,
            NetKilograms = net,
            IsComplete = missing.Count == 0,
            MissingItemIds = [.. missing.Select(i => i.Id)],
            Zones = Zones(known),
            RemainingPayloadKilograms = remaining,
            OccupantsKilograms = occupants,
            CargoWithAllSeatsKilograms = remaining - occupants,
            LabelThresholdKilograms = threshold,
            Findings = AddedMassFindings.Find(missing, net, label, remaining, occupants, threshold, text),
            Explanation = Explain(label, installed, removed, net, remaining, missing.Count, limits, text),
        };
    }

    private static double Sum(IEnumerable<AddedMassItem> items, MassChange change) =>
        items.Where(i => i.Change == change).Sum(i => i.Quantity * i.UnitMassKilograms!.Value); // only items whose mass is known

    private static List<ZoneMass> Zones(List<AddedMassItem> known) =>
    [
        .. known.GroupBy(i => i.Zone)
            .Select(g => (g.Key, In: Sum(g, MassChange.Installed), Out: Sum(g, MassChange.Removed)))
            .Select(z => new ZoneMass(z.Key, z.In, z.Out, z.In - z.Out))
            .OrderByDescending(z => z.NetKilograms).ThenBy(z => z.Zone, StringComparer.Ordinal),
    ];

    private static Explanation Explain(
        PayloadLabel label, double installed, double removed, double net, double? remaining, int missing, List<LimitCheck> limits, UnitText text)
    {
        var inputs = new List<ExplainedInput>
        {
            new("Put in", installed, "kg", "part data"),
            new("Taken out", removed, "kg", "part data"),
        };
        var steps = new List<ExplainedStep>
        {
            new("Net added mass", "m = Σ installed − Σ removed", $"{text.Number(installed)} − {text.Number(removed)}", text.Kilograms(net), "sum"),
        };
        if (label.PayloadKilograms is { } payload && remaining is { } left)
        {
            inputs.Add(new ExplainedInput("Payload on the placard", payload, "kg", "vehicle"));
            steps.Add(new ExplainedStep("Payload left", "m_left = m_placard − m", $"{text.Number(payload)} − {text.Number(net)}", text.Kilograms(left), Placard));
        }

        var answer = $"{text.Kilograms(net)} net" + (remaining is { } r ? $", {text.Kilograms(r)} of the payload left" : "")
            + (missing > 0 ? $"; not complete: {missing} without a mass" : "");
        return new Explanation("How much mass is added, and what may the vehicle still carry?", answer, inputs, steps, limits, limits.FirstOrDefault(l => !l.Passed)?.Name);
    }
}
