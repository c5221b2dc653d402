using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using SkiaSharp;

namespace ShopFloor.Shop.Tests.Storage.Photos;

/// <summary>Picture files made in code, good and bad.</summary>
internal static class SamplePhotos
{
    public static readonly SKColor[] Corners = [new(220, 30, 30), new(30, 180, 40), new(40, 60, 220), new(230, 210, 40)];

    /// <summary>Four plain quarters, red and green above blue and yellow.</summary>
    public static byte[] Quarters(SKEncodedImageFormat format, int width = 64, int height = 32)
    {
        using var bitmap = new SKBitmap(new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Opaque));
        using var canvas = new SKCanvas(bitmap);
        for (var i = 0; i < 4; i++)
        {
            using var paint = new SKPaint { Color = Corners[i] };
            canvas.DrawRect(i % 2 * (width / 2), i / 2 * (height / 2), width / 2, height / 2, paint);
        }

        return Encode(bitmap, format, 95);
    }

    /// <summary>Grain over a gradient, as heavy for a decoder as a real photo.</summary>
    public static byte[] Grainy(SKEncodedImageFormat format, int width, int height, int quality = 90, int grain = 24)
    {
        using var bitmap = new SKBitmap(new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Opaque));
        var pixels = bitmap.GetPixelSpan();
        var random = new Random(7);
        for (var i = 0; i < pixels.Length; i += 4)
        {
            var (noise, column, row) = (random.Next(grain), i / 4 % width, i / 4 / width);
            pixels[i] = (byte)(40 + noise + (100 * row / height));
            pixels[i + 1] = (byte)(80 + noise);
            pixels[i + 2] = (byte)(60 + noise + (80 * column / width));
            pixels[i + 3] = 255;
        }

        return Encode(bitmap, format, quality);
    }

    public static byte[] HalfTransparentPng()
    {
        using var bitmap = new SKBitmap(new SKImageInfo(40, 20, SKColorType.Rgba8888, SKAlphaType.Premul));
        bitmap.Erase(SKColors.Transparent);
        using var canvas = new SKCanvas(bitmap);
        using var paint = new SKPaint { Color = Corners[2] };
        canvas.DrawRect(20, 0, 20, 20, paint);
        return Encode(bitmap, SKEncodedImageFormat.Png, 100);
    }

    /// <summary>Puts an Exif segment with an orientation and a place (GPS) behind the first two bytes of a JPEG.</summary>
    public static byte[] WithExif(byte[] jpeg, ushort orientation)
    {
        using var tiff = new MemoryStream();
        tiff.Write("MM\0*"u8);
        Number(tiff, 8u);
        Number(tiff, (ushort)2);
        Entry(tiff, 0x0112, 3, 1, (uint)orientation << 16);
        Entry(tiff, 0x8825, 4, 1, 38);
        Number(tiff, 0u);
        Number(tiff, (ushort)2);
        Entry(tiff, 1, 2, 2, (uint)'N' << 24);
        Entry(tiff, 2, 5, 3, 68);
        Number(tiff, 0u);
        tiff.Write(GpsRationals);
        byte[] payload = [.. "Exif\0\0"u8, .. tiff.ToArray()];
        byte[] segment = [0xFF, 0xE1, (byte)((payload.Length + 2) >> 8), (byte)(payload.Length + 2), .. payload];
        return [0xFF, 0xD8, .. segment, .. jpeg[2..]];
    }

    /// <summary>51 degrees 28 minutes 40.12 seconds, as Exif rationals.</summary>
    public static readonly byte[] GpsRationals =
        [0, 0, 0, 51, 0, 0, 0, 1, 0, 0, 0, 28, 0, 0, 0, 1, 0, 0, 0x0F, 0xAC, 0, 0, 0, 100];

    /// <summary>A PNG whose header promises more pixels than any memory holds; well formed otherwise.</summary>
    public static byte[] PngHeaderOf(uint width, uint height)
    {
        using var file = new MemoryStream();
        file.Write([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]);
        var header = new byte[13];
        BinaryPrimitives.WriteUInt32BigEndian(header, width);
        BinaryPrimitives.WriteUInt32BigEndian(header.AsSpan(4), height);
        (header[8], header[9]) = (8, 2);
        Chunk(file, "IHDR", header);
        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.Optimal, leaveOpen: true))
        {
            zlib.Write(new byte[1000]);
        }

        Chunk(file, "IDAT", packed.ToArray());
        Chunk(file, "IEND", []);
        return file.ToArray();
    }

    /// <summary>Writes other dimensions into a baseline JPEG's frame header.</summary>
    public static byte[] JpegClaiming(ushort width, ushort height)
    {
        var jpeg = Quarters(SKEncodedImageFormat.Jpeg);
        var frame = jpeg.AsSpan().IndexOf((ReadOnlySpan<byte>)[0xFF, 0xC0]);
        BinaryPrimitives.WriteUInt16BigEndian(jpeg.AsSpan(frame + 5), height);
        BinaryPrimitives.WriteUInt16BigEndian(jpeg.AsSpan(frame + 7), width);
        return jpeg;
    }

    /// <summary>A JPEG with many more scans than pixels need.</summary>
    public static byte[] JpegWithScans(int extra)
    {
        var jpeg = Quarters(SKEncodedImageFormat.Jpeg);
        var scan = new byte[] { 0xFF, 0xDA, 0x00, 0x08, 0x01, 0x01, 0x00, 0x00, 0x3F, 0x00, 0x00 };
        return [.. jpeg[..^2], .. Enumerable.Repeat(scan, extra).SelectMany(one => one), 0xFF, 0xD9];
    }

    public static byte[] Text(string text) => Encoding.UTF8.GetBytes(text);

    private static byte[] Encode(SKBitmap bitmap, SKEncodedImageFormat format, int quality)
    {
        using var data = bitmap.Encode(format, quality);
        return data.ToArray();
    }

    private static void Entry(Stream tiff, ushort tag, ushort type, uint count, uint value)
    {
        Number(tiff, tag);
        Number(tiff, type);
        Number(tiff, count);
        Number(tiff, value);
    }

    private static void Number(Stream stream, uint value) => stream.Write([(byte)(value >> 24), (byte)(value >> 16), (byte)(value >> 8), (byte)value]);

    private static void Number(Stream stream, ushort value) => stream.Write([(byte)(value >> 8), (byte)value]);

    private static void Chunk(Stream file, string type, byte[] data)
    {
        byte[] checkedPart = [.. Encoding.ASCII.GetBytes(type), .. data];
        Number(file, (uint)data.Length);
        file.Write(checkedPart);
        Number(file, Crc32(checkedPart));
    }

    // ISO/IEC 15948 (PNG) annex D.
    public static uint Crc32(byte[] bytes)
    {
        var crc = 0xFFFFFFFFu;
        foreach (var one in bytes)
        {
            crc ^= one;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) == 1 ? (crc >> 1) ^ 0xEDB88320u : crc >> 1;
            }
        }

        return ~crc;
    }
}
