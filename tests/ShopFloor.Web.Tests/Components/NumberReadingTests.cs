using System.Globalization;
using CsCheck;
using ShopFloor.Web.Components;

namespace ShopFloor.Web.Tests.Components;

public class NumberReadingTests
{
    public static TheoryData<string, string, string> Readable => new()
    {
        { "en-US", "12.5", "12.5" },
        { "en-US", "12,5", "12.5" },
        { "de-DE", "12.5", "12.5" },
        { "de-DE", "12,5", "12.5" },
        { "en-US", "1.125", "1.125" },
        { "de-DE", "1,125", "1.125" },
        { "en-US", "0,125", "0.125" },
        { "en-US", "1,250.5", "1250.5" },
        { "de-DE", "1.250,5", "1250.5" },
        { "en-US", "1 250", "1250" },
        { "de-CH", "1'250'000.25", "1250000.25" },
        { "en-US", "1,250,000", "1250000" },
        { "en-US", "-3.5", "-3.5" },
        { "en-US", "\u22123.5", "-3.5" },
        { "en-US", ".5", "0.5" },
        { "en-US", " 7 ", "7" },
        { "ar", "643\u066B778", "643.778" },
        { "ar", "1\u066C250\u066B5", "1250.5" },
    };

    [Theory, MemberData(nameof(Readable))]
    public void Numbers_are_read_as_people_type_them(string culture, string typed, string expected)
    {
        var read = NumberReading.TryRead(typed, CultureInfo.GetCultureInfo(culture), out var number, out var unit, out var problem);

        Assert.True(read, problem);
        Assert.Equal(decimal.Parse(expected, CultureInfo.InvariantCulture), number);
        Assert.Equal("", unit);
    }

    [Theory]
    [InlineData("en-US", "1,250", "1.25", "1250")]
    [InlineData("de-DE", "1.250", "1,25", "1250")]
    [InlineData("en-US", "-12,500", "-12.5", "-12500")]
    public void A_text_that_reads_two_ways_is_refused_and_both_readings_are_named(string culture, string typed, string one, string other)
    {
        var read = NumberReading.TryRead(typed, CultureInfo.GetCultureInfo(culture), out _, out _, out var problem);

        Assert.False(read);
        Assert.Contains($"read as {one} or as {other}", problem);
    }

    [Theory]
    [InlineData("twelve")]
    [InlineData("1.2.3")]
    [InlineData("1,2.3,4")]
    [InlineData("12,50,0")]
    [InlineData("--4")]
    [InlineData("\u0661\u0662")]
    [InlineData("12;5")]
    [InlineData("")]
    [InlineData("99999999999999999999999999999999")]
    public void What_is_not_a_number_is_refused_and_quoted(string typed)
    {
        var read = NumberReading.TryRead(typed, CultureInfo.InvariantCulture, out _, out _, out var problem);

        Assert.False(read);
        Assert.Contains($"\u201C{typed}\u201D is not a number", problem);
    }

    [Fact]
    public void The_unit_behind_the_number_is_handed_back()
    {
        Assert.True(NumberReading.TryRead("25,4 mm", CultureInfo.InvariantCulture, out var number, out var unit, out _));
        Assert.Equal(25.4m, number);
        Assert.Equal("mm", unit);
    }

    [Fact]
    public void A_number_printed_in_any_of_six_cultures_is_read_back_or_refused_but_never_read_as_another()
    {
        string[] cultures = ["en-US", "de-DE", "fr-CA", "ar", "tr-TR", "ja-JP"];

        (from units in Gen.Int[-99_999_999, 99_999_999]
         from decimals in Gen.Int[0, 4]
         from grouped in Gen.Bool
         from culture in Gen.Int[0, cultures.Length - 1].Select(index => cultures[index])
         select (units, decimals, grouped, culture)).Sample(each =>
        {
            var culture = CultureInfo.GetCultureInfo(each.culture);
            var value = each.units / (decimal)Math.Pow(10, each.decimals);
            var printed = value.ToString($"{(each.grouped ? "N" : "F")}{each.decimals}", culture);

            return !NumberReading.TryRead(printed, culture, out var number, out _, out _) || number == value;
        });
    }
}
