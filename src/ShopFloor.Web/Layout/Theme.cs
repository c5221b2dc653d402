using MudBlazor;

namespace ShopFloor.Web.Layout;

/// <summary>Our colours and type for MudBlazor. The same values stand as CSS variables in <c>wwwroot/css/app.css</c>; a test compares the two.</summary>
public static class Theme
{
    public const string Paper = "#F6F4F0";
    public const string Surface = "#FFFFFF";
    public const string Ink = "#1E2427";
    public const string Copper = "#9A4614";
    public const string CopperDark = "#7C3710";
    public const string CopperPale = "#F7EBE2";
    public const string Steel = "#5B6770";
    public const string SteelDark = "#4A555D";
    public const string Slate = "#262D31";
    public const string Ok = "#2B6338";
    public const string OkPale = "#E6F1E6";
    public const string Warn = "#7A5200";
    public const string WarnPale = "#FFF3D6";
    public const string Stop = "#9C1C17";
    public const string StopPale = "#FDE9E7";
    public const string Hairline = "#D9D4CB";

    /// <summary>Outline of inputs: 3:1 against both paper and white, as WCAG 2.2 asks of a control's edge (1.4.11).</summary>
    public const string InputLine = "#857E72";

    private static readonly string[] Family = ["Source Sans 3", "system-ui", "sans-serif"];

    public static MudTheme Shop { get; } = new()
    {
        PaletteLight = new PaletteLight
        {
            Black = Ink,
            White = Surface,
            Primary = Copper,
            PrimaryContrastText = Surface,
            PrimaryDarken = CopperDark,
            PrimaryLighten = CopperPale,
            Secondary = Steel,
            SecondaryContrastText = Surface,
            Tertiary = SteelDark,
            TertiaryContrastText = Surface,
            Info = SteelDark,
            InfoContrastText = Surface,
            Success = Ok,
            SuccessContrastText = Surface,
            Warning = Warn,
            WarningContrastText = Surface,
            Error = Stop,
            ErrorContrastText = Surface,
            Dark = Slate,
            DarkContrastText = Surface,
            TextPrimary = Ink,
            TextSecondary = SteelDark,
            TextDisabled = Steel,
            ActionDefault = SteelDark,
            ActionDisabled = InputLine,
            ActionDisabledBackground = "#EBE7E0",
            Background = Paper,
            BackgroundGray = "#EFECE6",
            Surface = Surface,
            DrawerBackground = Slate,
            DrawerText = Paper,
            DrawerIcon = Paper,
            AppbarBackground = Surface,
            AppbarText = Ink,
            LinesDefault = Hairline,
            LinesInputs = InputLine,
            TableLines = Hairline,
            TableStriped = "#FAF9F6",
            TableHover = "#F3F0EA",
            Divider = Hairline,
            DividerLight = "#E8E4DC",
            Skeleton = "#E8E4DC",
            OverlayDark = "rgba(30,36,39,0.55)",
        },
        Typography = new Typography
        {
            Default = new DefaultTypography { FontFamily = Family, FontSize = "1rem", LineHeight = "1.5", LetterSpacing = "normal" },
            H1 = Heading<H1Typography>("1.75rem", "1.2"),
            H2 = Heading<H2Typography>("1.375rem", "1.25"),
            H3 = Heading<H3Typography>("1.125rem", "1.3"),
            H4 = Heading<H4Typography>("1.0625rem", "1.35"),
            H5 = Heading<H5Typography>("1rem", "1.4"),
            H6 = Heading<H6Typography>("1rem", "1.4"),
            Body1 = new Body1Typography { FontFamily = Family, FontSize = "1rem", LineHeight = "1.5", LetterSpacing = "normal" },
            Body2 = new Body2Typography { FontFamily = Family, FontSize = "0.9375rem", LineHeight = "1.45", LetterSpacing = "normal" },
            Subtitle1 = new Subtitle1Typography { FontFamily = Family, FontSize = "1rem", FontWeight = "600", LetterSpacing = "normal" },
            Subtitle2 = new Subtitle2Typography { FontFamily = Family, FontSize = "0.9375rem", FontWeight = "600", LetterSpacing = "normal" },
            Button = new ButtonTypography { FontFamily = Family, FontSize = "1rem", FontWeight = "600", LetterSpacing = "normal", TextTransform = "none" },
            Caption = new CaptionTypography { FontFamily = Family, FontSize = "0.875rem", LetterSpacing = "normal" },
            Overline = new OverlineTypography { FontFamily = Family, FontSize = "0.8125rem", FontWeight = "600", LetterSpacing = "normal", TextTransform = "none" },
        },
        LayoutProperties = new LayoutProperties { DefaultBorderRadius = "6px", AppbarHeight = "56px" },
    };

    private static T Heading<T>(string size, string lineHeight)
        where T : BaseTypography, new() =>
        new() { FontFamily = Family, FontSize = size, FontWeight = "600", LineHeight = lineHeight, LetterSpacing = "normal" };
}
