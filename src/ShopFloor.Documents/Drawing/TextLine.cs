using System.Text;
using SkiaSharp;

namespace ShopFloor.Documents.Drawing;

/// <summary>Part of a line in one face.</summary>
internal sealed record TextSlice(Face Face, string Text, IReadOnlyList<Glyph> Glyphs);

/// <summary>One line of text, ready to be drawn.</summary>
internal sealed record TextLine(TextStyle Style, float Width, IReadOnlyList<TextSlice> Slices)
{
    /// <summary>Draws the line with its top left corner at the point.</summary>
    public void Draw(Sheet sheet, float x, float top)
    {
        if (sheet.IsRehearsal)
        {
            foreach (var slice in Slices)
                sheet.Faces.Use(slice.Face, slice.Text, slice.Glyphs);
            return;
        }
        using var paint = new SKPaint { Color = Style.Color, IsAntialias = true };
        var baseline = top + Style.Baseline;
        foreach (var slice in Slices)
        {
            using var font = Face.AtSize(sheet.Faces.Typeface(slice.Face), Style.Size);
            using var blob = Blob(slice, font);
            if (blob is not null)
                sheet.Canvas.DrawText(blob, x, baseline, paint);
            x += slice.Glyphs.Sum(glyph => glyph.Advance);
        }
    }

    private static SKTextBlob? Blob(TextSlice slice, SKFont font)
    {
        if (slice.Glyphs.Count == 0)
            return null;
        // The text and its clusters go along with the glyphs, so that the file says which characters they stand for
        // even where two characters share a glyph (micro sign and Greek mu).
        var text = Encoding.UTF8.GetBytes(slice.Text);
        var byteOffsets = ByteOffsets(slice.Text);
        using var builder = new SKTextBlobBuilder();
        var run = builder.AllocatePositionedTextRun(font, slice.Glyphs.Count, text.Length, null);
        var ids = new ushort[slice.Glyphs.Count];
        var points = new SKPoint[ids.Length];
        var clusters = new uint[ids.Length];
        var x = 0f;
        for (var i = 0; i < ids.Length; i++)
        {
            var glyph = slice.Glyphs[i];
            ids[i] = glyph.Id;
            points[i] = new SKPoint(x + glyph.OffsetX, -glyph.OffsetY);
            clusters[i] = (uint)byteOffsets[glyph.Cluster];
            x += glyph.Advance;
        }
        run.SetGlyphs(ids);
        run.SetPositions(points);
        run.SetText(text);
        run.SetClusters(clusters);
        return builder.Build();
    }

    private static int[] ByteOffsets(string text)
    {
        var offsets = new int[text.Length + 1];
        var bytes = 0;
        var index = 0;
        foreach (var rune in text.EnumerateRunes())
        {
            for (var i = 0; i < rune.Utf16SequenceLength; i++)
                offsets[index++] = bytes;
            bytes += rune.Utf8SequenceLength;
        }
        offsets[index] = bytes;
        return offsets;
    }
}
