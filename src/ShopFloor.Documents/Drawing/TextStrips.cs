using ShopFloor.Documents.Composition;
using SkiaSharp;

namespace ShopFloor.Documents.Drawing;

/// <summary>Strips of running text and of texts side by side.</summary>
internal static class TextStrips
{
    /// <summary>One strip a line; the first two and the last two lines stay together.</summary>
    public static List<Strip> Lines(IReadOnlyList<TextLine> lines, float x, Action<Sheet, float, float>? besideFirst = null)
    {
        var strips = new List<Strip>(lines.Count);
        for (var i = 0; i < lines.Count; i++)
        {
            var line = lines[i];
            var beside = i == 0 ? besideFirst : null;
            strips.Add(new Strip(line.Style.LineHeight, (sheet, left, top) =>
            {
                beside?.Invoke(sheet, left, top);
                line.Draw(sheet, left + x, top);
            })
            {
                Hold = i < lines.Count - 1 && (i == 0 || i == lines.Count - 2) ? Hold.Firm : Hold.None,
            });
        }
        return strips;
    }

    public static List<Strip> Lines(FormattedText text, TextStyle style, float x, float width, Action<Sheet, float,
        float>? besideFirst = null) =>
        Lines(new ShapedText(text, style).Wrap(width), x, besideFirst);

    /// <summary>
    /// Cells side by side as one strip, or as several when they are taller than <paramref name="tallest"/>.
    /// </summary>
    public static List<Strip> Row(IReadOnlyList<RowCell> cells, float padding, float tallest, Action<Sheet, float, float,
        float>? background = null)
    {
        var lineHeight = cells.Max(cell => cell.Lines.Count == 0 ? 0 : cell.Lines[0].Style.LineHeight);
        var lineCount = cells.Max(cell => cell.Lines.Count);
        var linesPerStrip = Math.Max(1, (int)((tallest - (2 * padding)) / lineHeight));
        var strips = new List<Strip>();
        for (var from = 0; from < lineCount; from += linesPerStrip)
        {
            var first = from;
            var count = Math.Min(linesPerStrip, lineCount - first);
            var height = (count * lineHeight) + (2 * padding);
            strips.Add(new Strip(height, (sheet, left, top) =>
            {
                background?.Invoke(sheet, left, top, height);
                foreach (var cell in cells)
                {
                    if (first == 0)
                        cell.Beside?.Invoke(sheet, left, top + padding);
                    cell.Draw(sheet, left, top + padding, first, count, lineHeight);
                }
            }));
        }
        return strips;
    }

    public static List<Strip> HoldingTo(this List<Strip> strips, Hold hold)
    {
        for (var i = 0; i < strips.Count; i++)
        {
            if (strips[i].Hold < hold)
                strips[i] = strips[i] with { Hold = hold };
        }
        return strips;
    }

    public static List<Strip> After(this List<Strip> strips, float space)
    {
        if (strips.Count > 0)
            strips[0] = strips[0] with { SpaceBefore = space };
        return strips;
    }

    public static void Rule(Sheet sheet, float left, float right, float y, float thickness, SKColor color)
    {
        using var paint = new SKPaint { Color = color, Style = SKPaintStyle.Fill };
        sheet.Canvas.DrawRect(left, y - (thickness / 2), right - left, thickness, paint);
    }
}

/// <summary>Wrapped text at a place in a row, with an optional mark beside its first line.</summary>
internal sealed record RowCell(IReadOnlyList<TextLine> Lines, float X, float Width, CellAlignment Alignment = CellAlignment.Start)
{
    public Action<Sheet, float, float>? Beside { get; init; }

    public void Draw(Sheet sheet, float left, float top, int first, int count, float lineHeight)
    {
        for (var i = first; i < Math.Min(first + count, Lines.Count); i++)
        {
            var line = Lines[i];
            var room = Width - line.Width;
            var shift = Alignment switch
            {
                CellAlignment.Start => 0,
                CellAlignment.Middle => room / 2,
                CellAlignment.End or CellAlignment.Number => room,
                _ => throw new InvalidOperationException($"Unknown alignment {Alignment}."),
            };
            line.Draw(sheet, left + X + shift, top + ((i - first) * lineHeight));
        }
    }
}
