using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace ShopFloor.Shop.Money;

/// <summary>A tax on sales in percent, from 0 to 100 with at most three decimals.</summary>
public readonly record struct TaxRate
{
    private TaxRate(decimal percent) => Percent = percent;

    public static TaxRate None => default;

    public decimal Percent { get; private init; }

    public static bool TryCreate(decimal percent, out TaxRate rate, [NotNullWhen(false)] out string? problem)
    {
        var accepted = percent is >= 0 and <= 100 && decimal.Round(percent, 3) == percent;
        rate = accepted ? new TaxRate(percent) : default;
        problem = accepted
            ? null
            : string.Create(CultureInfo.InvariantCulture, $"Tax rate {percent} % is not accepted. Enter 0 to 100 % with at most three decimals.");
        return accepted;
    }

    /// <exception cref="ArgumentOutOfRangeException">Outside 0 to 100, or more than three decimals.</exception>
    public static TaxRate FromPercent(decimal percent) =>
        TryCreate(percent, out var rate, out var problem) ? rate : throw new ArgumentOutOfRangeException(nameof(percent), percent, problem);

    /// <summary>Tax to add to a price without tax, rounded once.</summary>
    public Amount On(Amount net) => net * (Percent / 100);

    /// <summary>Tax contained in a price with tax, rounded once; price less this is the price without tax.</summary>
    public Amount Within(Amount gross) => new(gross.Value * Percent / (100 + Percent), gross.Currency);

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Percent:0.###} %");
}
