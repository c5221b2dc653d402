using System.Globalization;
using System.Text.RegularExpressions;
using ShopFloor.Web.Layout;

namespace ShopFloor.Web.Tests.Components;

public partial class ThemeTests
{
    // Contrast ratio and relative luminance as defined in WCAG 2.2; text needs 4.5 (1.4.3), a control's edge 3 (1.4.11).
    [Theory]
    [InlineData(Theme.Ink, Theme.Paper, 7)]
    [InlineData(Theme.Surface, Theme.Copper, 4.5)]
    [InlineData(Theme.Copper, Theme.Paper, 4.5)]
    [InlineData(Theme.Copper, Theme.CopperPale, 4.5)]
    [InlineData(Theme.Steel, Theme.Paper, 4.5)]
    [InlineData(Theme.Surface, Theme.Steel, 4.5)]
    [InlineData(Theme.SteelDark, Theme.Paper, 4.5)]
    [InlineData(Theme.SteelDark, Theme.CopperPale, 4.5)]
    [InlineData(Theme.Ok, Theme.Paper, 4.5)]
    [InlineData(Theme.Ok, Theme.OkPale, 4.5)]
    [InlineData(Theme.Warn, Theme.WarnPale, 4.5)]
    [InlineData(Theme.Stop, Theme.StopPale, 4.5)]
    [InlineData(Theme.Surface, Theme.Stop, 4.5)]
    [InlineData(Theme.Surface, Theme.Slate, 7)]
    [InlineData(Theme.InputLine, Theme.Surface, 3)]
    [InlineData(Theme.InputLine, Theme.Paper, 3)]
    public void Pairs_in_use_have_enough_contrast(string fore, string back, double least) =>
        Assert.True(Contrast(fore, back) >= least, $"{fore} on {back}: {Contrast(fore, back).ToString("0.00", CultureInfo.InvariantCulture)}");

    [Fact]
    public void Contrast_of_black_on_white_is_21() => Assert.Equal(21, Contrast("#000000", "#FFFFFF"), 6); // Greatest ratio the definition allows.

    [Fact]
    public void Style_sheet_and_theme_name_the_same_colours()
    {
        var css = File.ReadAllText(Path.Combine(Root(), "src", "ShopFloor.Web", "wwwroot", "css", "app.css"));
        var tokens = Token().Matches(css[..css.IndexOf("@media", StringComparison.Ordinal)]).ToDictionary(match => match.Groups[1].Value, match => match.Groups[2].Value);

        Assert.Equal(
            new[] { Theme.Paper, Theme.Surface, Theme.Ink, Theme.Copper, Theme.CopperDark, Theme.CopperPale, Theme.Steel, Theme.SteelDark, Theme.Slate, Theme.Ok, Theme.OkPale, Theme.Warn, Theme.WarnPale, Theme.Stop, Theme.StopPale, Theme.Hairline, Theme.InputLine },
            new[] { "paper", "surface", "ink", "copper", "copper-dark", "copper-pale", "steel", "steel-dark", "slate", "ok", "ok-pale", "warn", "warn-pale", "stop", "stop-pale", "hairline", "input-line" }.Select(name => tokens[name]));
    }

    private static double Contrast(string one, string other)
    {
        var (a, b) = (Luminance(one), Luminance(other));
        return (Math.Max(a, b) + 0.05) / (Math.Min(a, b) + 0.05);
    }

    private static double Luminance(string colour)
    {
        return (0.2126 * Channel(1)) + (0.7152 * Channel(3)) + (0.0722 * Channel(5));

        double Channel(int at)
        {
            var share = int.Parse(colour.AsSpan(at, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture) / 255.0;
            return share <= 0.04045 ? share / 12.92 : Math.Pow((share + 0.055) / 1.055, 2.4);
        }
    }

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "ShopFloor.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("The solution's folder was not found above the tests.");
    }

    [GeneratedRegex(@"--([a-z-]+): (#[0-9A-F]{6});")]
    private static partial Regex Token();
}
