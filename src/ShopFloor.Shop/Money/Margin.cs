namespace ShopFloor.Shop.Money;

/// <summary>What is left of a price after its cost.</summary>
public static class Margin
{
    /// <summary>(price - cost) / price as a fraction, 0.25 for a quarter; null when the price is zero and the question has no answer.</summary>
    /// <exception cref="CurrencyMismatchException">The currencies differ.</exception>
    public static decimal? Of(Amount price, Amount cost)
    {
        var left = price - cost;
        return price.IsZero ? null : left.Value / price.Value;
    }
}
