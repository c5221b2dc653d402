using System.Globalization;
using CsCheck;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tests.Units;

public class UserNumberTests
{
    private static readonly CultureInfo _point = CultureInfo.GetCultureInfo("en-US");
    private static readonly CultureInfo _comma = CultureInfo.GetCultureInfo("de-DE");
    private static readonly CultureInfo _space = CultureInfo.GetCultureInfo("fr-FR");
    private static readonly CultureInfo _apostrophe = CultureInfo.GetCultureInfo("de-CH");

    [Theory]
    [InlineData("1.5", 1.5)]
    [InlineData("1,5", 1.5)]
    [InlineData("0,125", 0.125)]
    [InlineData("0.125", 0.125)]
    [InlineData(".5", 0.5)]
    [InlineData(",5", 0.5)]
    [InlineData("12,34", 12.34)]
    [InlineData("1,2345", 1.2345)]
    [InlineData("1234,567", 1234.567)]
    [InlineData("-3.2", -3.2)]
    [InlineData("\u22123,2", -3.2)]
    [InlineData("+7", 7)]
    [InlineData(" 42 ", 42)]
    [InlineData("1,234.5", 1234.5)]
    [InlineData("1.234,5", 1234.5)]
    [InlineData("1,234,567", 1234567)]
    [InlineData("1.234.567", 1234567)]
    [InlineData("1 234", 1234)]
    [InlineData("1\u00a0234,5", 1234.5)]
    [InlineData("1\u202f234", 1234)]
    [InlineData("1'234.5", 1234.5)]
    [InlineData("1\u2019234", 1234)]
    [InlineData("12 345.678", 12345.678)]
    [InlineData("1 234,567", 1234.567)]
    public void Unambiguous_text_means_the_same_in_every_culture(string text, double expected)
    {
        foreach (var culture in new[] { _point, _comma, _space, _apostrophe, CultureInfo.InvariantCulture })
        {
            var parsed = UserNumber.Parse(text, culture);

            Assert.Null(parsed.Problem);
            Assert.Equal(expected, parsed.Value);
        }
    }

    [Fact]
    public void Three_digits_behind_the_cultures_own_decimal_mark_are_decimals()
    {
        Assert.Equal(1.234, UserNumber.Parse("1,234", _comma).Value);
        Assert.Equal(1.234, UserNumber.Parse("1.234", _point).Value);
        Assert.Equal(12.5, UserNumber.Parse("12,500", _comma).Value);
    }

    [Fact]
    public void Three_digits_behind_the_other_mark_are_refused_with_both_readings()
    {
        var american = UserNumber.Parse("1,234", _point);
        var german = UserNumber.Parse("1.234", _comma);

        Assert.False(american.IsRead);
        Assert.Equal("“1,234” can mean 1234 or 1.234; write 1234 or 1.234.", american.Problem);
        Assert.False(german.IsRead);
        Assert.Equal("“1.234” can mean 1234 or 1,234; write 1234 or 1,234.", german.Problem);
    }

    [Theory]
    [InlineData("1,23,456")]
    [InlineData("1,234,56")]
    [InlineData("1 23")]
    [InlineData("1 5")]
    [InlineData("1234 567")]
    [InlineData("1.234.5")]
    [InlineData("1,2.3,4")]
    [InlineData("1.5.")]
    [InlineData("12.34,5")]
    [InlineData("1.5 000")]
    public void Marks_in_odd_places_are_refused_and_never_dropped(string text)
    {
        foreach (var culture in new[] { _point, _comma, _space })
            Assert.False(UserNumber.Parse(text, culture).IsRead);
    }

    [Theory]
    [InlineData("abc")]
    [InlineData("1e5")]
    [InlineData("NaN")]
    [InlineData("∞")]
    [InlineData("--5")]
    [InlineData("5-")]
    [InlineData("0x10")]
    [InlineData("(5)")]
    [InlineData("٣")]
    [InlineData(".")]
    [InlineData("-")]
    [InlineData("1/2")]
    public void Text_that_is_no_number_is_refused_with_the_text_in_the_message(string text)
    {
        var parsed = UserNumber.Parse(text, _point);

        Assert.False(parsed.IsRead);
        Assert.Contains(text, parsed.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_and_too_much_are_refused_in_words()
    {
        Assert.Equal("Nothing was entered; enter a number such as 1,5.", UserNumber.Parse("  ", _comma).Problem);
        Assert.Equal("Nothing was entered; enter a number such as 1.5.", UserNumber.Parse(null, _point).Problem);
        Assert.Contains("too long", UserNumber.Parse(new string('9', 41), _point).Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void A_number_is_read_right_or_refused_but_never_off_by_a_power_of_ten()
    {
        var cultures = new[] { _point, _comma, _space, _apostrophe };
        Gen.Select(Gen.Int[0, 99_999], Gen.Int[0, 4], Gen.Bool, Gen.Int[0, 3]).Sample((digits, decimals, comma, c) =>
        {
            var scale = Math.Pow(10, decimals);
            var text = (digits / scale).ToString("F" + decimals, CultureInfo.InvariantCulture).Replace('.', comma ? ',' : '.');
            var expected = double.Parse(text.Replace(',', '.'), CultureInfo.InvariantCulture);

            var parsed = UserNumber.Parse(text, cultures[c]);

            return !parsed.IsRead || parsed.Value == expected;
        });
    }

    [Fact]
    public void Any_text_gives_an_answer_and_never_an_exception()
    {
        Gen.String[Gen.Char["0123456789.,' -+\u00a0e/"], 0, 45].Sample(text =>
        {
            var parsed = UserNumber.Parse(text, _comma);
            return parsed.IsRead ? double.IsFinite(parsed.Value.Value) : parsed.Problem.Length > 0;
        });
    }
}
