using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Lighting;

/// <summary>What is wrong with a strip, and what the road rules say.</summary>
internal static class LedStripFindings
{
    public static List<Finding> Find(LedStripInput input, List<LedZoneResult> zones, double watts, double controller, UnitText text)
    {
        var findings = new List<Finding>();
        void Add(string code, Severity severity, string id, string name, string what, string remedy, string source) =>
            findings.Add(new Finding(code, severity, id, name, what, remedy, source));

        foreach (var (zone, result) in input.Zones.Zip(zones))
        {
            if (result.WorstDropVolts > input.SupplyVolts - LedStrip.ForwardVolts(input) && input.Segment == LedSegment.ConstantCurrent)
            {
                Add("led-zone-starved", Severity.Warn, zone.Id, zone.Name,
                    $"{text.Volts(result.WorstDropVolts)} are lost on the way to the worst segment: its drivers fall out of regulation, so it is dim or off-colour and the currents are below those shown.",
                    "Feed it at more points.", "Kirchhoff's laws");
            }
            else if (result.WorstDropPercent > input.MaxDropPercent)
            {
                var dim = input.Segment == LedSegment.ResistorLimited ? $" It gives about {text.Percent(result.DimmestShare * 100)} of its light." : "";
                Add("led-zone-drop", Severity.Warn, zone.Id, zone.Name,
                    $"The drop to the worst segment is {text.Percent(result.WorstDropPercent)}; {text.Percent(input.MaxDropPercent)} are allowed.{dim}",
                    result.LeastFeedPoints is { } feeds ? $"Feed it at {feeds} points." : "Use thicker wires to the feed points, a strip with more copper or a higher voltage.", "Kirchhoff's laws");
            }
        }

        if (input.SupplyWatts is { } supply && watts > supply * LedStrip.Loading)
        {
            Add("led-supply-small", Severity.Warn, input.Id, input.Name, $"Every colour full takes {text.Watts(watts)}; the supply of {text.Watts(supply)} should not carry more than {text.Watts(supply * LedStrip.Loading)} for hours.",
                $"Use {text.Watts(watts / LedStrip.Loading)} or more, or limit the brightness in the controller.", "handbook practice");
        }

        if (input.ControllerAmperesPerColour is { } amperes && controller > amperes)
        {
            Add("led-controller-small", Severity.Warn, input.Id, input.Name, $"A colour takes {text.Amperes(controller * LedStrip.Loading)}; the controller may switch {text.Amperes(amperes)} and should not carry more than 80 % of it for hours.",
                "Use a larger controller or split the zone.", "handbook practice");
        }

        if (input.SupplyVolts != 12)
        {
            Add("led-converter", Severity.Note, input.Id, input.Name, $"{text.Volts(input.SupplyVolts)} need a converter; on the vehicle side it takes the same power and its own loss.",
                "Fuse the converter's feed close to the battery, and fuse its output.", Unsourced.CommonPractice);
        }
        else
        {
            Add("led-supply-varies", Severity.Note, input.Id, input.Name, "Straight on the vehicle's supply a 12 V strip sees up to 15 V: it draws and heats more than its rating says.",
                "Feed it through a regulator, or choose a strip made for vehicles.", Unsourced.CommonPractice);
        }

        Add("led-fuse-each-feed", Severity.Note, input.Id, input.Name, "A fuse for the whole strip does not protect thin wires to single feed points.",
            "Fuse each feed for its own wire.", "33 CFR 183.455; FAA AC 43.13-1B, chapter 11: a fuse protects its wire");
        const string RoadRules = "49 CFR 571.108 (US); UN Regulation No. 48; local law";
        if (input.VisibleFromOutside)
        {
            Add("led-road-legal", Severity.Stop, input.Id, input.Name,
                "Light that can be seen from outside is regulated: colour, place, flashing and brightness may make the car illegal on the road; red to the front and blue are restricted nearly everywhere.",
                "Check the rules where the car is used, and wire it so that it cannot be lit on the road unless it is approved.", RoadRules);
        }
        else
        {
            Add("led-driver-view", Severity.Note, input.Id, input.Name, "Light in the driver's view or in the glass dazzles at night, and light that shines out is regulated.",
                "Try it in the dark from the driver's seat and from outside before delivery.", RoadRules);
        }

        return [.. findings.OrderByDescending(f => f.Severity)];
    }
}
