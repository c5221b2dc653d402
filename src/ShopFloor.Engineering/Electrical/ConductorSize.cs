using ShopFloor.Engineering.Electrical.Conductors;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>A stranded conductor of one size, copper unless its material says otherwise.</summary>
/// <remarks>
/// Cable marked with an SAE size is not the AWG size of the same number: it has 5 to 12 % less copper
/// (<see cref="SaeAreaSquareMillimeters"/>). Nor is a nominal metric size its neighbour gauge. Compare areas, never names.
/// </remarks>
/// <param name="Label">How the size is written, for example "4 AWG".</param>
/// <param name="AreaSquareMillimeters">Cross-section of the metal, mm²; the nominal one for metric sizes.</param>
/// <param name="SaeAreaSquareMillimeters">Cross-section of SAE wire of the same number, mm², or null when not tabulated.</param>
public sealed record ConductorSize(string Label, double AreaSquareMillimeters, double? SaeAreaSquareMillimeters = null)
{
    // Circular mils of SAE wire by gauge number, as tabulated in ABYC E-11.
    private static readonly Dictionary<int, double> _saeCircularMils = new()
    {
        [18] = 1537, [16] = 2336, [14] = 3702, [12] = 5833, [10] = 9343, [8] = 14810, [6] = 24538, [4] = 37360,
        [2] = 62450, [1] = 77790, [0] = 98980, [-1] = 125100, [-3] = 205500,
    };

    /// <summary>What the size refers to.</summary>
    public SizeSystem SizeSystem { get; init; } = SizeSystem.Other;

    /// <summary>What it is made of.</summary>
    public ConductorMaterial Material { get; init; } = ConductorMaterial.AnnealedCopper;

    /// <summary>Resistance at 20 °C as its standard or maker tabulates it, stranding included, Ω/m; null computes it from area and material.</summary>
    public double? TabulatedOhmsPerMeterAt20Celsius { get; init; }

    /// <summary>Where area and resistance come from.</summary>
    public string Source { get; init; } = "resistance: International Annealed Copper Standard with 2 % for stranding";

    /// <summary>Gauge sizes 18 to 4/0 AWG, thinnest first.</summary>
    public static IReadOnlyList<ConductorSize> Gauges { get; } =
        [.. new[] { 18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3 }.Select(Awg)];

    /// <summary>Labels of the sizes the trade usually keeps, thinnest first. Common practice, no source.</summary>
    public static IReadOnlyList<string> CommonlyStocked { get; } =
        [.. new[] { 18, 16, 14, 12, 10, 8, 6, 4, 2, 0, -1, -3 }.Select(WireGauge.Label)];

    /// <summary>Diameter of a solid conductor of this area, mm.</summary>
    public double SolidDiameterMillimeters => Math.Sqrt(4 * AreaSquareMillimeters / Math.PI);

    /// <summary>Resistance at 20 °C, Ω/m: the tabulated one, or that of material and area with the stranding allowance.</summary>
    public double OhmsPerMeterAt20Celsius => TabulatedOhmsPerMeterAt20Celsius
        ?? Copper.StrandingFactor * Material.OhmSquareMillimetersPerMeter / AreaSquareMillimeters;

    /// <summary>
    /// Cross-section of stranded copper of the same resistance at 20 °C, mm², and never more than the nominal one. Sizes of different
    /// systems and materials are compared by it.
    /// </summary>
    public double EquivalentCopperSquareMillimeters => Math.Min(
        AreaSquareMillimeters, Copper.StrandingFactor * Copper.OhmSquareMillimetersPerMeter / OhmsPerMeterAt20Celsius);

    /// <summary>Mass of the metal with the stranding allowance, kg/m; of a metric size by its nominal cross-section, which errs on the heavy side.</summary>
    public double CopperKilogramsPerMeter =>
        Copper.StrandingFactor * AreaSquareMillimeters * 1e-6 * Material.KilogramsPerCubicMeter;

    /// <summary>
    /// Mass of insulation, kg/m. An estimate, from memory: PVC of 1350 kg/m³, wall 0.8 mm plus 6 % of the strand bundle,
    /// which is 1.15 times the solid diameter.
    /// </summary>
    public double InsulationKilogramsPerMeterEstimate
    {
        get
        {
            var bundle = 1.15 * SolidDiameterMillimeters;
            var wall = 0.8 + 0.06 * bundle;
            return Math.PI * (bundle + wall) * wall * 1e-6 * 1350;
        }
    }

    /// <summary>Resistance at a conductor temperature, Ω/m.</summary>
    /// <param name="celsius">Conductor temperature, °C.</param>
    public double OhmsPerMeter(double celsius) => OhmsPerMeterAt20Celsius * Material.ResistanceFactor(celsius);

    /// <summary>The conductor of a gauge number, area by ASTM B258.</summary>
    /// <param name="awg">Gauge number, −3 (4/0) to 40.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="awg"/> is outside −3 to 40.</exception>
    public static ConductorSize Awg(int awg) => new(
        WireGauge.Label(awg),
        WireGauge.AreaSquareMillimeters(awg),
        _saeCircularMils.TryGetValue(awg, out var mils) ? mils * WireGauge.SquareMillimetersPerCircularMil : null)
    {
        SizeSystem = SizeSystem.Awg,
        Source = "area: ASTM B258; resistance: International Annealed Copper Standard with 2 % for stranding",
    };
}
