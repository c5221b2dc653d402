using SkiaSharp;

namespace ShopFloor.Documents.Tests.Drawing;

/// <summary>Photos made on the spot: coloured discs, so that they compress about as badly as a real photo.</summary>
internal static class TestPhotos
{
    public static byte[] Jpeg(int width, int height, int seed)
    {
        var random = new Random(seed);
        using var bitmap = new SKBitmap(width, height);
        using (var canvas = new SKCanvas(bitmap))
        {
            for (var i = 0; i < 300; i++)
            {
                using var paint = new SKPaint { Color = new SKColor((uint)random.Next() | 0xFF000000) };
                canvas.DrawCircle(random.Next(width), random.Next(height), random.Next(4, Math.Max(5, width / 8)), paint);
            }
        }
        return Encode(bitmap);
    }

    /// <summary>Red on the left half, blue on the right.</summary>
    public static byte[] RedThenBlue(int width, int height)
    {
        using var bitmap = new SKBitmap(width, height);
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(SKColors.Blue);
            using var red = new SKPaint { Color = SKColors.Red };
            canvas.DrawRect(0, 0, width / 2f, height, red);
        }
        return Encode(bitmap);
    }

    /// <summary>Adds an Exif segment with an orientation (Exif 2.3, tag 274) and some bytes a camera might write.</summary>
    public static byte[] WithExif(byte[] jpeg, byte orientation, string cameraText)
    {
        byte[] tiff =
        [
            (byte)'M', (byte)'M', 0, 42, 0, 0, 0, 8,
            0, 1,
            0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0,
            0, 0, 0, 0,
        ];
        byte[] body = [.. "Exif\0\0"u8, .. tiff, .. System.Text.Encoding.ASCII.GetBytes(cameraText)];
        var length = body.Length + 2;
        return [0xFF, 0xD8, 0xFF, 0xE1, (byte)(length >> 8), (byte)length, .. body, .. jpeg[2..]];
    }

    private static byte[] Encode(SKBitmap bitmap)
    {
        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 92);
        return data.ToArray();
    }
}
