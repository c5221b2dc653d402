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
    // Beyond this a picture that decodes at full size would take more than 64 MB.
    private const int LargePixels = 16_000_000;

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

            var interlaced = format == PhotoFormat.Png && PhotoContainer.IsInterlaced(file);
            if (interlaced && (long)width * height > LargePixels)
            {
                return Refuse(
                    PhotoRefusal.TooManyPixels,
                    string.Create(CultureInfo.InvariantCulture, $"The picture is an interlaced PNG of {(double)width * height / 1e6:0.#} megapixels; interlaced ones are taken up to {LargePixels / 1_000_000}. Save it as JPEG."),
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
            using var decoded = PhotoPixels.Decode(codec, limits.StoredEdgePixels, rowsInOrder: !interlaced);
            if (decoded is null)
            {
                return Refuse(PhotoRefusal.Damaged, "The photo cannot be decoded to its end; it is damaged. Send it again.", limits);
            }

            cancellationToken.ThrowIfCancellationRequested();
            using var upright = PhotoPixels.Upright(decoded, codec.EncodedOrigin, limits.StoredEdgePixels);
            using var small = PhotoPixels.Scaled(upright, limits.ThumbnailEdgePixels);
            var jpeg = PhotoPixels.Encode(upright, limits.StoredQuality);
            return new PhotoIntakeResult.Accepted(new AcceptedPhoto(
                jpeg,
                PhotoPixels.Thumbnail(small, limits),
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

    private static PhotoIntakeResult.Refused Refuse(PhotoRefusal reason, string what, PhotoLimits limits) =>
        new(reason, $"{what} {limits.Accepted}");
}
