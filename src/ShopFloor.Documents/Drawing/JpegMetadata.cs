namespace ShopFloor.Documents.Drawing;

/// <summary>
/// Leaves camera data (place, time, owner, thumbnails) out of a JPEG without touching the picture.
/// Marker layout from ITU-T T.81, annex B.
/// </summary>
internal static class JpegMetadata
{
    private const byte StartOfImage = 0xD8;
    private const byte EndOfImage = 0xD9;
    private const byte StartOfScan = 0xDA;
    private const byte Comment = 0xFE;
    private const byte App0 = 0xE0;
    private const byte App2 = 0xE2;
    private const byte App14 = 0xEE;
    private const byte App15 = 0xEF;

    /// <summary>The picture alone, or null when the markers cannot be followed.</summary>
    public static byte[]? Strip(ReadOnlySpan<byte> jpeg)
    {
        if (jpeg.Length < 4 || jpeg[0] != 0xFF || jpeg[1] != StartOfImage)
            return null;
        using var kept = new MemoryStream(jpeg.Length);
        kept.Write(jpeg[..2]);
        var at = 2;
        while (at + 4 <= jpeg.Length && jpeg[at] == 0xFF)
        {
            var marker = jpeg[at + 1];
            if (marker == 0xFF)
            {
                at++;
                continue;
            }
            if (marker == EndOfImage)
                break;
            var length = 2 + (jpeg[at + 2] << 8) + jpeg[at + 3];
            if (at + length > jpeg.Length)
                return null;
            var segment = jpeg.Slice(at, length);
            if (IsPicture(marker, segment))
                kept.Write(segment);
            at += length;
            if (marker == StartOfScan)
            {
                var end = EndOfScan(jpeg, at);
                kept.Write(jpeg[at..end]);
                at = end;
            }
        }
        kept.Write([0xFF, EndOfImage]);
        return kept.ToArray();
    }

    private static bool IsPicture(byte marker, ReadOnlySpan<byte> segment) => marker switch
    {
        App0 or App14 => true,
        App2 => segment.Length > 16 && segment[4..].StartsWith("ICC_PROFILE\0"u8),
        Comment => false,
        > App0 and <= App15 => false,
        _ => true,
    };

    private static int EndOfScan(ReadOnlySpan<byte> jpeg, int at)
    {
        for (; at + 1 < jpeg.Length; at++)
        {
            // A stuffed zero and restart markers belong to the scan.
            if (jpeg[at] == 0xFF && jpeg[at + 1] is not (0x00 or (>= 0xD0 and <= 0xD7) or 0xFF))
                return at;
        }
        return jpeg.Length;
    }
}
