using System.Globalization;
using Bunit;
using ShopFloor.Web.Components;

namespace ShopFloor.Web.Tests.Components;

public class MoneyFieldTests : ComponentTest
{
    private decimal? _value;

    [Fact]
    public void Amount_is_read_and_echoed_with_its_sign()
    {
        var field = Field();

        field.Find("input").Change("1250.50");

        Assert.Equal(1250.50m, _value);
        Assert.Equal("= $1,250.50", field.Find(".field-echo").TextContent);
    }

    [Theory]
    [InlineData("12.345", "more than 2 decimals")]
    [InlineData("25000", "$25,000.00 is out of range. Accepted: $0.00 to $20,000.00")]
    [InlineData("-5", "-$5.00 is out of range")]
    [InlineData("1,250", "can be read as")]
    [InlineData("12 EUR", "is not an amount in USD")]
    [InlineData("", "Deposit is empty")]
    public void A_bad_amount_is_kept_and_explained(string typed, string message)
    {
        var field = Field();
        field.Find("input").Change("7");

        field.Find("input").Change(typed);

        Assert.Equal(7m, _value);
        Assert.Equal(typed, field.Find("input").GetAttribute("value"));
        Assert.Contains(message, field.Find(".field-problem").TextContent);
    }

    [Fact]
    public void The_sign_may_be_typed()
    {
        var field = Field();

        field.Find("input").Change("$ 99.9");

        Assert.Equal(99.9m, _value);
    }

    [Theory]
    [InlineData("en-US", "EUR", "€1,234.50")]
    [InlineData("de-DE", "EUR", "1.234,50\u00A0€")]
    [InlineData("en-US", "CHF", "CHF\u00A01,234.50")]
    [InlineData("de-DE", "USD", "1.234,50\u00A0$")]
    public void Amounts_are_written_the_users_way_with_the_currencys_own_sign(string culture, string currency, string expected) =>
        Assert.Equal(expected, CurrencyText.Format(1234.5m, currency, CultureInfo.GetCultureInfo(culture)));

    private IRenderedComponent<MoneyField> Field() =>
        Render<MoneyField>(parameters => parameters
            .Add(field => field.Label, "Deposit")
            .Add(field => field.Currency, "USD")
            .Add(field => field.Max, 20_000m)
            .Add(field => field.ValueChanged, (decimal? amount) => _value = amount));
}
