using ShopFloor.Engineering.Safety;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Handover;

/// <summary>The cautions a client keeps, chosen by what was fitted and into what. Wording is ours; the matters are common practice, no source, unless one is named.</summary>
internal static class HandoverCautions
{
    private const string Fuses =
        "Replace a fuse only by one of the same form and rating. A larger one lets the cable burn before it opens. " +
        "A fuse that opens again has a reason: have it found.";

    private const string Hearing =
        "This system can play loud enough to harm hearing for good. A level of 85 dB(A) is the limit for eight hours of work a day " +
        "in the NIOSH recommendation (publication 98-126), and every 3 dB more halves that time. Keep it low enough to hear traffic and sirens.";

    private const string Battery =
        "Disconnect the battery only by the vehicle maker's instructions. Charge a second battery only with a charger made for its chemistry; " +
        "keep flames and sparks away, and do not bridge its terminals.";

    private const string StandingStill =
        "Listening for long with the engine off drains the battery. When the lights dim or the sound cuts out, stop and let the engine run.";

    private const string Loads =
        "The added weight counts against the load on the vehicle's own label. Keep heavy things in the boot away from the equipment and tied down.";

    private const string Lighting =
        "Added interior lighting may have to be off while driving, and colours and places of outside lights are ruled by the road law of your country. Where in doubt, leave it off.";

    public static IReadOnlyList<HandoverCaution> For(Drivetrain drive, IReadOnlySet<PartKind> fitted, IReadOnlyList<SafetyText> batteries)
    {
        var cautions = new List<HandoverCaution>();
        if (drive.IsHighVoltage())
        {
            cautions.Add(new HandoverCaution(IsDanger: true, Drivetrains.HighVoltageCaution));
        }

        if (fitted.Overlaps([PartKind.Fuse, PartKind.Amplifier, PartKind.Distribution, PartKind.Cable, PartKind.Lighting]))
        {
            cautions.Add(new HandoverCaution(IsDanger: true, Fuses));
        }

        if (fitted.Contains(PartKind.Battery))
        {
            cautions.Add(new HandoverCaution(IsDanger: true, Battery));
            // That a kind was not entered is for the shop, not for the client.
            cautions.AddRange(batteries.Where(battery => battery != WorkSafety.Battery(null)).Select(battery => new HandoverCaution(battery.IsDanger, $"{char.ToUpperInvariant(battery.Title[0])}{battery.Title[1..]}: {battery.Text}")));
        }

        if (fitted.Contains(PartKind.Capacitor))
        {
            cautions.Add(new HandoverCaution(IsDanger: true, WorkSafety.Capacitor));
        }

        if (fitted.Overlaps([PartKind.Amplifier, PartKind.Loudspeaker]))
        {
            cautions.Add(new HandoverCaution(IsDanger: false, Hearing));
            cautions.Add(new HandoverCaution(IsDanger: false, StandingStill));
        }

        if (fitted.Contains(PartKind.Lighting))
        {
            cautions.Add(new HandoverCaution(IsDanger: false, Lighting));
        }

        cautions.Add(new HandoverCaution(IsDanger: false, Loads));
        cautions.Add(new HandoverCaution(IsDanger: false, WorkSafety.MakersFirst));
        return cautions;
    }
}
