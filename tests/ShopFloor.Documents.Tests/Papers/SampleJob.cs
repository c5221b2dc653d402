using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Documents.Tests.Papers;

/// <summary>An invented job with everything a paper can show, and names in three alphabets.</summary>
internal static class SampleJob
{
    public const string GreekName = "Ελένη Παπαδοπούλου";
    public const string CyrillicName = "Ксения Щукина";

    public static Letterhead Letterhead { get; } = new("Oak Street Sound", ["12 Oak Street, Rivertown", "555 0140", "desk@oakstreet.example"], LetterPaper: false, UnitSystem.Metric, "Europe/Vienna");

    public static HandoverFacts Handover { get; } = new()
    {
        Letterhead = Letterhead,
        JobReference = "J-0042",
        JobTitle = "Clear voices, deep bass",
        ClientName = GreekName,
        Vehicle = new HandoverVehicle("2028 Verano Lince", "AB 123", "1M8GDM9AXKP042788", "Dark green", "Plug-in hybrid") { Body = BodyStyle.Estate },
        DeliveredOn = new DateOnly(2031, 3, 14),
        ReleaseNumber = 1,
        Overview = "Your car plays from the factory screen and from your phone through one new preset each.\nThe sound is set for the driver; a second preset is for four people.",
        Sources =
        [
            new SourceGuide("Factory radio", "Switch it on as before.\nTurn the small knob by the ashtray to 'Drive'.\nThe bass level is the lower ring."),
            new SourceGuide("Phone of Ксения", "Pair once with 'Lince'. After that it connects by itself when the ignition is on."),
            new SourceGuide("Files on a stick", ""),
        ],
        System =
        [
            new SystemGroup("Amplifiers", [new SystemPart("Five-channel amplifier", "1 pc", "Boot side, left: behind the panel", "Channels 5, Power per channel at 4 Ω 75 W, Class D, Maker's fuse, all together 60 A") { Zone = "boot-side-left" }]),
            new SystemGroup("Loudspeakers", [new SystemPart("Two-way loudspeakers 165 mm", "2 pc", "Front door, left", "Nominal size 165 mm, Nominal impedance per coil 4 Ω") { Zone = "front-door-left" }, new SystemPart("Subwoofer 250 mm", "1 pc", "Spare wheel well", "Nominal size 250 mm") { Zone = "spare-well" }]),
            new SystemGroup("Processors", [new SystemPart("Eight-channel processor", "1 pc", "Boot side, left: on the amplifier rack", "Inputs 6, Outputs 8")]),
        ],
        Fuses =
        [
            new FuseMapRow("Main fuse", 80, "High-current bolt-in", "Engine bay, left, 25 cm along the cable", "Main cable from the battery") { Zone = "engine-bay-left", RunId = "main", Distribution = "Distribution", EndsIn = "Boot floor, left" },
            new FuseMapRow("Branch fuse", 60, "High-current blade", "Boot floor, left", "Five-channel amplifier") { Zone = "boot-floor-left", RunId = "amplifier", FedByRunId = "main", EndsIn = "Boot side, left" },
            new FuseMapRow("Branch fuse", 7.5, "Blade", "Boot floor, left", "Eight-channel processor") { Zone = "boot-floor-left", RunId = "processor", FedByRunId = "main", EndsIn = "Boot side, left" },
        ],
        Access = [new AccessRow("Five-channel amplifier", "Boot side, left", "Pull the panel at the top edge, three clips."), new AccessRow("Main fuse", "Engine bay, left", "Lift the cover beside the battery.")],
        ServiceAccess = "The door panels come off with the factory screws; nothing was glued.",
        Settings = [new SettingFact("Eight-channel processor", "High-pass, front doors", "80 Hz"), new SettingFact("Eight-channel processor", "Delay, left", "1.2 ms"), new SettingFact("Five-channel amplifier", "Input sensitivity", "2 V")],
        Mass = new MassFact(23.4, 2, 480),
        Functions =
        [
            new FunctionFact("Driving aids", "Reversing camera", FunctionResult.Works, "", FunctionResult.Works, ""),
            new FunctionFact("Comfort", "Rear window heating", FunctionResult.Faulty, "Lower half cold", FunctionResult.Works, "A loose plug was found and pushed home."),
            new FunctionFact("Comfort", "Sunroof", FunctionResult.NotFitted, "", FunctionResult.NotTried, ""),
        ],
        Warranty = "Two years on our work. The makers' warranties on parts are with the parts' papers.",
        Care = "Clean the grilles with a soft brush.\nNo sprays near loudspeakers.",
        Measured =
        [
            new("Voltage at the amplifier under load", "V", "Engine idling", 13.52, 13.61, false, 13.1, 15, MeasuredVerdict.Within, "Tom Tech"),
            new("Current with the car asleep", "mA", "Locked", 61, 4.4, true, 0, 50, MeasuredVerdict.Outside, "Tom Tech"),
        ],
        Cautions =
        [
            new HandoverCaution(IsDanger: true, Drivetrains.HighVoltageCaution),
            new HandoverCaution(IsDanger: true, "Replace a fuse only by one of the same form and rating."),
            new HandoverCaution(IsDanger: false, "This system can play loud enough to harm hearing for good."),
        ],
    };

    public static EstimatePaper Estimate { get; } = new(
        Letterhead, "J-0042", "Clear voices, deep bass", CyrillicName, "3 Mill Lane, Rivertown", "2028 Verano Lince", "AB 123", Guid.Empty, 2, "EUR",
        [
            new EstimateLine("Amplifiers", "Five-channel amplifier", 1, "pc", 749.90m, 749.90m, false, Guid.Empty),
            new EstimateLine("Cables", "Supply cable 4 AWG", 5.5m, "m", 12.35m, 67.93m, false, Guid.Empty),
            new EstimateLine("Work", "Wiring", 7.5m, "h", 85, 637.50m, true, Guid.Empty),
        ],
        19, 1455.33m, 276.51m, 1731.84m, "As talked over on Monday.", EstimateState.Issued, new DateTimeOffset(2031, 3, 3, 9, 0, 0, TimeSpan.Zero), "", null, new string('a', 64));

    public static TravellerFacts Traveller { get; } = new(
        Letterhead, Guid.Empty, "J-0042", "Clear voices, deep bass", GreekName, "2028 Verano Lince", "AB 123", "1M8GDM9AXKP042788", "Dark green", "Plug-in hybrid", HighVoltage: true,
        new DateOnly(2031, 3, 14), 2, 81_200, "Clear voices, bass I can feel, and nothing to be seen.",
        ["Nothing of the car is cut or drilled.", "Leased vehicle: everything has to go back to how it was."],
        "Child seat, parking card",
        [
            new TravellerStage("Strip the interior", 3, [new TravellerStep("Photograph every plug before it is pulled", true, true, false, "", "", true), new TravellerStep("Bag and label the screws", true, false, false, "", "", false)]),
            new TravellerStage("Power supply", 4.5m, [new TravellerStep("Torque the battery terminal", true, false, true, "Torque", "4 to 6 Nm", false), new TravellerStep("Check the closed-circuit current", true, false, false, "Current when switched off", "at most 50 mA", false), new TravellerStep("Second battery", false, false, false, "", "", false)]),
        ]);

    public static CheckInFacts CheckIn { get; } = new(
        Letterhead, "J-0042", "Clear voices, deep bass", new DateTimeOffset(2031, 3, 3, 8, 0, 0, TimeSpan.Zero), CyrillicName, "555 0100", "kseniya@client.example", "2028 Verano Lince", "AB 123", "1M8GDM9AXKP042788", "Dark green", BodyStyle.Estate,
        81_200, 2, 12.6, 55, NoWarningLights: false, ["Tyre pressure"], "Child seat, parking card", "The left mirror folds slowly.", "Clear voices, bass I can feel.",
        [new CheckInMark(1, ConditionKind.Scratch, 0.32, 0.84, "Left front door", "12 cm, to the primer"), new CheckInMark(2, ConditionKind.Dent, 0.55, 0.45, "Roof", ""), new CheckInMark(4, ConditionKind.Missing, 0.9, 0.45, "Rear", "Cap of the towing eye")],
        [new CheckInFunction("Driving aids", "Reversing camera", FunctionResult.Works, ""), new CheckInFunction("Comfort", "Rear window heating", FunctionResult.Faulty, "Lower half cold")],
        [], "The car is kept indoors at night. We drive it only as far as the work needs.",
        CyrillicName, "M40 120L90 60L130 140L190 50L240 130L300 70L360 120", new DateTimeOffset(2031, 3, 3, 8, 20, 0, TimeSpan.Zero), "Dora Desk");
}
