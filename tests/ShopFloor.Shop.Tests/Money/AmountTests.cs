using System.Globalization;
using CsCheck;
using ShopFloor.Shop.Money;

namespace ShopFloor.Shop.Tests.Money;

public class AmountTests
{
    private static readonly Gen<Currency> AnyCurrency = Gen.OneOf(Currency.All.ToArray());
    private static readonly Gen<decimal> AnyValue = Gen.Long[-9_999_999_999, 9_999_999_999].Select(units => units / 10_000m);

    // Halves away from zero, minor units from ISO 4217.
    [Theory]
    [InlineData("EUR", "1.005", "1.01")]
    [InlineData("EUR", "-1.005", "-1.01")]
    [InlineData("EUR", "1.004999", "1.00")]
    [InlineData("EUR", "2.675", "2.68")]
    [InlineData("JPY", "0.5", "1")]
    [InlineData("JPY", "1234.49", "1234")]
    [InlineData("KWD", "1.0005", "1.001")]
    [InlineData("PLN", "0.125", "0.13")]
    public void Rounding_goes_half_away_from_zero_to_the_currencys_minor_units(string code, string value, string expected)
    {
        var amount = new Amount(Number(value), Currency.FromCode(code));
        Assert.Equal(Number(expected), amount.Value);
    }

    [Theory]
    [InlineData("EUR", 2)]
    [InlineData("USD", 2)]
    [InlineData("CHF", 2)]
    [InlineData("HUF", 2)]
    [InlineData("JPY", 0)]
    [InlineData("ISK", 0)]
    [InlineData("KRW", 0)]
    [InlineData("KWD", 3)]
    public void Minor_units_are_those_of_ISO_4217(string code, int digits) => Assert.Equal(digits, Currency.FromCode(code).MinorDigits);

    [Theory]
    [InlineData("EURO")]
    [InlineData("XXX")]
    [InlineData("")]
    [InlineData(null)]
    public void Unknown_currency_is_refused_with_the_list_of_known_ones(string? code)
    {
        Assert.False(Currency.TryFromCode(code, out _, out var problem));
        Assert.Contains("CHF, CZK", problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Mixing_currencies_is_refused_everywhere()
    {
        var (euro, franc) = (new Amount(1, Currency.Eur), new Amount(1, Currency.Chf));

        Assert.Throws<CurrencyMismatchException>(() => euro + franc);
        Assert.Throws<CurrencyMismatchException>(() => euro - franc);
        Assert.Throws<CurrencyMismatchException>(() => euro < franc);
        Assert.Throws<CurrencyMismatchException>(() => Amount.Sum([euro, franc], Currency.Eur));
        Assert.Throws<CurrencyMismatchException>(() => Amount.Sum([euro], Currency.Chf));
        Assert.Throws<CurrencyMismatchException>(() => Margin.Of(euro, franc));
        Assert.Throws<CurrencyMismatchException>(() => euro + default(Amount));
        Assert.NotEqual(euro, franc);
    }

    [Fact]
    public void Amount_beyond_the_largest_is_refused()
    {
        Assert.Equal(Amount.Largest, new Amount(Amount.Largest, Currency.Eur).Value);
        Assert.Throws<ArgumentOutOfRangeException>(() => new Amount(Amount.Largest + 0.01m, Currency.Eur));
    }

    [Fact]
    public void Sum_of_the_lines_as_printed_is_the_total_as_printed()
    {
        var culture = CultureInfo.GetCultureInfo("de-DE");
        var generator = from currency in AnyCurrency
                        from lines in Gen.Select(AnyValue, Gen.Int[1, 9999].Select(n => n / 100m)).List[1, 30]
                        select (currency, lines);
        generator.Sample(input =>
        {
            var lines = input.lines.Select(line => new Amount(line.Item1, input.currency) * line.Item2).ToArray();
            var total = Amount.Sum(lines, input.currency);

            var printed = lines.Sum(line => Read(line.Format(culture), input.currency, culture));
            return printed == Read(total.Format(culture), input.currency, culture);
        });
    }

    [Fact]
    public void Adding_is_associative_and_commutative() =>
        Gen.Select(AnyCurrency, AnyValue, AnyValue, AnyValue).Sample((currency, x, y, z) =>
        {
            var (a, b, c) = (new Amount(x, currency), new Amount(y, currency), new Amount(z, currency));
            return a + b + c == a + (b + c) && a + b == b + a && a + b - b == a;
        });

    [Fact]
    public void Rounding_and_multiplying_treat_both_signs_alike() =>
        Gen.Select(AnyCurrency, AnyValue, Gen.Int[-100_000, 100_000].Select(n => n / 1000m)).Sample((currency, x, quantity) =>
        {
            var amount = new Amount(x, currency);
            return new Amount(-x, currency) == -amount
                && -amount * quantity == -(amount * quantity)
                && amount * -quantity == -(amount * quantity);
        });

    [Fact]
    public void Rounding_moves_a_value_by_half_a_minor_unit_at_most() =>
        Gen.Select(AnyCurrency, AnyValue).Sample((currency, x) =>
        {
            var halfUnit = 0.5m / (decimal)Math.Pow(10, currency.MinorDigits);
            return Math.Abs(new Amount(x, currency).Value - x) <= halfUnit;
        });

    [Fact]
    public void Shares_add_up_to_the_whole_and_lie_within_one_minor_unit_of_proportion()
    {
        var generator = Gen.Select(AnyCurrency, AnyValue, Gen.Int[0, 1000].Select(n => n / 10m).Array[1, 12]).Where((_, _, weights) => weights.Sum() > 0);
        generator.Sample((currency, x, weights) =>
        {
            var whole = new Amount(x, currency);
            var shares = whole.Split(weights);
            var unit = 1m / (decimal)Math.Pow(10, currency.MinorDigits);
            return Amount.Sum(shares, currency) == whole
                && shares.Zip(weights).All(pair => Math.Abs(pair.First.Value - (whole.Value * pair.Second / weights.Sum())) <= unit);
        });
    }

    [Fact]
    public void Ten_split_three_ways_gives_the_odd_cent_to_the_first()
    {
        var shares = new Amount(10, Currency.Eur).Split([1, 1, 1]);
        Assert.Equal([3.34m, 3.33m, 3.33m], shares.Select(share => share.Value));
        Assert.Throws<ArgumentException>(() => new Amount(10, Currency.Eur).Split([]));
        Assert.Throws<ArgumentException>(() => new Amount(10, Currency.Eur).Split([0, 0]));
        Assert.Throws<ArgumentException>(() => new Amount(10, Currency.Eur).Split([2, -1]));
    }

    [Theory]
    [InlineData("200", "150", "0.25")]
    [InlineData("100", "120", "-0.2")]
    [InlineData("80", "0", "1")]
    public void Margin_is_the_part_of_the_price_left_after_cost(string price, string cost, string expected) =>
        Assert.Equal(Number(expected), Margin.Of(new Amount(Number(price), Currency.Eur), new Amount(Number(cost), Currency.Eur)));

    [Fact]
    public void Margin_of_a_free_part_has_no_answer() =>
        Assert.Null(Margin.Of(Amount.Zero(Currency.Eur), new Amount(5, Currency.Eur)));

    [Fact]
    public void Tax_is_rounded_once_and_comes_out_of_a_gross_price_again()
    {
        var rate = TaxRate.FromPercent(19);
        Assert.Equal(19.19m, rate.On(new Amount(100.99m, Currency.Eur)).Value); // 19.1881
        Assert.Equal(19.00m, rate.Within(new Amount(119m, Currency.Eur)).Value);
        Assert.Equal(0m, TaxRate.None.On(new Amount(100m, Currency.Eur)).Value);
        Assert.Equal("8.1 %", TaxRate.FromPercent(8.1m).ToString());
    }

    [Fact]
    public void Tax_added_to_a_net_price_is_found_within_the_gross_price() =>
        Gen.Select(AnyCurrency, AnyValue, Gen.Int[0, 100_000].Select(n => n / 1000m)).Sample((currency, x, percent) =>
        {
            var (net, rate) = (new Amount(x, currency), TaxRate.FromPercent(percent));
            var tax = rate.On(net);
            return rate.Within(net + tax) == tax;
        });

    [Theory]
    [InlineData("-0.1")]
    [InlineData("100.001")]
    [InlineData("8.1234")]
    public void Tax_rate_out_of_range_is_refused(string percent)
    {
        Assert.False(TaxRate.TryCreate(Number(percent), out _, out var problem));
        Assert.Contains(percent + " %", problem, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => TaxRate.FromPercent(Number(percent)));
    }

    [Fact]
    public void Log_text_is_invariant_and_shows_all_minor_units()
    {
        Assert.Equal("1234.50 EUR", new Amount(1234.5m, Currency.Eur).ToString());
        Assert.Equal("1235 JPY", new Amount(1234.5m, Currency.Jpy).ToString());
        Assert.Equal("XXX", default(Amount).Currency.Code);
    }

    private static decimal Number(string text) => decimal.Parse(text, CultureInfo.InvariantCulture);

    private static decimal Read(string text, Currency currency, CultureInfo culture)
    {
        Assert.True(AmountText.TryParse(text, currency, culture, out var amount, out var problem), problem);
        return amount.Value;
    }
}
