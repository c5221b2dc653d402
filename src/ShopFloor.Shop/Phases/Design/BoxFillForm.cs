using System.Globalization;
using System.Text.Json.Serialization;
using ShopFloor.Engineering.Fabrication.Volume;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>How the inside of a box was filled to measure it.</summary>
public enum FillKind
{
    None,
    WaterWeighed,
    BeadsWeighed,
    BeadsPoured,
}

/// <summary>A box measured by what fills it.</summary>
public sealed record BoxFillForm
{
    public FillKind Kind { get; set; }

    public double? Kilograms { get; set; }

    /// <summary>Smallest step of the scale or its stated accuracy, kg.</summary>
    public double ScaleKilograms { get; set; } = 0.01;

    /// <summary>A cup of the same beads, m³.</summary>
    public double? CupCubicMeters { get; set; }

    public double? CupKilograms { get; set; }

    public double? PouredCubicMeters { get; set; }

    /// <summary>How well the pouring was read, m³.</summary>
    public double JugCubicMeters { get; set; } = 0.0001;

    /// <summary>How far beads may lie denser in the box than in cup or jug, %. 2: common practice, no source.</summary>
    public double PackingPercent { get; set; } = 2;

    /// <summary>Whether loudspeaker and port stood in the box while it was filled.</summary>
    public bool PartsInside { get; set; }

    [JsonIgnore]
    public IReadOnlyList<string> Missing => Kind switch
    {
        FillKind.WaterWeighed => [.. Lacking(Kilograms, "mass of the water")],
        FillKind.BeadsWeighed => [.. Lacking(Kilograms, "mass of the beads"), .. Lacking(CupCubicMeters, "volume of the cup"), .. Lacking(CupKilograms, "beads in the cup")],
        FillKind.BeadsPoured => [.. Lacking(PouredCubicMeters, "beads poured in")],
        _ => [],
    };

    /// <summary>As the calculation takes it; null when the box was not filled or something is missing.</summary>
    [JsonIgnore]
    public FillMeasurement? Measurement => Kind == FillKind.None || Missing.Count > 0 ? null : Kind switch
    {
        FillKind.WaterWeighed => new FillMeasurement { FillKilograms = Kilograms, ScaleKilograms = ScaleKilograms },
        FillKind.BeadsWeighed => new FillMeasurement { FillKilograms = Kilograms, ScaleKilograms = ScaleKilograms, CupCubicMeters = CupCubicMeters, CupKilograms = CupKilograms, PackingPercent = PackingPercent },
        _ => new FillMeasurement { PouredCubicMeters = PouredCubicMeters, JugCubicMeters = JugCubicMeters, PackingPercent = PackingPercent },
    };

    public override string ToString() => Kind switch
    {
        FillKind.None => "",
        FillKind.BeadsPoured => string.Create(CultureInfo.CurrentCulture, $"{PouredCubicMeters * 1000:0.###} l of beads ± {PackingPercent:0.#} %{Place}"),
        FillKind.BeadsWeighed => string.Create(CultureInfo.CurrentCulture, $"{Kilograms:0.###} kg of beads, {CupKilograms * 1000:0.#} g in {CupCubicMeters * 1000:0.###} l, ± {PackingPercent:0.#} %{Place}"),
        _ => string.Create(CultureInfo.CurrentCulture, $"{Kilograms:0.###} kg of water{Place}"),
    };

    private string Place => PartsInside ? ", parts inside" : "";

    internal void AddProblems(Check check, string at) => check
        .That(Enum.IsDefined(Kind), $"{at}.{nameof(Kind)}", "There is no such way of filling.")
        .Range(Kilograms, $"{at}.{nameof(Kilograms)}", "The mass of the fill", 0.001, 2_000, "kg")
        .Range(ScaleKilograms * 1000, $"{at}.{nameof(ScaleKilograms)}", "The accuracy of the scale", 0, 10_000, "g")
        .Range(CupCubicMeters * 1000, $"{at}.{nameof(CupCubicMeters)}", "The volume of the cup", 0.01, 50, "l")
        .Range(CupKilograms * 1000, $"{at}.{nameof(CupKilograms)}", "The beads in the cup", 0.1, 50_000, "g")
        .Range(PouredCubicMeters * 1000, $"{at}.{nameof(PouredCubicMeters)}", "The beads poured in", 0.001, 2_000, "l")
        .Range(JugCubicMeters * 1000, $"{at}.{nameof(JugCubicMeters)}", "The accuracy of the pouring", 0, 100, "l")
        .Range(PackingPercent, $"{at}.{nameof(PackingPercent)}", "The difference in packing", 0, 20, "%");

    private static string[] Lacking(double? value, string what) => value is null ? [what] : [];
}
