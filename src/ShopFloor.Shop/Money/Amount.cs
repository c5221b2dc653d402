namespace ShopFloor.Shop.Money;

/// <summary>
/// Money in one currency, always in whole minor units: every way to make one rounds by <see cref="Currency.Round"/>, so the sum of
/// the lines a client sees is the total he sees.
/// </summary>
/// <param name="Value">The value in major units; rounded on the way in.</param>
/// <param name="Currency">The currency; two amounts of different currencies never mix.</param>
public readonly record struct Amount(decimal Value, Currency Currency) : IComparable<Amount>
{
    /// <summary>Largest value either way. Beyond it lies a slipped key, and sums keep exact in a decimal.</summary>
    public const decimal Largest = 1_000_000_000_000m;

    /// <summary>The value in major units, in whole minor units of <see cref="Currency"/>.</summary>
    public decimal Value { get; private init; } = Checked(Currency.Round(Value));

    /// <summary>The currency.</summary>
    public Currency Currency { get; private init; } = Currency;

    public bool IsZero => Value == 0;

    public static Amount Zero(Currency currency) => new(0, currency);

    /// <summary>Sum of amounts in one currency; zero for none.</summary>
    /// <exception cref="CurrencyMismatchException">One of them is in another currency.</exception>
    public static Amount Sum(IEnumerable<Amount> amounts, Currency currency) => amounts.Aggregate(Zero(currency), (sum, one) => sum + one);

    /// <exception cref="CurrencyMismatchException">The currencies differ.</exception>
    public static Amount operator +(Amount left, Amount right) => new(left.Value + Matching(left, right).Value, left.Currency);

    /// <exception cref="CurrencyMismatchException">The currencies differ.</exception>
    public static Amount operator -(Amount left, Amount right) => new(left.Value - Matching(left, right).Value, left.Currency);

    public static Amount operator -(Amount amount) => new(-amount.Value, amount.Currency);

    /// <summary>Price times quantity (pieces, metres, hours), rounded once.</summary>
    public static Amount operator *(Amount amount, decimal quantity) => new(amount.Value * quantity, amount.Currency);

    public static bool operator <(Amount left, Amount right) => left.CompareTo(right) < 0;

    public static bool operator >(Amount left, Amount right) => left.CompareTo(right) > 0;

    public static bool operator <=(Amount left, Amount right) => left.CompareTo(right) <= 0;

    public static bool operator >=(Amount left, Amount right) => left.CompareTo(right) >= 0;

    /// <exception cref="CurrencyMismatchException">The currencies differ.</exception>
    public static Amount Add(Amount left, Amount right) => left + right;

    /// <exception cref="CurrencyMismatchException">The currencies differ.</exception>
    public static Amount Subtract(Amount left, Amount right) => left - right;

    public static Amount Multiply(Amount left, decimal right) => left * right;

    public static Amount Negate(Amount item) => -item;

    /// <summary>
    /// Splits into shares in proportion to <paramref name="weights"/> that add up to this amount exactly; the left-over minor units go
    /// to the shares that lost most by rounding, the earlier share first.
    /// </summary>
    /// <exception cref="ArgumentException">No weights, a negative weight, or all are zero.</exception>
    public IReadOnlyList<Amount> Split(IReadOnlyList<decimal> weights)
    {
        var total = weights.Count == 0 || weights.Any(weight => weight < 0) ? 0 : weights.Sum();
        if (total == 0)
        {
            throw new ArgumentException("At least one weight above zero is needed and none below.", nameof(weights));
        }

        var (value, currency) = (Value, Currency);
        var unit = 1m;
        for (var digit = 0; digit < currency.MinorDigits; digit++)
        {
            unit /= 10;
        }

        var exact = weights.Select(weight => value * (weight / total)).ToArray();
        var shares = exact.Select(share => decimal.Round(share, currency.MinorDigits, MidpointRounding.ToZero)).ToArray();
        var left = value - shares.Sum();
        foreach (var index in Enumerable.Range(0, shares.Length).OrderByDescending(i => Math.Abs(exact[i] - shares[i])).ToArray())
        {
            if (left == 0)
            {
                break;
            }

            shares[index] += unit * Math.Sign(left);
            left -= unit * Math.Sign(left);
        }

        return [.. shares.Select(share => new Amount(share, currency))];
    }

    /// <exception cref="CurrencyMismatchException">The currencies differ.</exception>
    public int CompareTo(Amount other) => Value.CompareTo(Matching(this, other).Value);

    /// <summary>The amount as people of <paramref name="culture"/> write it, with the currency's sign or code.</summary>
    public string Format(System.Globalization.CultureInfo culture) => AmountText.Format(this, culture);

    /// <summary>Invariant text for logs and files, for example <c>1234.50 EUR</c>.</summary>
    public override string ToString() =>
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{AmountText.Digits(this)} {Currency.Code}");

    private static Amount Matching(Amount left, Amount right) =>
        left.Currency == right.Currency ? right : throw new CurrencyMismatchException(left.Currency, right.Currency);

    private static decimal Checked(decimal value) =>
        Math.Abs(value) <= Largest
            ? value
            : throw new ArgumentOutOfRangeException(nameof(value), value, "The amount is beyond what an amount may hold.");
}
