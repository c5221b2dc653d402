using System.Text.Json.Serialization;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Restraint;

/// <summary>Metric coarse threads.</summary>
public enum CoarseThread
{
    /// <summary>M4.</summary>
    M4,

    /// <summary>M5.</summary>
    M5,

    /// <summary>M6.</summary>
    M6,

    /// <summary>M8.</summary>
    M8,

    /// <summary>M10.</summary>
    M10,

    /// <summary>M12.</summary>
    M12,
}

/// <summary>Property classes of steel bolts, as stamped on the head.</summary>
public enum BoltClass
{
    /// <summary>4.8; also a head without a stamp.</summary>
    Class48,

    /// <summary>5.8.</summary>
    Class58,

    /// <summary>8.8.</summary>
    Class88,

    /// <summary>10.9.</summary>
    Class109,
}

/// <summary>What a fastener goes into.</summary>
public enum HeldIn
{
    /// <summary>Body sheet, without anything behind it.</summary>
    SheetMetal,

    /// <summary>Sheet with a large washer or backing plate behind it.</summary>
    BackedSheet,

    /// <summary>Wood or board.</summary>
    Wood,

    /// <summary>A threaded point of the vehicle, such as a seat bolt.</summary>
    VehiclePoint,
}

/// <summary>Grades of neodymium magnets by the temperature they stand.</summary>
public enum MagnetGrade
{
    /// <summary>N without a letter, 80 °C.</summary>
    N,

    /// <summary>M, 100 °C.</summary>
    M,

    /// <summary>H, 120 °C.</summary>
    H,

    /// <summary>SH, 150 °C.</summary>
    SH,

    /// <summary>UH, 180 °C.</summary>
    UH,
}

/// <summary>Kind of fastener and what one of it bears.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(BoltHold), "bolt")]
[JsonDerivedType(typeof(MagnetHold), "magnet")]
[JsonDerivedType(typeof(RatedHold), "rated")]
public abstract record Hold
{
    /// <summary>Pull one bears along its axis, N.</summary>
    [JsonIgnore]
    public abstract double TensionNewtons { get; }

    /// <summary>Force one bears across, N.</summary>
    [JsonIgnore]
    public abstract double ShearNewtons { get; }

    internal abstract string Source { get; }

    private protected abstract void Check(InputChecks checks, string path);

    internal void CheckInto(InputChecks checks, string path) => Check(checks, path);
}

/// <summary>A bolt by its thread and class: proof load in tension, 0.6 of it in shear.</summary>
/// <remarks>
/// ISO 898-1: nominal stress areas M4 8.78, M5 14.2, M6 20.1, M8 36.6, M10 58.0, M12 84.3 mm²; stress under proof load 310, 380, 580 and 830
/// MPa for 4.8, 5.8, 8.8 and 10.9. 0.6 for shear: common practice, no source. Friction under the head is left out.
/// </remarks>
public sealed record BoltHold : Hold
{
    /// <summary>Thread.</summary>
    public required CoarseThread Thread { get; init; }

    /// <summary>Class on its head.</summary>
    public BoltClass Class { get; init; } = BoltClass.Class88;

    /// <summary>What it goes into.</summary>
    public HeldIn In { get; init; }

    /// <summary>Nominal stress area, m² (ISO 898-1).</summary>
    [JsonIgnore]
    public double StressSquareMeters => 1e-6 * Thread switch
    {
        CoarseThread.M4 => 8.78,
        CoarseThread.M5 => 14.2,
        CoarseThread.M6 => 20.1,
        CoarseThread.M8 => 36.6,
        CoarseThread.M10 => 58.0,
        _ => 84.3,
    };

    /// <inheritdoc/>
    [JsonIgnore]
    public override double TensionNewtons => StressSquareMeters * 1e6 * Class switch
    {
        BoltClass.Class48 => 310,
        BoltClass.Class58 => 380,
        BoltClass.Class88 => 580,
        _ => 830,
    };

    /// <inheritdoc/>
    [JsonIgnore]
    public override double ShearNewtons => 0.6 * TensionNewtons;

    internal override string Source => "ISO 898-1 proof load; shear 0.6 of it: common practice, no source";

    private protected override void Check(InputChecks checks, string path)
    {
        checks.Known($"{path}.{nameof(Thread)}", "Thread", Thread);
        checks.Known($"{path}.{nameof(Class)}", "Class of the bolt", Class);
        checks.Known($"{path}.{nameof(In)}", "What it goes into", In);
    }
}

/// <summary>A magnet on steel by its rated pull.</summary>
/// <remarks>
/// Remanence of neodymium falls 0.11 % for each kelvin and the pull follows its square (from memory). A gap under a plain disc: square of the
/// field on its axis, Br/2·((L + g)/√(R² + (L + g)²) − g/√(R² + g²)), over that without a gap. On painted steel it slides at a fifth of its pull
/// (common practice, no source). Highest temperatures of the grades: from memory.
/// </remarks>
public sealed record MagnetHold : Hold
{
    /// <summary>Rated pull on thick bare steel at 20 °C, N (0.1 to 5000).</summary>
    public required double PullNewtons { get; init; }

    /// <summary>Share of the pull at which it slides (0.02 to 0.6).</summary>
    public double ShearShare { get; init; } = 0.2;

    /// <summary>Warmest it gets, °C (−40 to 200).</summary>
    public double Celsius { get; init; } = 70;

    /// <summary>Grade.</summary>
    public MagnetGrade Grade { get; init; }

    /// <summary>Gap by paint, felt or carpet, m (0 to 0.02).</summary>
    public double GapMeters { get; init; }

    /// <summary>Diameter of a plain disc, m (0.002 to 0.1), for the gap.</summary>
    public double? DiameterMeters { get; init; }

    /// <summary>Thickness of a plain disc, m (0.001 to 0.05), for the gap.</summary>
    public double? ThicknessMeters { get; init; }

    /// <summary>Share of the pull measured over the gap (0.001 to 1), for magnets in a cup; goes before diameter and thickness.</summary>
    public double? GapShare { get; init; }

    /// <summary>Highest temperature of the grade, °C.</summary>
    [JsonIgnore]
    public double MostCelsius => Grade switch { MagnetGrade.N => 80, MagnetGrade.M => 100, MagnetGrade.H => 120, MagnetGrade.SH => 150, _ => 180 };

    /// <summary>Share of the pull left by temperature.</summary>
    [JsonIgnore]
    public double WarmShare => Math.Pow(1 - 0.0011 * Math.Max(0, Celsius - 20), 2);

    /// <summary>Share of the pull left by the gap.</summary>
    [JsonIgnore]
    public double OverGapShare => GapShare ?? (GapMeters == 0 ? 1 : Math.Pow(Field(GapMeters) / Field(0), 2));

    /// <inheritdoc/>
    [JsonIgnore]
    public override double TensionNewtons => PullNewtons * WarmShare * OverGapShare;

    /// <inheritdoc/>
    [JsonIgnore]
    public override double ShearNewtons => ShearShare * TensionNewtons;

    internal override string Source => "rated pull; temperature and gap: from memory; sliding share: common practice, no source";

    private double Field(double gap)
    {
        var (radius, length) = (DiameterMeters!.Value / 2, ThicknessMeters!.Value); // demanded with a gap
        return (length + gap) / Math.Sqrt(radius * radius + (length + gap) * (length + gap)) - gap / Math.Sqrt(radius * radius + gap * gap);
    }

    private protected override void Check(InputChecks checks, string path)
    {
        checks.InRange($"{path}.{nameof(PullNewtons)}", "Pull in N", PullNewtons, 0.1, 5_000);
        checks.InRange($"{path}.{nameof(ShearShare)}", "Share at which it slides", ShearShare, 0.02, 0.6);
        checks.InRange($"{path}.{nameof(Celsius)}", "Warmest", Celsius, -40, 200, QuantityKind.Temperature);
        checks.Known($"{path}.{nameof(Grade)}", "Grade", Grade);
        checks.InRange($"{path}.{nameof(GapMeters)}", "Gap", GapMeters, 0, 0.02, QuantityKind.SmallLength);
        checks.InRange($"{path}.{nameof(DiameterMeters)}", "Diameter of the disc", DiameterMeters, 0.002, 0.1, QuantityKind.SmallLength);
        checks.InRange($"{path}.{nameof(ThicknessMeters)}", "Thickness of the disc", ThicknessMeters, 0.001, 0.05, QuantityKind.SmallLength);
        checks.InRange($"{path}.{nameof(GapShare)}", "Share of the pull over the gap", GapShare, 0.001, 1);
        if (GapMeters > 0 && GapShare is null && (DiameterMeters is null || ThicknessMeters is null))
            checks.Add($"{path}.{nameof(GapShare)}", "Share of the pull over the gap: nothing was entered; measure it, or enter diameter and thickness of a plain disc.");
    }
}

/// <summary>A bracket, insert, strap or hook by what its maker or a pull test says.</summary>
public sealed record RatedHold : Hold
{
    /// <summary>Pull one bears, N (1 to 200,000).</summary>
    public required double RatedTensionNewtons { get; init; }

    /// <summary>Force across one bears, N (1 to 200,000).</summary>
    public required double RatedShearNewtons { get; init; }

    /// <inheritdoc/>
    [JsonIgnore]
    public override double TensionNewtons => RatedTensionNewtons;

    /// <inheritdoc/>
    [JsonIgnore]
    public override double ShearNewtons => RatedShearNewtons;

    internal override string Source => "entered rating";

    private protected override void Check(InputChecks checks, string path)
    {
        checks.InRange($"{path}.{nameof(RatedTensionNewtons)}", "Rated pull in N", RatedTensionNewtons, 1, 200_000);
        checks.InRange($"{path}.{nameof(RatedShearNewtons)}", "Rated force across in N", RatedShearNewtons, 1, 200_000);
    }
}
