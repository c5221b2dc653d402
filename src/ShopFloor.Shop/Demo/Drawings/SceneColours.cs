using SkiaSharp;

namespace ShopFloor.Shop.Demo.Drawings;

/// <summary>The colours of one invented car and its build.</summary>
internal sealed record SceneColours(SKColor Paint, SKColor Trim, SKColor Accent)
{
    private static readonly SKColor[] Paints =
    [
        new(0x2F, 0x6F, 0x8F), new(0xB5, 0x4A, 0x3A), new(0x4E, 0x6B, 0x4A), new(0xD0, 0xA0, 0x3C),
        new(0x5A, 0x5F, 0x73), new(0xC9, 0xCE, 0xCF), new(0x7A, 0x3E, 0x55), new(0x2B, 0x47, 0x6E),
    ];

    private static readonly SKColor[] Trims = [new(0x3A, 0x3D, 0x42), new(0x4A, 0x42, 0x3C), new(0x38, 0x42, 0x47)];

    private static readonly SKColor[] Accents = [new(0x4F, 0xC3, 0xD9), new(0xF2, 0xB1, 0x5A), new(0x8F, 0xD1, 0x8A)];

    public static SceneColours Of(int seed)
    {
        var random = new Random(seed);
        return new SceneColours(Paints[random.Next(Paints.Length)], Trims[random.Next(Trims.Length)], Accents[random.Next(Accents.Length)]);
    }
}
