using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Values used when nothing was entered, each with where it comes from. All of them are shown with the result.</summary>
public static class ElectricalDefaults
{
    /// <summary>Label of a value recalled without the text of its source at hand.</summary>
    public const string FromMemory = "from memory; use the maker's data";

    /// <summary>Label of the short-circuit current a form of fuse interrupts.</summary>
    public const string InterruptSource = "from memory; look at the maker's figure";

    /// <summary>Charging voltage of a 12 V vehicle, V. Common practice, no source.</summary>
    public const double SupplyVolts = 13.8;

    /// <summary>
    /// Crest factor of typical music, dB: 9 dB below a full sine, the one-eighth power at which amplifiers are preconditioned
    /// (16 CFR 432.3) or loaded (EN 60065:1993, 4.2.6).
    /// </summary>
    public const double CrestFactorDecibels = 12;

    /// <summary>Idle current of one amplifier, A: most car amplifiers draw 1 to 2 A. Common practice, no source.</summary>
    public const double IdleAmperes = 1.5;

    /// <summary>Continuous load as a share of the fuse rating. Handbook practice is 0.75 to 0.80 (fuse makers' selection guides).</summary>
    public const double ContinuousLoading = 0.80;

    /// <summary>Voltage drop allowed from battery to load and back, percent: ABYC E-11 uses 3 % for electronics.</summary>
    public const double MaxDropPercent = 3;

    /// <summary>Insulation class, °C: plain PVC vehicle cable (SAE J1127 SGT, SAE J1128 GPT) is an 80 °C class. From memory.</summary>
    public const double InsulationCelsius = 80;

    /// <summary>Ambient, °C: a closed car in the sun. Common practice, no source.</summary>
    public const double AmbientCelsius = 50;

    /// <summary>Resistance of the vehicle body with its two bolted joints, Ω. From memory; measure it.</summary>
    public const double BodyReturnOhms = 0.001;

    /// <summary>Alternator output at engine idle as a share of its rating, range 0.3 to 0.55. From memory.</summary>
    public const double AlternatorIdleFraction = 0.4;

    /// <summary>Hot alternator output at cruise as a share of its rating. From memory.</summary>
    public const double AlternatorHotFraction = 0.85;

    /// <summary>What the vehicle itself draws with lights and fan on, A. From memory; measure it.</summary>
    public const double VehicleBaseAmperes = 35;

    /// <summary>Efficiency at rated output when the data sheet gives none.</summary>
    /// <remarks>
    /// A 0.25 is the textbook limit of a resistively loaded stage; AB 0.50 and D 0.80 are cautious values inside published ranges
    /// (AB 0.50 to 0.65, D 0.75 to 0.90, common practice); G/H 0.65 is from memory.
    /// </remarks>
    /// <param name="amplifierClass">Output stage.</param>
    public static double Efficiency(AmplifierClass amplifierClass) => amplifierClass switch
    {
        AmplifierClass.A => 0.25,
        AmplifierClass.AB => 0.50,
        AmplifierClass.D => 0.80,
        AmplifierClass.GH => 0.65,
        _ => throw new ArgumentOutOfRangeException(nameof(amplifierClass)),
    };

    /// <summary>Where a value comes from that has its default when nothing was entered.</summary>
    internal static string Origin(double value, double standard, string source) => value == standard ? $"default: {source}" : "entered";

    internal static string EfficiencyOrigin(AmplifierClass amplifierClass) => amplifierClass switch
    {
        AmplifierClass.A => "default: textbook limit of class A",
        AmplifierClass.GH => $"default: {FromMemory}",
        _ => $"default: {Unsourced.CommonPractice}",
    };
}
