using System.Globalization;
using System.Text.Json.Serialization;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Filters that can be entered for a box, beside its high-pass and low-pass.</summary>
public enum BoxFilterKind
{
    Bell,
    LowShelf,
    HighShelf,
}

/// <summary>A filter of the channel a box plays on.</summary>
public sealed record BoxFilterRow
{
    public BoxFilterKind Kind { get; set; }

    public double Hertz { get; set; } = 50;

    public double GainDecibels { get; set; } = -3;

    /// <summary>Of a shelf 0.7 is the steepest without a hump.</summary>
    public double Q { get; set; } = 1;

    [JsonIgnore]
    public FilterSection Section => new(
        Kind switch
        {
            BoxFilterKind.Bell => FilterKind.Bell,
            BoxFilterKind.LowShelf => FilterKind.LowShelf,
            BoxFilterKind.HighShelf => FilterKind.HighShelf,
            _ => throw new InvalidOperationException("Unknown filter."),
        },
        Hertz, Q, GainDecibels);

    public static string Words(BoxFilterKind kind) => kind switch
    {
        BoxFilterKind.Bell => "Bell",
        BoxFilterKind.LowShelf => "Low shelf",
        BoxFilterKind.HighShelf => "High shelf",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Unknown filter."),
    };

    internal void AddProblems(Check check, string at, string name) => check
        .That(Enum.IsDefined(Kind), $"{at}.{nameof(Kind)}", $"{name}: there is no such filter.")
        .Range(Hertz, $"{at}.{nameof(Hertz)}", $"{name}: the frequency", 5, 20_000, "Hz")
        .Range(GainDecibels, $"{at}.{nameof(GainDecibels)}", $"{name}: the gain", -40, 20, "dB")
        .Range(Q, $"{at}.{nameof(Q)}", $"{name}: the Q", 0.1, 30, "");

    public override string ToString() => string.Create(CultureInfo.CurrentCulture, $"{Words(Kind).ToLowerInvariant()} {Hertz:0.#} Hz {GainDecibels:+0.#;−0.#;0} dB");
}
