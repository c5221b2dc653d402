using System.Globalization;
using System.Text.Json.Serialization;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Phases.Design;

public enum EnclosureKind
{
    Closed,
    Vented,
    PassiveRadiator,
    BandPass,
}

public enum PortShape
{
    Round,
    Slot,
}

/// <summary>What lies in the box to take up sound.</summary>
public enum BoxFilling
{
    None,
    LinedWalls,
    FilledWhole,
}

/// <summary>One way to build a box.</summary>
public sealed record BoxAlternative
{
    public const int MostFilters = 12;

    public EnclosureKind Kind { get; set; }

    public double NetCubicMeters { get; set; } = 0.03;

    /// <summary>Box before the driver, of a band-pass.</summary>
    public double FrontCubicMeters { get; set; } = 0.02;

    public double TuningHertz { get; set; } = 35;

    public PortShape PortShape { get; set; }

    public double PortDiameterMeters { get; set; } = 0.1;

    public double SlotWidthMeters { get; set; } = 0.3;

    public double SlotHeightMeters { get; set; } = 0.03;

    public int Ports { get; set; } = 1;

    public bool PortFlared { get; set; }

    public int Radiators { get; set; } = 1;

    /// <summary>Resonance of the radiator in free air without added weight, Hz.</summary>
    public double RadiatorHertz { get; set; } = 20;

    public double RadiatorKilograms { get; set; } = 0.15;

    public double RadiatorAddedKilograms { get; set; }

    public double RadiatorSquareMeters { get; set; } = 0.033;

    public double RadiatorQms { get; set; } = 8;

    public double? RadiatorXmaxMeters { get; set; }

    /// <summary>Null takes 7 with an opening and none without.</summary>
    public double? LeakQ { get; set; }

    public BoxFilling Filling { get; set; }

    /// <summary>Null takes what is set on the loudspeaker.</summary>
    public double? HighPassHertz { get; set; }

    public int HighPassOrder { get; set; } = 4;

    /// <summary>Filters of the channel beside high-pass and low-pass: shelves and bells.</summary>
    public List<BoxFilterRow> Filters { get; set; } = [];

    /// <summary>Null takes what is set on the loudspeaker.</summary>
    public double? LowPassHertz { get; set; }

    public int LowPassOrder { get; set; } = 4;

    /// <summary>Takes the place of high-pass, low-pass and filters above; null while they are typed.</summary>
    public TunedFilters? Tuned { get; set; }

    [JsonIgnore]
    public bool HasPort => Kind is EnclosureKind.Vented or EnclosureKind.BandPass;

    /// <summary>Cross-section of all ports, m².</summary>
    [JsonIgnore]
    public double PortSquareMeters => Ports * (PortShape == PortShape.Round ? Math.PI * PortDiameterMeters * PortDiameterMeters / 4 : SlotWidthMeters * SlotHeightMeters);

    /// <summary>A copy whose filters are its own.</summary>
    public BoxAlternative Copy() => this with { Filters = [.. Filters.Select(row => row with { })] };

    public void AddProblems(Check check, int index)
    {
        var name = "Alternative " + EnclosureForm.Letter(index);
        string Field(string field) => string.Create(CultureInfo.InvariantCulture, $"{nameof(EnclosureForm.Alternatives)}[{index}].{field}");
        check
            .Range(NetCubicMeters * 1000, Field(nameof(NetCubicMeters)), $"{name}: the net volume", 0.1, 2_000, "l")
            .Range(TuningHertz, Field(nameof(TuningHertz)), $"{name}: the tuning", 10, 200, "Hz")
            .Range(Ports, Field(nameof(Ports)), $"{name}: the number of ports", 1, 8, "")
            .Range(LeakQ, Field(nameof(LeakQ)), $"{name}: the Q of leaks", 1, 1_000, "")
            .Range(HighPassHertz, Field(nameof(HighPassHertz)), $"{name}: the high-pass", 5, 500, "Hz")
            .Range(HighPassOrder, Field(nameof(HighPassOrder)), $"{name}: the order of the high-pass", 1, 8, "")
            .Range(LowPassHertz, Field(nameof(LowPassHertz)), $"{name}: the low-pass", 20, 20_000, "Hz")
            .Range(LowPassOrder, Field(nameof(LowPassOrder)), $"{name}: the order of the low-pass", 1, 8, "")
            .That(Filters.Count <= MostFilters, Field(nameof(Filters)), string.Create(CultureInfo.CurrentCulture, $"{name}: there are {Filters.Count} filters; accepted is up to {MostFilters}."));
        for (var n = 0; n < Filters.Count; n++)
        {
            Filters[n].AddProblems(check, Field(string.Create(CultureInfo.InvariantCulture, $"{nameof(Filters)}[{n}]")), string.Create(CultureInfo.CurrentCulture, $"{name}, filter {n + 1}"));
        }

        if (Kind == EnclosureKind.BandPass)
        {
            check.Range(FrontCubicMeters * 1000, Field(nameof(FrontCubicMeters)), $"{name}: the front volume", 0.1, 2_000, "l");
        }

        if (HasPort)
        {
            check
                .Range(PortDiameterMeters * 1000, Field(nameof(PortDiameterMeters)), $"{name}: the diameter of the port", 10, 500, "mm")
                .Range(SlotWidthMeters * 1000, Field(nameof(SlotWidthMeters)), $"{name}: the width of the slot", 5, 1_500, "mm")
                .Range(SlotHeightMeters * 1000, Field(nameof(SlotHeightMeters)), $"{name}: the height of the slot", 5, 500, "mm");
        }

        if (Kind == EnclosureKind.PassiveRadiator)
        {
            check
                .Range(Radiators, Field(nameof(Radiators)), $"{name}: the number of radiators", 1, 8, "")
                .Range(RadiatorHertz, Field(nameof(RadiatorHertz)), $"{name}: the resonance of the radiator", 5, 100, "Hz")
                .Range(RadiatorKilograms * 1000, Field(nameof(RadiatorKilograms)), $"{name}: the mass of the radiator", 1, 5_000, "g")
                .Range(RadiatorAddedKilograms * 1000, Field(nameof(RadiatorAddedKilograms)), $"{name}: the added mass", 0, 5_000, "g")
                .Range(RadiatorSquareMeters * 10_000, Field(nameof(RadiatorSquareMeters)), $"{name}: the area of the radiator", 5, 3_000, "cm²")
                .Range(RadiatorQms, Field(nameof(RadiatorQms)), $"{name}: the Q of the radiator", 0.5, 100, "")
                .Range(RadiatorXmaxMeters * 1000, Field(nameof(RadiatorXmaxMeters)), $"{name}: the excursion of the radiator", 0.5, 100, "mm");
        }
    }

    /// <summary>In one line, for lists, papers and the choice between two versions.</summary>
    public override string ToString() => string.Create(
        CultureInfo.CurrentCulture,
        $"{Words(Kind)}, {NetCubicMeters * 1000:0.##} l{(Kind == EnclosureKind.BandPass ? string.Create(CultureInfo.CurrentCulture, $" and {FrontCubicMeters * 1000:0.##} l") : "")}{(HasPort ? string.Create(CultureInfo.CurrentCulture, $" tuned to {TuningHertz:0.#} Hz") : "")}{Chain}");

    private string Chain => Tuned is { } tuned ? $", filters of {tuned}" : string.Create(
        CultureInfo.CurrentCulture,
        $"{(HighPassHertz is { } corner ? string.Create(CultureInfo.CurrentCulture, $", high-pass {corner:0.#} Hz") : "")}{(LowPassHertz is { } low ? string.Create(CultureInfo.CurrentCulture, $", low-pass {low:0.#} Hz") : "")}{(Filters.Count > 0 ? ", " + string.Join(", ", Filters) : "")}");

    public static string Words(EnclosureKind kind) => kind switch
    {
        EnclosureKind.Closed => "Closed",
        EnclosureKind.Vented => "Vented",
        EnclosureKind.PassiveRadiator => "Passive radiator",
        EnclosureKind.BandPass => "Band-pass",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Unknown kind of box."),
    };
}
