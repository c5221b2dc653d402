using System.Runtime.InteropServices;
using SkiaSharp;

namespace ShopFloor.Shop.Storage.Photos;

/// <summary>The work on pixels: decode, turn upright, scale, encode.</summary>
internal static class PhotoPixels
{
    private static readonly SKColorSpace Srgb = SKColorSpace.CreateSrgb();
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
        if (rowsInOrder && codec.EncodedFormat == SKEncodedImageFormat.Png && step > 1 && codec.StartScanlineDecode(info) == SKCodecResult.Success)
        {
            return DecodeByRows(codec, info, step);
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
    /// Squares of <paramref name="step"/> pixels averaged into one while the rows come in, so that a large PNG is never in memory as a
    /// whole. Rows and columns beyond the last whole square go: fewer than <paramref name="step"/> of thousands.
    /// </summary>
    private static SKBitmap? DecodeByRows(SKCodec codec, SKImageInfo full, int step)
    {
        var target = new SKBitmap(full.WithSize(full.Width / step, full.Height / step));
        var sums = new uint[target.Width * 4];
        var rows = new byte[full.RowBytes * step];
        var area = (uint)(step * step);
        var band = GCHandle.Alloc(rows, GCHandleType.Pinned);
        try
        {
            for (var y = 0; y < full.Height; y += step)
            {
                var count = Math.Min(step, full.Height - y);
                if (codec.GetScanlines(band.AddrOfPinnedObject(), count, full.RowBytes) != count)
                {
                    target.Dispose();
                    return null;
                }

                if (count < step)
                {
                    // The last rows are read all the same: a file that breaks off in them is damaged.
                    break;
                }

                Array.Clear(sums);
                for (var row = 0; row < step; row++)
                {
                    var line = rows.AsSpan(row * full.RowBytes, target.Width * step * 4);
                    for (int from = 0, to = 0; to < sums.Length; to += 4)
                    {
                        for (var column = 0; column < step; column++, from += 4)
                        {
                            sums[to] += line[from];
                            sums[to + 1] += line[from + 1];
                            sums[to + 2] += line[from + 2];
                            sums[to + 3] += line[from + 3];
                        }
                    }
                }

                var written = target.GetPixelSpan().Slice(y / step * target.RowBytes, sums.Length);
                for (var i = 0; i < sums.Length; i++)
                {
                    written[i] = (byte)((sums[i] + (area / 2)) / area);
                }
            }
        }
        finally
        {
            band.Free();
        }

        return target;
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
