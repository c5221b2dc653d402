using SkiaSharp;

namespace ShopFloor.Documents.Drawing;

/// <summary>A photo whose size is known at once and whose pixels are read only when it is drawn.</summary>
internal sealed class PhotoSource
{
    private const float PrintDpi = 200;

    // Small gains are not worth another loss of quality.
    private const float WorthShrinking = 1.25f;
    private const int Quality = 82;

    private readonly ReadOnlyMemory<byte> _bytes;
    private readonly SKEncodedOrigin _origin;

    private PhotoSource(ReadOnlyMemory<byte> bytes, SKCodec codec)
    {
        _bytes = bytes;
        _origin = codec.EncodedOrigin;
        var turned = _origin is SKEncodedOrigin.LeftTop or SKEncodedOrigin.RightTop or SKEncodedOrigin.RightBottom or SKEncodedOrigin.LeftBottom;
        (Width, Height) = turned ? (codec.Info.Height, codec.Info.Width) : (codec.Info.Width, codec.Info.Height);
    }

    /// <summary>Pixels across, upright.</summary>
    public int Width { get; }

    /// <summary>Pixels down, upright.</summary>
    public int Height { get; }

    /// <summary>Null when the bytes are not a picture.</summary>
    public static PhotoSource? Open(ReadOnlyMemory<byte> bytes)
    {
        if (bytes.IsEmpty)
            return null;
        using var data = SKData.CreateCopy(bytes.Span);
        using var codec = SKCodec.Create(data);
        return codec is null || codec.Info.Width < 1 || codec.Info.Height < 1 ? null : new PhotoSource(bytes, codec);
    }

    /// <summary>The picture upright in as many pixels as print needs at this size; null when its pixels cannot be read.</summary>
    public SKImage? ForPrint(float widthPoints, float heightPoints)
    {
        var scale = Math.Min(1, Math.Max(widthPoints / Width, heightPoints / Height) * PrintDpi / 72);
        if (scale * WorthShrinking > 1)
            scale = 1;
        using var data = SKData.CreateCopy(_bytes.Span);
        using var codec = SKCodec.Create(data);
        if (codec is null)
            return null;
        // The codec offers only certain sizes; ask for one at least as large as needed.
        var decoded = codec.GetScaledDimensions(scale);
        if (decoded.Width < codec.Info.Width * scale || decoded.Height < codec.Info.Height * scale)
            decoded = codec.GetScaledDimensions(Math.Min(1, scale * 2));
        using var pixels = new SKBitmap(new SKImageInfo(decoded.Width, decoded.Height, SKColorType.Rgba8888, SKAlphaType.Premul,
            SKColorSpace.CreateSrgb()));
        var result = codec.GetPixels(pixels.Info, pixels.GetPixels());
        if (result is not (SKCodecResult.Success or SKCodecResult.IncompleteInput))
            return null;
        if (scale == 1 && result == SKCodecResult.Success && _origin == SKEncodedOrigin.TopLeft && codec.EncodedFormat == SKEncodedImageFormat.Jpeg
            && JpegMetadata.Strip(_bytes.Span) is { } unchanged)
        {
            return SKImage.FromEncodedData(unchanged);
        }
        return Encode(pixels, Math.Max(1, (int)MathF.Round(Width * scale)), Math.Max(1, (int)MathF.Round(Height * scale)));
    }

    private SKImage? Encode(SKBitmap pixels, int width, int height)
    {
        using var surface = SKSurface.Create(new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Premul,
            SKColorSpace.CreateSrgb()));
        var canvas = surface.Canvas;
        canvas.Clear(SKColors.White);
        canvas.Scale(width, height);
        canvas.Concat(Upright(_origin));
        using var image = SKImage.FromBitmap(pixels);
        canvas.DrawImage(image, new SKRect(0, 0, 1, 1), new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        using var flat = surface.Snapshot();
        using var jpeg = flat.Encode(SKEncodedImageFormat.Jpeg, Quality);
        return jpeg is null ? null : SKImage.FromEncodedData(jpeg);
    }

    /// <summary>Turns the unit square of the stored picture upright (orientation values of Exif 2.3, tag 274).</summary>
    private static SKMatrix Upright(SKEncodedOrigin origin) => origin switch
    {
        SKEncodedOrigin.TopRight => new SKMatrix(-1, 0, 1, 0, 1, 0, 0, 0, 1),
        SKEncodedOrigin.BottomRight => new SKMatrix(-1, 0, 1, 0, -1, 1, 0, 0, 1),
        SKEncodedOrigin.BottomLeft => new SKMatrix(1, 0, 0, 0, -1, 1, 0, 0, 1),
        SKEncodedOrigin.LeftTop => new SKMatrix(0, 1, 0, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightTop => new SKMatrix(0, -1, 1, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightBottom => new SKMatrix(0, -1, 1, -1, 0, 1, 0, 0, 1),
        SKEncodedOrigin.LeftBottom => new SKMatrix(0, 1, 0, -1, 0, 1, 0, 0, 1),
        _ => SKMatrix.Identity,
    };
}
