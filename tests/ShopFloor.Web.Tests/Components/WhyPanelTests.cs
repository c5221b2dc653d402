using Bunit;
using MudBlazor;
using ShopFloor.Engineering.Explained;
using ShopFloor.Web.Components;

namespace ShopFloor.Web.Tests.Components;

public class WhyPanelTests : ComponentTest
{
    private static readonly Explanation Drop = new(
        "Main run: which conductor?",
        "50 mm²",
        [new("Current", 102.30179, "A", "entered"), new("Runs", 1, "", "default; common practice, no source"), new("Length", 4.5, "m", "vehicle")],
        [new("Resistance", "R = ρ · l / A", "R = 0.0175 · 4.5 / 50", "1.575 mΩ", "Definition of resistivity")],
        [new("Ampacity", 102.3, 210, "A", true, "ISO 19642"), new("Voltage drop", 0.52, 0.4, "V", false, "Common practice, no source")],
        "Voltage drop");

    [Fact]
    public void Inputs_stand_with_value_unit_and_origin()
    {
        var rows = Render().FindAll("section:last-of-type tbody tr").Select(row => string.Join('|', row.Children.Select(cell => cell.TextContent.Trim())));

        Assert.Equal(["Current|102.3\u00A0A|entered", "Runs|1|default; common practice, no source", "Length|4.5\u00A0m|vehicle"], rows);
    }

    [Fact]
    public void Steps_show_formula_numbers_result_and_source()
    {
        var step = Render().Find("ol li").TextContent;

        Assert.Contains("R = ρ · l / A", step);
        Assert.Contains("R = 0.0175 · 4.5 / 50", step);
        Assert.Contains("= 1.575 mΩ", step);
        Assert.Contains("Definition of resistivity", step);
    }

    [Fact]
    public void The_limit_that_decided_is_named_and_pointed_out()
    {
        var panel = Render();

        Assert.Contains("Decided by Voltage drop", panel.Find(".why-answer").TextContent);
        var deciding = Assert.Single(panel.FindAll("tr.why-deciding"));
        Assert.Contains("Voltage drop", deciding.TextContent);
        Assert.Contains("Broken", deciding.TextContent);
        Assert.Contains("Kept", panel.FindAll("tbody tr")[0].TextContent);
    }

    [Theory]
    [InlineData(0.000123456, "0.0001235")]
    [InlineData(123456.7, "123\u00A0457")]
    [InlineData(0, "0")]
    [InlineData(1.5e-9, "1.5E-09")]
    [InlineData(-2.34567, "-2.346")]
    public void Numbers_are_shown_to_four_significant_digits(double value, string shown)
    {
        var panel = Render<WhyPanel>(parameters => parameters.Add(each => each.Explanation, Drop with { Inputs = [new("Value", value, "", "entered")] }));

        Assert.Equal(shown, panel.Find("section:last-of-type tbody td").TextContent);
    }

    [Fact]
    public async Task Why_button_opens_the_panel_and_names_its_question()
    {
        var provider = Render<MudDialogProvider>();
        var button = Render<WhyButton>(parameters => parameters.Add(each => each.Explanation, Drop));
        Assert.Equal("Why? Main run: which conductor?", button.Find("button").GetAttribute("aria-label"));

        await button.Find("button").ClickAsync(new());

        provider.WaitForAssertion(() => Assert.Equal("50 mm²", provider.Find(".why-result").TextContent));
    }

    private IRenderedComponent<WhyPanel> Render() => Render<WhyPanel>(parameters => parameters.Add(panel => panel.Explanation, Drop));
}
