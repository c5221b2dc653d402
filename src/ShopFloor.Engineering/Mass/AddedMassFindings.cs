using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Mass;

/// <summary>What is wrong with the added mass.</summary>
internal static class AddedMassFindings
{
    private const string Vehicle = "vehicle-mass";

    public static List<Finding> Find(
        List<AddedMassItem> missing, double net, PayloadLabel label, double? remaining, double? occupants, double? threshold, UnitText text)
    {
        var findings = missing.Select(item => new Finding(
            "mass-missing", Severity.Warn, item.Id, item.Name,
            "Its mass is not known, so it is not in the sums.", "Weigh it or take the mass from its data sheet, and enter it.", "needed for the payload")).ToList();

        void Add(string code, Severity severity, string what, string remedy, string source) =>
            findings.Add(new Finding(code, severity, Vehicle, "Vehicle mass", what, remedy, source));

        if (label.PayloadKilograms is not { } payload)
        {
            Add("payload-label-missing", Severity.Note, "The payload on the vehicle's placard is not entered, so what is left cannot be shown.",
                "Read the tire and loading placard in the driver's door opening.", AddedMass.Placard);
        }
        else if (net > payload)
        {
            Add("payload-exceeded", Severity.Stop, $"The added {text.Kilograms(net)} exceed the whole payload of {text.Kilograms(payload)}, before anyone sits in.",
                "Take mass out.", AddedMass.Placard);
        }
        else if (remaining is { } left && occupants is { } people && people > left)
        {
            Add("payload-below-occupants", Severity.Warn,
                $"{text.Kilograms(left)} are left; {label.SeatingPositions} seats at {text.Kilograms(AddedMass.KilogramsPerOccupant)} ask for {text.Kilograms(people)}.",
                "Take mass out, or tell the client in the handover how many people may ride along.", "49 CFR 571.110 S3: 68 kg per seating position");
        }

        if (threshold is { } bound && net > bound)
        {
            Add("label-threshold", Severity.Note,
                $"The added {text.Kilograms(net)} are above {text.Kilograms(bound)} (1.5 % of the gross vehicle weight rating, at most {text.Kilograms(AddedMass.LabelThresholdCapKilograms)}).",
                "Before first retail sale the placard has to be corrected. For a client's car, tell the client the payload that is left.", AddedMass.LabelRule);
        }

        return [.. findings.OrderByDescending(f => f.Severity)];
    }
}
