using System.Globalization;
using ShopFloor.Shop.Staff.Secrets;

namespace ShopFloor.Shop.Tests.Staff.Secrets;

public class PinRulesTests
{
    [Theory]
    [InlineData("000000", "fewer than three")]
    [InlineData("777777", "fewer than three")]
    [InlineData("121212", "fewer than three")]
    [InlineData("123456", "even steps")]
    [InlineData("654321", "even steps")]
    [InlineData("890123", "even steps")]
    [InlineData("098765", "even steps")]
    [InlineData("135791", "even steps")]
    [InlineData("123123", "short pattern")]
    [InlineData("123321", "short pattern")]
    [InlineData("112233", "short pattern")]
    [InlineData("998877", "short pattern")]
    [InlineData("147258", "common")]
    [InlineData("159753", "common")]
    public void Easily_guessed_pin_is_refused_with_the_reason_but_not_repeated(string pin, string reason)
    {
        Assert.False(PinRules.Accepts(pin, out var problem));
        Assert.Contains(reason, problem, StringComparison.Ordinal);
        Assert.DoesNotContain(pin, problem, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("12345")]
    [InlineData("1234567")]
    [InlineData("48 291")]
    [InlineData("48291a")]
    [InlineData("٤٨٢٩١٧")]
    public void Anything_but_six_digits_is_refused(string? pin)
    {
        Assert.False(PinRules.Accepts(pin, out var problem));
        Assert.Equal("A PIN has exactly 6 digits, 0 to 9.", problem);
    }

    [Theory]
    [InlineData("482917")]
    [InlineData("700413")]
    [InlineData("123457")]
    public void Ordinary_pin_is_accepted(string pin) => Assert.True(PinRules.Accepts(pin, out _));

    [Fact]
    public void Rules_leave_more_than_99_percent_of_all_pins()
    {
        var accepted = Enumerable.Range(0, 1_000_000).Count(n => PinRules.Accepts(n.ToString("D6", CultureInfo.InvariantCulture), out _));
        Assert.InRange(accepted, 990_000, 999_000);
    }
}
