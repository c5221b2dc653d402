using System.Buffers.Binary;

namespace ShopFloor.Shop.Storage.Photos;

/// <summary>What the first bytes of an upload say it is. File names and content types are claims and are not asked.</summary>
internal enum PhotoFormat
{
    Jpeg,
    Png,
    WebP,
    Other,
}

/// <summary>Reads the outer structure of a picture file without decoding it.</summary>
internal static class PhotoContainer
{
    /// <summary>
    /// Most scans of a progressive JPEG. Cameras write about ten; each costs a pass over all pixels, so that a small file of
    /// thousands of scans could hold a core for hours.
    /// </summary>
    public const int MostScans = 64;

    // Signature 8, length 4, "IHDR" 4, width 4, height 4, depth, colour type, compression and filter 1 each.
    private const int InterlaceOffset = 28;

    public static PhotoFormat Sniff(ReadOnlySpan<byte> file) =>
        file.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF]) ? PhotoFormat.Jpeg
        : file.StartsWith((ReadOnlySpan<byte>)[0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]) ? PhotoFormat.Png
        : file.Length >= 16 && file.StartsWith("RIFF"u8) && file[8..12].SequenceEqual("WEBP"u8) ? PhotoFormat.WebP
        : PhotoFormat.Other;

    /// <summary>Names a format that is not accepted, so that the refusal can say what was sent.</summary>
    public static string NameOfOther(ReadOnlySpan<byte> file)
    {
        var start = file[..Math.Min(file.Length, 512)].TrimStart((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF, 0x20, 0x09, 0x0A, 0x0D]);
        return start.StartsWith("GIF8"u8) ? "a GIF picture"
            : start.StartsWith("%PDF"u8) ? "a PDF document"
            : start.StartsWith("BM"u8) ? "a BMP picture"
            : start.StartsWith("II*\0"u8) || start.StartsWith("MM\0*"u8) ? "a TIFF or raw camera picture"
            : start.StartsWith("PK"u8) ? "a ZIP file or an office document"
            : start.StartsWith("<"u8) ? (start.IndexOf("<svg"u8) >= 0 ? "an SVG drawing" : "a web page or XML text")
            : start.Length >= 12 && start[4..8].SequenceEqual("ftyp"u8) ? NameOfMediaBrand(start[8..12])
            : "not a picture this page knows";
    }

    /// <summary>
    /// Whether the file reaches the end its own structure announces. A decoder fills what is missing with grey, so a cut-off upload
    /// has to be found here. Bytes after the end (motion clips, or worse) do not matter: they are not kept.
    /// </summary>
    public static bool IsWhole(PhotoFormat format, ReadOnlySpan<byte> file, out int scans)
    {
        scans = 0;
        return format switch
        {
            PhotoFormat.Jpeg => WalkJpeg(file, out scans),
            PhotoFormat.Png => WalkPng(file),
            PhotoFormat.WebP => BinaryPrimitives.ReadUInt32LittleEndian(file[4..8]) <= file.Length - 8L,
            PhotoFormat.Other => false,
            _ => throw new ArgumentOutOfRangeException(nameof(format), format, "Unknown format."),
        };
    }

    /// <summary>Whether a PNG stores its rows in seven passes (PNG specification, IHDR, last byte), so that no row is whole before the end.</summary>
    public static bool IsInterlaced(ReadOnlySpan<byte> png) => png.Length > InterlaceOffset && png[InterlaceOffset] != 0;

    private static string NameOfMediaBrand(ReadOnlySpan<byte> brand) =>
        brand.SequenceEqual("heic"u8) || brand.SequenceEqual("heix"u8) || brand.SequenceEqual("mif1"u8) || brand.SequenceEqual("msf1"u8)
            ? "a HEIC photo (set the phone's camera to save JPEG)"
            : brand.SequenceEqual("avif"u8) ? "an AVIF picture" : "a film clip";

    // ITU-T T.81 annex B: segments with a length, then scans of entropy-coded data in which FF is followed by 00 or a restart marker.
    private static bool WalkJpeg(ReadOnlySpan<byte> file, out int scans)
    {
        scans = 0;
        var at = 2;
        while (at + 1 < file.Length)
        {
            if (file[at] != 0xFF)
            {
                return false;
            }

            var marker = file[at + 1];
            if (marker == 0xFF)
            {
                at++; // fill byte
                continue;
            }

            at += 2;
            if (marker == 0xD9)
            {
                return scans > 0;
            }

            if (marker is 0x01 or (>= 0xD0 and <= 0xD7))
            {
                continue;
            }

            if (at + 2 > file.Length)
            {
                return false;
            }

            at += BinaryPrimitives.ReadUInt16BigEndian(file[at..]);
            if (marker == 0xDA)
            {
                scans++;
                at = EndOfScan(file, at);
            }
        }

        return false;
    }

    private static int EndOfScan(ReadOnlySpan<byte> file, int at)
    {
        while (at < file.Length)
        {
            var step = file[at..].IndexOf((byte)0xFF);
            if (step < 0 || at + step + 1 >= file.Length)
            {
                return file.Length;
            }

            at += step;
            if (file[at + 1] is not (0x00 or (>= 0xD0 and <= 0xD7)))
            {
                return at;
            }

            at += 2;
        }

        return at;
    }

    // ISO/IEC 15948 (PNG) 5.3: length, type, data, checksum; the last chunk is IEND.
    private static bool WalkPng(ReadOnlySpan<byte> file)
    {
        var at = 8L;
        while (at + 12 <= file.Length)
        {
            var length = BinaryPrimitives.ReadUInt32BigEndian(file[(int)at..]);
            if (file.Slice((int)at + 4, 4).SequenceEqual("IEND"u8))
            {
                return true;
            }

            at += 12 + (long)length;
        }

        return false;
    }
}
