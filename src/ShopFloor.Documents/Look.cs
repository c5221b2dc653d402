namespace ShopFloor.Documents;

/// <summary>The colours and the typeface every printed page and diagram shares. All are told apart in greyscale.</summary>
public static class Look
{
    public const string Ink = "#1E2427";
    public const string Secondary = "#5B6770";
    public const string Accent = "#9A4614";
    public const string Fine = "#2B6338";
    public const string Hairline = "#C9D0D4";
    public const string Wash = "#F1F3F4";
    public const string Paper = "#FFFFFF";

    /// <summary>The family embedded in PDF files; on screen the page's own face stands in when it is not there.</summary>
    public const string FontFamily = "Source Sans 3";

    public const string FontFamilyList = "'Source Sans 3', 'Source Sans Pro', 'Noto Sans', Arial, sans-serif";
}
