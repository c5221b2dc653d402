using System.Diagnostics.CodeAnalysis;

namespace ShopFloor.Shop.Money;

/// <summary>A currency by its ISO 4217 code, with the minor units (decimal places) ISO 4217 lists for it.</summary>
/// <remarks>The default value is XXX, which ISO 4217 reserves for "no currency"; it does not mix with any other.</remarks>
public readonly record struct Currency
{
    private static readonly Dictionary<string, (int MinorDigits, string Symbol)> Listed = new(StringComparer.Ordinal)
    {
        ["XXX"] = (2, "XXX"),
        ["AUD"] = (2, "AUD"),
        ["BHD"] = (3, "BHD"),
        ["BRL"] = (2, "BRL"),
        ["CAD"] = (2, "CAD"),
        ["CHF"] = (2, "CHF"),
        ["CZK"] = (2, "CZK"),
        ["DKK"] = (2, "DKK"),
        ["EUR"] = (2, "€"),
        ["GBP"] = (2, "£"),
        ["HUF"] = (2, "HUF"),
        ["INR"] = (2, "INR"),
        ["ISK"] = (0, "ISK"),
        ["JPY"] = (0, "JPY"),
        ["KRW"] = (0, "KRW"),
        ["KWD"] = (3, "KWD"),
        ["MXN"] = (2, "MXN"),
        ["NOK"] = (2, "NOK"),
        ["NZD"] = (2, "NZD"),
        ["PLN"] = (2, "PLN"),
        ["RON"] = (2, "RON"),
        ["SEK"] = (2, "SEK"),
        ["USD"] = (2, "$"),
        ["ZAR"] = (2, "ZAR"),
    };

    private readonly string? _code;

    private Currency(string code) => _code = code;

    public static Currency Eur { get; } = new("EUR");

    public static Currency Usd { get; } = new("USD");

    public static Currency Gbp { get; } = new("GBP");

    public static Currency Chf { get; } = new("CHF");

    public static Currency Sek { get; } = new("SEK");

    public static Currency Pln { get; } = new("PLN");

    public static Currency Jpy { get; } = new("JPY");

    /// <summary>Every currency a shop can choose, by code.</summary>
    public static IReadOnlyList<Currency> All { get; } =
        [.. Listed.Keys.Where(code => code != "XXX").Order(StringComparer.Ordinal).Select(code => new Currency(code))];

    /// <summary>Three capital letters of ISO 4217.</summary>
    public string Code => _code ?? "XXX";

    /// <summary>Decimal places of the smallest unit paid: 2 for cents, 0 where there are none.</summary>
    public int MinorDigits => Listed[Code].MinorDigits;

    /// <summary>Sign printed beside the number; the code where the sign would be shared by several currencies.</summary>
    public string Symbol => Listed[Code].Symbol;

    public static bool TryFromCode(string? code, out Currency currency, [NotNullWhen(false)] out string? problem)
    {
        var wanted = code?.Trim().ToUpperInvariant() ?? string.Empty;
        if (wanted == "XXX" || !Listed.ContainsKey(wanted))
        {
            currency = default;
            problem = $"Currency '{code}' is not known. Accepted: {string.Join(", ", All.Select(one => one.Code))}.";
            return false;
        }

        currency = new Currency(wanted);
        problem = null;
        return true;
    }

    /// <exception cref="ArgumentException">The code is not one of <see cref="All"/>.</exception>
    public static Currency FromCode(string code) =>
        TryFromCode(code, out var currency, out var problem) ? currency : throw new ArgumentException(problem, nameof(code));

    /// <summary>The one rounding rule for money: to the currency's minor units, halves away from zero.</summary>
    public decimal Round(decimal value) => decimal.Round(value, MinorDigits, MidpointRounding.AwayFromZero);

    public bool Equals(Currency other) => string.Equals(Code, other.Code, StringComparison.Ordinal);

    public override int GetHashCode() => Code.GetHashCode(StringComparison.Ordinal);

    public override string ToString() => Code;
}
