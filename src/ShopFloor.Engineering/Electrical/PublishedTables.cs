using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Ampacity tables shipped with the program. Only public-domain texts are shipped whole.</summary>
public static class PublishedTables
{
    /// <summary>33 CFR 183.425, table 5 with notes 1 and 2 (US federal regulation, public domain).</summary>
    public static AmpacityTable Cfr33Part183425 { get; } = new()
    {
        Name = "33 CFR 183.425 table 5",
        Source = "33 CFR 183.425, table 5, notes 1 and 2",
        Statement = "Written for boats with inboard gasoline engines; used here as a published DC table. "
            + "The vehicle maker's wiring rules and local codes come first.",
        // The regulation prints no ambient; 30 °C is the basis ABYC E-11 states for the same values.
        AmbientCelsius = 30,
        InsulationCelsius = [60, 75, 80, 90, 105, 125, 200],
        EngineSpaceFactors = [0.58, 0.75, 0.78, 0.82, 0.85, 0.89, 1.00],
        EngineSpaceAmbientCelsius = 50,
        BundlingFactors = [new(3, 0.70), new(4, 0.60), new(7, 0.50), new(25, 0.40)],
        BundlingStatement = "33 CFR 183.435(b) binds note 2 only from 50 V up; below that it is shown as good practice.",
        FuseCeilingRatio = 1.5,
        FuseCeilingSource = "33 CFR 183.455(c)(1): below 50 V not above 150 % of table 5",
        MinimumAreaSquareMillimeters = WireGauge.AreaSquareMillimeters(16),
        MinimumSheathedAreaSquareMillimeters = WireGauge.AreaSquareMillimeters(18),
        MinimumAreaSource = "33 CFR 183.425: 16 AWG as a separate conductor, 18 AWG inside a sheath",
        Rows =
        [
            Row(18, 10, 10, 15, 20, 20, 25, 25),
            Row(16, 15, 15, 20, 25, 25, 30, 35),
            Row(14, 20, 20, 25, 30, 35, 40, 45),
            Row(12, 25, 25, 35, 40, 45, 50, 55),
            Row(10, 40, 40, 50, 55, 60, 70, 70),
            Row(8, 55, 65, 70, 70, 80, 90, 100),
            Row(6, 80, 95, 100, 100, 120, 125, 135),
            Row(4, 105, 125, 130, 135, 160, 170, 180),
            Row(3, 120, 145, 150, 155, 180, 195, 210),
            Row(2, 140, 170, 175, 180, 210, 225, 240),
            Row(1, 165, 195, 210, 210, 245, 265, 280),
            Row(0, 195, 230, 245, 245, 285, 305, 325),
            Row(-1, 225, 265, 285, 285, 330, 355, 370),
            Row(-2, 260, 310, 330, 330, 385, 410, 430),
            Row(-3, 300, 360, 385, 385, 445, 475, 510),
        ],
    };

    /// <summary>FAA AC 43.13-1B table 11-9, 105 °C column: wires in a bundle at 70 °C ambient (public domain). For harsh routes.</summary>
    public static AmpacityTable FaaAc43Table119Bundled { get; } = new()
    {
        Name = "FAA AC 43.13-1B table 11-9, bundled",
        Source = "FAA AC 43.13-1B, table 11-9, 105 °C",
        Statement = "Written for aircraft: bundles of 33 and more wires (24 to 10 AWG) or 9 wires (8 AWG and thicker) that carry no more than 20 % "
            + "of their load at once, 70 °C ambient. The bundle is in the figures already. Far lower than a wire on its own: for harsh routes.",
        AmbientCelsius = 70,
        InsulationCelsius = [105],
        EngineSpaceAmbientCelsius = 70,
        BundlingStatement = "The figures are for bundles; no further factor is applied.",
        FuseCeilingSource = "FAA AC 43.13-1B, chapter 11: the protector opens before the rating of the wire is exceeded",
        MinimumAreaSquareMillimeters = WireGauge.AreaSquareMillimeters(22),
        MinimumSheathedAreaSquareMillimeters = WireGauge.AreaSquareMillimeters(22),
        MinimumAreaSource = "thinnest wire used of FAA AC 43.13-1B, table 11-9",
        Rows =
        [
            Row(22, 3), Row(20, 4), Row(18, 6), Row(16, 7), Row(14, 10), Row(12, 13), Row(10, 17), Row(8, 38), Row(6, 50),
            Row(4, 68), Row(2, 95), Row(1, 113), Row(0, 128), Row(-1, 147), Row(-2, 172), Row(-3, 204),
        ],
    };

    /// <summary>Tables that can be chosen as they are, the usual one first.</summary>
    public static IReadOnlyList<AmpacityTable> All { get; } = [Cfr33Part183425, FaaAc43Table119Bundled];

    private static AmpacityRow Row(int awg, params double[] amperes) => new(ConductorSize.Awg(awg), amperes);
}
