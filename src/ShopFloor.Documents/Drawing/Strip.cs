namespace ShopFloor.Documents.Drawing;

/// <summary>How firmly a strip holds to the next one.</summary>
internal enum Hold
{
    None,

    /// <summary>Same page if the whole run of strips fits on one.</summary>
    Together,

    /// <summary>Same page in any case: a heading and its text, two lines of a paragraph.</summary>
    Firm,
}

/// <summary>A full-width piece of a page that is never cut. Heights are in points; drawing starts at the strip's top left corner.</summary>
internal sealed record Strip(float Height, Action<Sheet, float, float> Draw)
{
    /// <summary>Empty height above, left out at the top of a page.</summary>
    public float SpaceBefore { get; init; }

    public Hold Hold { get; init; }

    public bool StartsNewPage { get; init; }

    /// <summary>Drawn again above this strip when it is the first on a page.</summary>
    public Strip? RepeatedHeader { get; init; }
}
