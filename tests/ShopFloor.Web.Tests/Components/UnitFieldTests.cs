using System.Globalization;
using Bunit;
using Microsoft.AspNetCore.Components;
using ShopFloor.Engineering.Units;
using ShopFloor.Web.Components;

namespace ShopFloor.Web.Tests.Components;

public class UnitFieldTests : ComponentTest
{
    private double? _value;
    private int _raised;

    [Fact]
    public void Value_in_SI_is_shown_in_the_metric_unit_and_echoed_in_both()
    {
        var field = Field(value: 0.0254);

        Assert.Equal("25.4", field.Find("input").GetAttribute("value"));
        Assert.Equal("= 25.4\u00A0mm, 1\u00A0in", Echo(field));
    }

    [Fact]
    public void Typed_number_becomes_SI_in_the_units_chosen()
    {
        var field = Field(units: UnitSystem.Us);

        field.Find("input").Change("10");

        Assert.Equal(0.254, _value!.Value, 12);
        Assert.Equal("= 10\u00A0in, 254\u00A0mm", Echo(field));
    }

    [Fact]
    public void The_other_systems_unit_behind_the_number_is_understood()
    {
        var field = Field();

        field.Find("input").Change("2 in");

        Assert.Equal(0.0508, _value!.Value, 12);
        Assert.Equal("= 50.8\u00A0mm, 2\u00A0in", Echo(field));
        Assert.Equal("2 in", field.Find("input").GetAttribute("value"));
    }

    [Theory]
    [InlineData("wide", "Width: “wide” is not a number.")]
    [InlineData("12 ft", "the unit “ft” is not known here. Use mm or in.")]
    [InlineData("9000", "Width: 9000\u00A0mm is out of range. Accepted: 50 to 2440\u00A0mm.")]
    [InlineData("", "Width is empty. Enter a number in mm, 50 to 2440\u00A0mm.")]
    [InlineData("1,250", "can be read as 1.25 or as 1250")]
    public void Bad_text_stays_and_the_message_names_field_value_and_what_is_accepted(string typed, string message)
    {
        var field = Field(value: 0.1);

        field.Find("input").Change(typed);

        Assert.Equal(0, _raised);
        Assert.Equal(typed, field.Find("input").GetAttribute("value"));
        Assert.Equal("true", field.Find("input").GetAttribute("aria-invalid"));
        Assert.Contains(message, field.Find(".field-problem").TextContent);
        Assert.Contains(field.Find("[role=alert]").Id!, field.Find("input").GetAttribute("aria-describedby")!.Split(' '));
    }

    [Fact]
    public void Bad_text_survives_the_page_drawing_itself_again()
    {
        var field = Field(value: 0.1);
        field.Find("input").Change("wide");

        field.Render(parameters => parameters.Add(each => each.Help, "Outer edge to outer edge."));

        Assert.Equal("wide", field.Find("input").GetAttribute("value"));
        Assert.NotEmpty(field.FindAll(".field-problem"));
    }

    [Fact]
    public void A_limit_shown_in_inches_may_be_typed_back()
    {
        var field = Field(units: UnitSystem.Us, max: 0.0254 * 3);

        field.Find("input").Change("3");

        Assert.Empty(field.FindAll(".field-problem"));
        Assert.Equal(0.0762, _value!.Value, 12);
    }

    [Fact]
    public void Emptying_an_optional_field_gives_null()
    {
        var field = Field(value: 0.1, required: false);

        field.Find("input").Change("");

        Assert.Equal(1, _raised);
        Assert.Null(_value);
        Assert.Empty(field.FindAll(".field-problem"));
    }

    [Fact]
    public async Task Typing_is_read_only_after_a_pause()
    {
        var field = Field();
        var typing = field.Find("input").InputAsync(new ChangeEventArgs { Value = "120" });
        Clock.Advance(TimeSpan.FromMilliseconds(299));
        Assert.Equal(0, _raised);

        Clock.Advance(TimeSpan.FromMilliseconds(1));
        await typing;

        Assert.Equal(1, _raised);
    }

    [Fact]
    public async Task A_further_key_starts_the_pause_anew_and_only_the_last_text_counts()
    {
        var field = Field(min: 0);
        var first = field.Find("input").InputAsync(new ChangeEventArgs { Value = "1" });
        Clock.Advance(TimeSpan.FromMilliseconds(200));
        var second = field.Find("input").InputAsync(new ChangeEventArgs { Value = "12" });
        Clock.Advance(TimeSpan.FromMilliseconds(200));
        Assert.Equal(0, _raised);

        Clock.Advance(TimeSpan.FromMilliseconds(100));
        await Task.WhenAll(first, second);

        Assert.Equal(1, _raised);
        Assert.Equal(0.012, _value!.Value, 12);
    }

    [Fact]
    public void Numbers_follow_the_users_culture()
    {
        CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");

        var field = Field(value: 0.0125);

        Assert.Equal("12,5", field.Find("input").GetAttribute("value"));
        field.Find("input").Change("9000");
        Assert.Contains("50 to 2440\u00A0mm", field.Find(".field-problem").TextContent);
    }

    [Theory]
    [InlineData("en-US")]
    [InlineData("en-GB")]
    [InlineData("de-DE")]
    [InlineData("el-GR")]
    public void What_a_field_shows_is_read_back_as_the_same_value(string culture)
    {
        var scale = new UnitScale("Hz", "hertz", 1, 2);
        foreach (var value in new[] { 0.25, 1.125, 999, 1250, 9999.5, 20_000, 1_234_567.25 })
        {
            var shown = scale.Number(value, CultureInfo.GetCultureInfo(culture));
            Assert.True(NumberReading.TryRead(shown, CultureInfo.GetCultureInfo(culture), out var read, out _, out var problem), $"{shown}: {problem}");
            Assert.Equal(Math.Round(value, 2, MidpointRounding.AwayFromZero), (double)read, 9);
        }
    }

    [Fact]
    public void Temperature_scales_with_an_offset_come_out_right()
    {
        // 0 °C is 273.15 K by definition of the Celsius scale; 212 °F is the boiling point of water, 373.15 K.
        var fahrenheit = new UnitScale("°F", "degrees Fahrenheit", 5.0 / 9, 1, 273.15 - (32 * 5.0 / 9));

        Assert.Equal(373.15, fahrenheit.ToSi(212), 9);
        Assert.Equal(32, fahrenheit.FromSi(273.15), 9);
    }

    private IRenderedComponent<UnitField> Field(double? value = null, UnitSystem units = UnitSystem.Metric, double min = 0.05, double max = 2.44, bool required = true) =>
        Render<UnitField>(parameters => parameters
            .AddCascadingValue(units)
            .Add(field => field.Label, "Width")
            .Add(field => field.Metric, Millimetres)
            .Add(field => field.Us, Inches)
            .Add(field => field.Value, value)
            .Add(field => field.MinSi, min)
            .Add(field => field.MaxSi, max)
            .Add(field => field.Required, required)
            .Add(field => field.ValueChanged, (double? si) =>
            {
                _value = si;
                _raised++;
            }));

    private static string Echo(IRenderedComponent<UnitField> field) => field.Find(".field-echo").TextContent;
}
