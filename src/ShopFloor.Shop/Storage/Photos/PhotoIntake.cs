using System.Globalization;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using SkiaSharp;

namespace ShopFloor.Shop.Storage.Photos;

/// <summary>
/// Takes in an uploaded photo: bounded read, format by its bytes, size before decoding, full decode, turned upright, encoded anew.
/// Nothing of the uploaded file survives but its pixels, so place data, hidden scripts and damaged structures go with it.
/// </summary>
public static class PhotoIntake
{
    // Beyond this a PNG, which only decodes at full size, takes more than 64 MB and decodes alone.
    private const int LargePixels = 16_000_000;

    private static readonly SKColorSpace Srgb = SKColorSpace.CreateSrgb();
    private static readonly int[] ThumbnailQualities = [80, 70, 60, 50, 40, 30];

    /// <summary>Reads one upload. At most one byte beyond the limit is taken from the stream, which stays open.</summary>
    public static async Task<PhotoIntakeResult> ReadAsync(Stream upload, PhotoLimits limits, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(upload);
        ArgumentNullException.ThrowIfNull(limits);
        using var file = await ReadBoundedAsync(upload, limits.MaximumBytes + 1, cancellationToken);
        if (file.Length == 0)
        {
            return Refuse(PhotoRefusal.Empty, "The file is empty.", limits);
        }

        if (file.Length > limits.MaximumBytes)
        {
            return Refuse(PhotoRefusal.TooManyBytes, string.Create(CultureInfo.InvariantCulture, $"The file is larger than {limits.MaximumBytes / (1024.0 * 1024):0.#} MB."), limits);
        }

        var bytes = new ArraySegment<byte>(file.GetBuffer(), 0, (int)file.Length);
        var format = PhotoContainer.Sniff(bytes);
        if (format == PhotoFormat.Other)
        {
            return Refuse(PhotoRefusal.NotAPhoto, $"The file is {PhotoContainer.NameOfOther(bytes)}.", limits);
        }

        var alone = format != PhotoFormat.Jpeg && PixelsPromised(bytes) > LargePixels;
        return await PhotoDecodeGate.Process.RunAsync(() => Decode(bytes, format, limits, cancellationToken), alone, cancellationToken);
    }

    private static async Task<MemoryStream> ReadBoundedAsync(Stream upload, int most, CancellationToken cancellationToken)
    {
        var file = new MemoryStream();
        var chunk = new byte[81920];
        while (file.Length < most)
        {
            var wanted = (int)Math.Min(chunk.Length, most - file.Length);
            var count = await upload.ReadAsync(chunk.AsMemory(0, wanted), cancellationToken);
            if (count == 0)
            {
                break;
            }

            file.Write(chunk, 0, count);
        }

        return file;
    }

    private static long PixelsPromised(ArraySegment<byte> file)
    {
        var pin = GCHandle.Alloc(file.Array, GCHandleType.Pinned);
        try
        {
            using var data = SKData.Create(pin.AddrOfPinnedObject(), file.Count);
            using var codec = SKCodec.Create(data);
            return codec is null ? 0 : (long)codec.Info.Width * codec.Info.Height;
        }
        finally
        {
            pin.Free();
        }
    }

    private static PhotoIntakeResult Decode(ArraySegment<byte> file, PhotoFormat format, PhotoLimits limits, CancellationToken cancellationToken)
    {
        var pin = GCHandle.Alloc(file.Array, GCHandleType.Pinned);
        try
        {
            using var data = SKData.Create(pin.AddrOfPinnedObject(), file.Count);
            using var codec = SKCodec.Create(data);
            if (codec is null || codec.EncodedFormat != Encoded(format) || codec.Info.Width < 1 || codec.Info.Height < 1)
            {
                return Refuse(PhotoRefusal.Damaged, "The file begins like a photo but cannot be read; it is damaged.", limits);
            }

            var (width, height) = (codec.Info.Width, codec.Info.Height);
            if ((long)width * height > limits.MaximumPixels || Math.Max(width, height) > limits.MaximumEdgePixels)
            {
                return Refuse(
                    PhotoRefusal.TooManyPixels,
                    string.Create(CultureInfo.InvariantCulture, $"The picture has {width} x {height} pixels ({(double)width * height / 1e6:0.#} megapixels), which is too many (longest edge {limits.MaximumEdgePixels})."),
                    limits);
            }

            if (!PhotoContainer.IsWhole(format, file, out var scans))
            {
                return Refuse(PhotoRefusal.Damaged, "The photo is cut off: its end is missing. Send it again.", limits);
            }

            if (scans > PhotoContainer.MostScans)
            {
                return Refuse(PhotoRefusal.Damaged, string.Create(CultureInfo.InvariantCulture, $"The photo is built of {scans} layers, more than any camera writes."), limits);
            }

            cancellationToken.ThrowIfCancellationRequested();
            using var decoded = Pixels(codec, limits.StoredEdgePixels);
            if (decoded is null)
            {
                return Refuse(PhotoRefusal.Damaged, "The photo cannot be decoded to its end; it is damaged. Send it again.", limits);
            }

            cancellationToken.ThrowIfCancellationRequested();
            using var upright = Upright(decoded, codec.EncodedOrigin, limits.StoredEdgePixels);
            using var small = Scaled(upright, limits.ThumbnailEdgePixels);
            var jpeg = Encode(upright, limits.StoredQuality);
            return new PhotoIntakeResult.Accepted(new AcceptedPhoto(
                jpeg,
                Thumbnail(small, limits),
                upright.Width,
                upright.Height,
                Convert.ToHexStringLower(SHA256.HashData(jpeg))));
        }
        finally
        {
            pin.Free();
        }
    }

    private static SKEncodedImageFormat Encoded(PhotoFormat format) => format switch
    {
        PhotoFormat.Jpeg => SKEncodedImageFormat.Jpeg,
        PhotoFormat.Png => SKEncodedImageFormat.Png,
        PhotoFormat.WebP => SKEncodedImageFormat.Webp,
        _ => throw new ArgumentOutOfRangeException(nameof(format), format, "Not a format that is decoded."),
    };

    /// <summary>All pixels in sRGB, or null if the decoder could not get through to the last one.</summary>
    private static SKBitmap? Pixels(SKCodec codec, int edgePixels)
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

        var opaque = codec.Info.AlphaType == SKAlphaType.Opaque;
        var bitmap = new SKBitmap(new SKImageInfo(size.Width, size.Height, SKColorType.Rgba8888, opaque ? SKAlphaType.Opaque : SKAlphaType.Premul, Srgb));
        if (codec.GetPixels(bitmap.Info, bitmap.GetPixels()) == SKCodecResult.Success)
        {
            return bitmap;
        }

        bitmap.Dispose();
        return null;
    }

    /// <summary>Fits the picture into the edge, turns it as the camera was held, and lays it on white where it is transparent.</summary>
    private static SKBitmap Upright(SKBitmap source, SKEncodedOrigin origin, int edgePixels)
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

    private static SKBitmap Scaled(SKBitmap source, int edgePixels)
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

    private static byte[] Thumbnail(SKBitmap small, PhotoLimits limits)
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

    private static byte[] Encode(SKBitmap bitmap, int quality)
    {
        // Without the colour space the encoder leaves the profile out; untagged JPEGs are read as sRGB.
        using var pixels = bitmap.PeekPixels();
        using var untagged = new SKPixmap(new SKImageInfo(pixels.Width, pixels.Height, pixels.ColorType, pixels.AlphaType), pixels.GetPixels(), pixels.RowBytes);
        using var data = untagged.Encode(new SKJpegEncoderOptions(quality, SKJpegEncoderDownsample.Downsample420, SKJpegEncoderAlphaOption.Ignore));
        return data?.ToArray() ?? throw new InvalidOperationException("The picture could not be encoded.");
    }

    private static PhotoIntakeResult.Refused Refuse(PhotoRefusal reason, string what, PhotoLimits limits) =>
        new(reason, $"{what} {limits.Accepted}");
}
