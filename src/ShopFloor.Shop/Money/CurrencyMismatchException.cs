namespace ShopFloor.Shop.Money;

/// <summary>Two currencies met in one sum. There is no exchange rate here, so it is a fault of the caller.</summary>
public sealed class CurrencyMismatchException(Currency left, Currency right)
    : InvalidOperationException($"Amounts in {left.Code} and {right.Code} cannot be put together.")
{
    public Currency Left { get; } = left;

    public Currency Right { get; } = right;
}
