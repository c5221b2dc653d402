using System.Globalization;
using CsCheck;
using ShopFloor.Shop.Money;

namespace ShopFloor.Shop.Tests.Money;

public class AmountTextTests
{
    // \u00A0 no-break space, \u202F narrow no-break space, \u2019 typographic apostrophe.
    [Theory]
    [InlineData("en-US", "USD", "1234.5", "$1,234.50")]
    [InlineData("en-US", "CHF", "1234.5", "CHF\u00A01,234.50")]
    [InlineData("en-GB", "GBP", "-1234.5", "-£1,234.50")]
    [InlineData("de-DE", "EUR", "1234.5", "1.234,50\u00A0€")]
    [InlineData("de-DE", "USD", "-1234.5", "-1.234,50\u00A0$")]
    [InlineData("fr-FR", "EUR", "1234567.8", "1\u202F234\u202F567,80\u00A0€")]
    [InlineData("en-US", "JPY", "1234.5", "JPY\u00A01,235")]
    [InlineData("en-US", "CHF", "-3", "-CHF\u00A03.00")]
    public void Amounts_print_as_the_culture_writes_them(string culture, string code, string value, string expected)
    {
        var amount = new Amount(decimal.Parse(value, CultureInfo.InvariantCulture), Currency.FromCode(code));
        Assert.Equal(expected, amount.Format(CultureInfo.GetCultureInfo(culture)));
    }

    [Theory]
    [InlineData("en-US", "USD", "1,234.50", "1234.50")]
    [InlineData("en-US", "USD", "$1,234.5", "1234.50")]
    [InlineData("en-US", "USD", "-$12", "-12")]
    [InlineData("en-US", "USD", "$-12", "-12")]
    [InlineData("en-US", "USD", "usd 12", "12")]
    [InlineData("en-US", "USD", "+.50", null)]
    [InlineData("de-DE", "EUR", "1.234", "1234")]
    [InlineData("de-DE", "EUR", "1234,5 €", "1234.50")]
    [InlineData("de-DE", "EUR", "\u22125,00 EUR", "-5")]
    [InlineData("fr-FR", "EUR", "1 234,5", "1234.50")]
    [InlineData("de-CH", "CHF", "1'234.50", "1234.50")]
    [InlineData("en-IN", "INR", "12,34,567.00", "1234567")]
    [InlineData("en-US", "JPY", "1,235", "1235")]
    [InlineData("en-US", "USD", "1,5", null)]
    [InlineData("en-US", "USD", "12,34.00", null)]
    [InlineData("en-US", "USD", "1234,567.00", null)]
    [InlineData("en-US", "USD", "1.234", null)]
    [InlineData("en-US", "USD", "1.", null)]
    [InlineData("en-US", "USD", "1.2.3", null)]
    [InlineData("en-US", "USD", "€5", null)]
    [InlineData("en-US", "USD", "5 EUR", null)]
    [InlineData("en-US", "USD", "--5", null)]
    [InlineData("en-US", "USD", "5-", null)]
    [InlineData("en-US", "USD", "(5)", null)]
    [InlineData("en-US", "USD", "1e3", null)]
    [InlineData("en-US", "USD", "0x10", null)]
    [InlineData("en-US", "USD", "٣", null)]
    [InlineData("en-US", "USD", "", null)]
    [InlineData("en-US", "USD", "$", null)]
    [InlineData("de-DE", "EUR", "1234.5", null)]
    [InlineData("en-US", "JPY", "12.5", null)]
    [InlineData("en-US", "USD", "1000000000000.01", null)]
    [InlineData("en-US", "USD", "99999999999999999999999999999999999", null)]
    [InlineData("en-US", "USD", "999999999999999999999999999999999999999999999", null)]
    public void Typed_amounts_are_read_strictly_in_the_users_culture(string culture, string code, string input, string? expected)
    {
        var read = AmountText.TryParse(input, Currency.FromCode(code), CultureInfo.GetCultureInfo(culture), out var amount, out var problem);

        Assert.Equal(expected is not null, read);
        Assert.Equal(expected is null ? 0 : decimal.Parse(expected, CultureInfo.InvariantCulture), amount.Value);
        Assert.Equal(read, problem is null);
    }

    [Fact]
    public void Refusal_repeats_the_input_and_shows_the_accepted_form()
    {
        Assert.False(AmountText.TryParse("12.5", Currency.Eur, CultureInfo.GetCultureInfo("de-DE"), out _, out var problem));
        Assert.Equal("'12.5' is not an amount. Write it like 1234,56 or 1.234,56\u00A0€.", problem);
    }

    [Fact]
    public void What_is_printed_or_put_into_a_field_reads_back_as_the_same_amount()
    {
        var cultures = new[] { "en-US", "en-GB", "de-DE", "de-CH", "fr-FR", "sv-SE", "pl-PL", "en-IN", "ja-JP" };
        Gen.Select(
            Gen.OneOf(cultures),
            Gen.OneOf(Currency.All.ToArray()),
            Gen.Long[-99_999_999_999, 99_999_999_999]).Sample((name, currency, units) =>
        {
            var culture = CultureInfo.GetCultureInfo(name);
            var amount = new Amount(units / 1000m, currency);
            return AmountText.TryParse(amount.Format(culture), currency, culture, out var printed, out _) && printed == amount
                && AmountText.TryParse(AmountText.ForInput(amount, culture), currency, culture, out var typed, out _) && typed == amount;
        });
    }
}
