namespace ShopFloor.Engineering.Explained;

/// <summary>What stands in place of a source where there is none.</summary>
public static class Unsourced
{
    /// <summary>Mark of a custom of the trade for which no published source is known.</summary>
    public const string CommonPractice = "common practice, no source";
}
