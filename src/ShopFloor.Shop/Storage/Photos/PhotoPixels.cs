using System.Runtime.InteropServices;
using SkiaSharp;

namespace ShopFloor.Shop.Storage.Photos;

/// <summary>The work on pixels: decode, turn upright, scale, encode.</summary>
internal static class PhotoPixels
{
    private static readonly SKColorSpace Srgb = SKColorSpace.CreateSrgb();

    // 32 MB of pixels at a time.
    private const int BandPixels = 8_000_000;

    private static readonly int[] ThumbnailQualities = [80, 70, 60, 50, 40, 30];

    /// <summary>All pixels in sRGB, or null if the decoder could not get through to the last one.</summary>
    public static SKBitmap? Decode(SKCodec codec, int edgePixels, bool rowsInOrder)
    {
        // The JPEG and WebP decoders can leave out detail while they work (eighths of the size), which saves most of the memory.
        var wanted = Math.Min(1f, edgePixels / (float)Math.Max(codec.Info.Width, codec.Info.Height));
        var size = codec.Info.Size;
        for (var eighths = 1; eighths < 8 && codec.EncodedFormat != SKEncodedImageFormat.Png; eighths++)
        {
            var scaled = codec.GetScaledDimensions(eighths / 8f);
            if (eighths / 8f >= wanted && Math.Max(scaled.Width, scaled.Height) >= edgePixels)
            {
                size = scaled;
                break;
            }
        }

        var info = new SKImageInfo(size.Width, size.Height, SKColorType.Rgba8888, codec.Info.AlphaType == SKAlphaType.Opaque ? SKAlphaType.Opaque : SKAlphaType.Premul, Srgb);
        var step = Math.Max(size.Width, size.Height) / edgePixels;
        if (rowsInOrder && codec.EncodedFormat == SKEncodedImageFormat.Png && step > 1)
        {
            return DecodeByBands(codec, info, step);
        }

        var bitmap = new SKBitmap(info);
        if (codec.GetPixels(bitmap.Info, bitmap.GetPixels()) == SKCodecResult.Success)
        {
            return bitmap;
        }

        bitmap.Dispose();
        return null;
    }

    /// <summary>
    /// Squares of <paramref name="step"/> pixels averaged into one, a band of rows at a time, so that a large PNG is never in memory as a
    /// whole. The decoder starts each band from the beginning of the file: memory is bought with time, and at most seven bands are needed.
    /// Rows and columns beyond the last whole square go: fewer than <paramref name="step"/> of thousands.
    /// </summary>
    private static SKBitmap? DecodeByBands(SKCodec codec, SKImageInfo full, int step)
    {
        var target = new SKBitmap(full.WithSize(full.Width / step, full.Height / step));
        var bandRows = Math.Max(1, BandPixels / full.Width / step) * step;
        var rows = new byte[full.RowBytes * Math.Min(bandRows, full.Height)];
        var band = GCHandle.Alloc(rows, GCHandleType.Pinned);
        try
        {
            for (var top = 0; top < full.Height; top += bandRows)
            {
                var count = Math.Min(bandRows, full.Height - top);
                var options = new SKCodecOptions(new SKRectI(0, top, full.Width, top + count));
                if (codec.StartIncrementalDecode(full, band.AddrOfPinnedObject(), full.RowBytes, options) != SKCodecResult.Success
                    || codec.IncrementalDecode() != SKCodecResult.Success)
                {
                    target.Dispose();
                    return null;
                }

                for (var row = 0; row + step <= count; row += step)
                {
                    Average(rows.AsSpan(row * full.RowBytes), full.RowBytes, step, target.GetPixelSpan().Slice((top + row) / step * target.RowBytes, target.Width * 4));
                }
            }
        }
        finally
        {
            band.Free();
        }

        return target;
    }

    private static void Average(ReadOnlySpan<byte> rows, int rowBytes, int step, Span<byte> averaged)
    {
        var area = step * step;
        for (var to = 0; to < averaged.Length; to += 4)
        {
            int red = area / 2, green = area / 2, blue = area / 2, alpha = area / 2;
            for (var row = 0; row < step; row++)
            {
                var square = rows.Slice((row * rowBytes) + (to * step), step * 4);
                for (var column = 0; column < square.Length; column += 4)
                {
                    red += square[column];
                    green += square[column + 1];
                    blue += square[column + 2];
                    alpha += square[column + 3];
                }
            }

            averaged[to] = (byte)(red / area);
            averaged[to + 1] = (byte)(green / area);
            averaged[to + 2] = (byte)(blue / area);
            averaged[to + 3] = (byte)(alpha / area);
        }
    }

    /// <summary>Fits the picture into the edge, turns it as the camera was held, and lays it on white where it is transparent.</summary>
    public static SKBitmap Upright(SKBitmap source, SKEncodedOrigin origin, int edgePixels)
    {
        var (width, height) = Fit(source.Width, source.Height, edgePixels);
        var turned = origin is SKEncodedOrigin.LeftTop or SKEncodedOrigin.RightTop or SKEncodedOrigin.RightBottom or SKEncodedOrigin.LeftBottom;
        var target = new SKBitmap(Opaque(turned ? height : width, turned ? width : height));
        using var canvas = new SKCanvas(target);
        canvas.Clear(SKColors.White);
        canvas.Concat(Turn(origin, width, height));
        using var pixels = source.PeekPixels();
        using var image = SKImage.FromPixels(pixels);
        canvas.DrawImage(image, new SKRect(0, 0, width, height), Sampling(source.Width, width), null);
        return target;
    }

    public static SKBitmap Scaled(SKBitmap source, int edgePixels)
    {
        var (width, height) = Fit(source.Width, source.Height, edgePixels);
        var target = new SKBitmap(Opaque(width, height));
        using var canvas = new SKCanvas(target);
        using var pixels = source.PeekPixels();
        using var image = SKImage.FromPixels(pixels);
        canvas.DrawImage(image, new SKRect(0, 0, width, height), Sampling(source.Width, width), null);
        return target;
    }

    // Tagged sRGB so that the decoder's colours pass unchanged.
    private static SKImageInfo Opaque(int width, int height) => new(width, height, SKColorType.Rgba8888, SKAlphaType.Opaque, Srgb);

    private static (int Width, int Height) Fit(int width, int height, int edgePixels)
    {
        var scale = Math.Min(1.0, edgePixels / (double)Math.Max(width, height));
        return (Math.Max(1, (int)Math.Round(width * scale)), Math.Max(1, (int)Math.Round(height * scale)));
    }

    private static SKSamplingOptions Sampling(int from, int to) => from switch
    {
        _ when from == to => SKSamplingOptions.Default,
        _ when from < 2 * to => new SKSamplingOptions(SKCubicResampler.Mitchell),
        _ => new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear),
    };

    /// <summary>Maps the camera's rows and columns onto the upright picture (Exif tag 0x0112, values 1 to 8).</summary>
    private static SKMatrix Turn(SKEncodedOrigin origin, int width, int height) => origin switch
    {
        SKEncodedOrigin.TopRight => new SKMatrix(-1, 0, width, 0, 1, 0, 0, 0, 1),
        SKEncodedOrigin.BottomRight => new SKMatrix(-1, 0, width, 0, -1, height, 0, 0, 1),
        SKEncodedOrigin.BottomLeft => new SKMatrix(1, 0, 0, 0, -1, height, 0, 0, 1),
        SKEncodedOrigin.LeftTop => new SKMatrix(0, 1, 0, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightTop => new SKMatrix(0, -1, height, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightBottom => new SKMatrix(0, -1, height, -1, 0, width, 0, 0, 1),
        SKEncodedOrigin.LeftBottom => new SKMatrix(0, 1, 0, -1, 0, width, 0, 0, 1),
        _ => SKMatrix.Identity,
    };

    public static byte[] Thumbnail(SKBitmap small, PhotoLimits limits)
    {
        byte[] best = [];
        foreach (var quality in ThumbnailQualities)
        {
            best = Encode(small, quality);
            if (best.Length <= limits.ThumbnailBytes)
            {
                break;
            }
        }

        return best;
    }

    public static byte[] Encode(SKBitmap bitmap, int quality)
    {
        // Without the colour space the encoder leaves the profile out; untagged JPEGs are read as sRGB.
        using var pixels = bitmap.PeekPixels();
        using var untagged = new SKPixmap(new SKImageInfo(pixels.Width, pixels.Height, pixels.ColorType, pixels.AlphaType), pixels.GetPixels(), pixels.RowBytes);
        using var data = untagged.Encode(new SKJpegEncoderOptions(quality, SKJpegEncoderDownsample.Downsample420, SKJpegEncoderAlphaOption.Ignore));
        return data?.ToArray() ?? throw new InvalidOperationException("The picture could not be encoded.");
    }
}
