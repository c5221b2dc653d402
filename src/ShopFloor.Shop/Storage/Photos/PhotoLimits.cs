using System.Globalization;

namespace ShopFloor.Shop.Storage.Photos;

/// <summary>What a photo may be when it comes in, and what becomes of it.</summary>
public sealed record PhotoLimits
{
    public static PhotoLimits Standard { get; } = new();

    /// <summary>Largest upload in bytes.</summary>
    public int MaximumBytes { get; init; } = 25 * 1024 * 1024;

    /// <summary>Most pixels, width times height.</summary>
    public int MaximumPixels { get; init; } = 50_000_000;

    /// <summary>Longest edge in pixels; a picture of 50 million by 1 is no photo.</summary>
    public int MaximumEdgePixels { get; init; } = 20_000;

    /// <summary>Longest edge of the stored picture in pixels.</summary>
    public int StoredEdgePixels { get; init; } = 2560;

    /// <summary>JPEG quality of the stored picture, 1 to 100.</summary>
    public int StoredQuality { get; init; } = 85;

    /// <summary>Longest edge of the thumbnail in pixels.</summary>
    public int ThumbnailEdgePixels { get; init; } = 480;

    /// <summary>Size the thumbnail is brought down to if its quality can give it.</summary>
    public int ThumbnailBytes { get; init; } = 30 * 1024;

    /// <summary>What is accepted, in words for the person with the phone.</summary>
    public string Accepted => string.Create(
        CultureInfo.InvariantCulture,
        $"Accepted are JPEG, PNG or WebP up to {MaximumBytes / (1024.0 * 1024):0.#} MB and {MaximumPixels / 1e6:0.#} megapixels.");
}
