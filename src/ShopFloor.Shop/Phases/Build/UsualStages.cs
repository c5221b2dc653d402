using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Safety;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>
/// The stages a shop starts with until it has its own. Order, steps and limits are common practice in the trade, no published source;
/// the shop changes them in its own templates.
/// </summary>
public static class UsualStages
{
    public const string Name = "Usual stages";

    /// <summary>A rested 12 V lead-acid battery between about half and full charge. From memory; the battery maker's table decides.</summary>
    private static readonly StepMeasure RestingVoltage = new("Battery voltage at rest", "V", 12.2, 13.0);

    /// <summary>What a hybrid or electric vehicle asks for before anything is taken apart.</summary>
    public static readonly TemplateStep HighVoltageStep = new(WorkSafety.HighVoltageStep, NeedsSecondPerson: true, HighVoltageOnly: true);

    public static IReadOnlyList<TemplateStage> Stages { get; } =
    [
        new("Check-in", JobPhase.Intake, 1,
        [
            Step("Compare condition marks with the car while the client is there, lights on"),
            Photo("Photos all round, dashboard with ignition on, luggage space"),
            Step("Try every factory function on the list and write down what does not work"),
            Measured("Measure the battery after the car has rested (limits are common practice for a 12 V lead-acid battery)", RestingVoltage),
            Step("Keys labelled and hung up, belongings bagged and noted, mats and covers protected"),
        ]),
        new("Teardown", JobPhase.Build, 3,
        [
            HighVoltageStep,
            Step(WorkSafety.Forgetful),
            Step(WorkSafety.MemorySaver),
            Step(WorkSafety.Disconnect),
            Step(WorkSafety.RestraintWait),
            Step("Airbag and curtain routes looked up in the maker's instructions and marked; no tool, screw or cable crosses them"),
            Photo("Photo of every panel, plug and clip before it comes off"),
            Step("Fasteners bagged and labelled by panel; panels stored off the floor"),
            Optional("Broken clips and old repairs reported as found problems"),
        ]),
        new("Treatment", JobPhase.Build, 4,
        [
            Step("Eye protection, gloves and a mask that fits the cleaner; doors open or extraction on"),
            Photo("Sheet metal clean, dry and free of grease; rust treated and shown"),
            Step("Drain holes, window runs, airbag sensors and wiring left free"),
            Photo("Damping and sealing finished, rolled down to the edges"),
            Optional("Weight of the material used written down as a remark"),
        ]),
        new("Cabling", JobPhase.Build, 6,
        [
            Photo("Main run laid by the electrical plan: grommet at every metal edge, away from fuel, brake lines, exhaust and airbag routes"),
            Step($"Run clipped at least every 300 mm and free of strain (spacing is {Unsourced.CommonPractice})"),
            Step("Main fuse holder mounted close to the battery, fuse still OUT"),
            Photo("Ground point on bare metal, bolted, sealed against rust; not a seat-belt or airbag bolt"),
            Step("Signal and speaker cables named at both ends, by the channel map"),
            Step("Polarity of every supply run confirmed with the meter before anything is plugged in", secondPerson: true),
        ]),
        new("Fabrication", JobPhase.Build, 10,
        [
            Step("Dust: extraction on, mask on. Resin: gloves, eye protection, air; hardener measured, rags into the metal bin with water"),
            Step("Hearing protection at saw and router; no loose sleeves or gloves at turning blades"),
            Step("Before drilling or cutting the car: both sides looked at, tank, lines, airbags and cables out of the way", secondPerson: true),
            Step("Parts cut by the cut list and dry-fitted in the car"),
            Photo("Enclosure braced and sealed, shown open before the last panel goes on"),
            Step("Enclosure tight: no hiss at the joints with a slow push on the cone"),
        ]),
        new("Finishing", JobPhase.Build, 5,
        [
            Step("Spray adhesive and lacquer only with extraction and a vapour mask; nothing that sparks nearby"),
            Step("Edges filled and sanded; grain, colour and stitching as the client approved"),
            Photo("Finished surfaces under shop light, no wrinkles, runs or glue marks"),
        ]),
        new("Fitting", JobPhase.Build, 6,
        [
            Photo("Heavy parts bolted to the body as the restraint plan says, load spread by plates; nothing held by carpet or screws in wood alone"),
            Step("Amplifiers and processor fitted with air around them and their plugs within reach"),
            Step("Speakers fitted; every screw checked for what lies behind it; windows wound down and up"),
            Step("Plugs of airbags and belts plugged in and locked before the battery is connected"),
            Photo("Cables at the devices strain-relieved, screens and ends insulated"),
        ]),
        new("Commissioning", JobPhase.Build, 2,
        [
            Step(WorkSafety.Reconnect),
            Step("Main fuse fitted last, rating as in the electrical plan, polarity confirmed once more by a second person", secondPerson: true),
            Step("Branch by branch: fuse in, device on, no smell, no heat, no warning light"),
            Step("Every channel plays from the speaker the channel map names, in polarity"),
            Step(WorkSafety.Relearn),
        ], IsCommissioning: true),
        new("Tuning", JobPhase.Tuning, 5,
        [
            Step("Hearing protection ready; sweeps begin quiet, nobody's ear near a speaker"),
            Step("Levels set without clipping, noise floor quiet with the engine running"),
            Step("Crossovers, delays and equalisation typed in from the preset sheet, and that version marked as the one in the car"),
            Step("Listened to with the client's own source and music"),
            Photo("Settings saved in the processor and backed up"),
        ]),
        new("Quality check", JobPhase.Handover, 2,
        [
            Step("Every factory function tried again against the check-in list", secondPerson: true),
            Step("Test drive: no rattle, no whine with the engine speed, no warning light"),
            Step("Bolts of seats, belts and heavy parts tightened to the maker's values and marked", secondPerson: true),
            Photo("Car clean inside, nothing of ours left in it; finished photos taken"),
            Measured("Battery charged and rested before delivery (limits are common practice for a 12 V lead-acid battery)", RestingVoltage),
        ]),
        new("Delivery", JobPhase.Handover, 1,
        [
            Step("Where the main fuse is and how to switch off in an emergency shown to the client"),
            Step("Controls, source presets and volume limits shown; hearing: long loud listening harms for good"),
            Step("Handover document, warranty and care gone through"),
            Step("Keys, belongings and removed parts given back"),
        ]),
    ];

    private static TemplateStep Step(string text, bool secondPerson = false) => new(text, NeedsSecondPerson: secondPerson);

    private static TemplateStep Optional(string text) => new(text, Required: false);

    private static TemplateStep Photo(string text) => new(text, NeedsPhoto: true);

    private static TemplateStep Measured(string text, StepMeasure measure) => new(text, Measure: measure);
}
