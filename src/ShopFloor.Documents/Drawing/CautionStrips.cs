using ShopFloor.Documents.Composition;
using SkiaSharp;

namespace ShopFloor.Documents.Drawing;

/// <summary>A caution as a washed panel with a bar, a shape and a word.</summary>
internal static class CautionStrips
{
    private const float TextLeft = 44;
    private const float IconSize = 24;
    private const float Padding = 7;

    public static List<Strip> Build(Caution caution, DocumentWords words, float width)
    {
        var word = caution.Kind switch
        {
            CautionKind.Note => words.Note,
            CautionKind.Caution => words.Caution,
            CautionKind.Danger => words.Danger,
            _ => throw new ArgumentOutOfRangeException(nameof(caution), caution.Kind, "Unknown kind of caution."),
        };
        var lines = new ShapedText(word, TextStyle.Subheading).Wrap(width - TextLeft - Padding);
        lines.AddRange(new ShapedText(caution.Text, TextStyle.Body).Wrap(width - TextLeft - Padding));
        var strips = new List<Strip>();
        for (var i = 0; i < lines.Count; i++)
        {
            var line = lines[i];
            var (isFirst, isLast) = (i == 0, i == lines.Count - 1);
            var above = isFirst ? Padding : 0;
            var height = line.Style.LineHeight + above + (isLast ? Padding : 0);
            strips.Add(new Strip(height, (sheet, left, top) =>
            {
                Panel(sheet, caution.Kind, left, top, width, height);
                line.Draw(sheet, left + TextLeft, top + above);
            })
            {
                Hold = isLast ? Hold.None : i == 0 || i == lines.Count - 2 ? Hold.Firm : Hold.Together,
            });
        }
        // The shape reaches below the first line, so it is drawn with the second, which always stands on the same page.
        var second = strips[1];
        var firstHeight = strips[0].Height;
        strips[1] = second with
        {
            Draw = (sheet, left, top) =>
            {
                second.Draw(sheet, left, top);
                Shape(sheet, caution.Kind, left + 11, top - firstHeight + Padding + 1);
            },
        };
        return strips;
    }

    private static void Panel(Sheet sheet, CautionKind kind, float left, float top, float width, float height)
    {
        using var wash = new SKPaint { Color = TextStyle.Wash };
        sheet.Canvas.DrawRect(left, top, width, height, wash);
        using var bar = new SKPaint { Color = kind == CautionKind.Note ? TextStyle.Secondary : kind == CautionKind.Danger ? TextStyle.Ink : TextStyle.Accent };
        sheet.Canvas.DrawRect(left, top, kind == CautionKind.Note ? 1.5f : 3, height, bar);
    }

    private static void Shape(Sheet sheet, CautionKind kind, float x, float y)
    {
        using var fill = new SKPaint { IsAntialias = true, Style = SKPaintStyle.Fill };
        using var mark = new SKPaint { IsAntialias = true, Color = SKColors.White, Style = SKPaintStyle.StrokeAndFill, StrokeWidth = 0.2f };
        var middle = x + (IconSize / 2);
        switch (kind)
        {
            case CautionKind.Note:
                fill.Style = SKPaintStyle.Stroke;
                fill.StrokeWidth = 1.6f;
                fill.Color = mark.Color = TextStyle.Secondary;
                sheet.Canvas.DrawCircle(middle, y + (IconSize / 2), (IconSize / 2) - 1.5f, fill);
                sheet.Canvas.DrawCircle(middle, y + 7.4f, 1.5f, mark);
                sheet.Canvas.DrawRect(middle - 1.2f, y + 10.4f, 2.4f, 7.6f, mark);
                break;
            case CautionKind.Caution:
                fill.Color = TextStyle.Accent;
                fill.StrokeJoin = SKStrokeJoin.Round;
                fill.Style = SKPaintStyle.StrokeAndFill;
                fill.StrokeWidth = 3;
                Polygon(sheet, fill, [(12, 2.5f), (22.5f, 20.5f), (1.5f, 20.5f)], x, y);
                sheet.Canvas.DrawRect(middle - 1.2f, y + 7.5f, 2.4f, 7.4f, mark);
                sheet.Canvas.DrawCircle(middle, y + 18, 1.5f, mark);
                break;
            case CautionKind.Danger:
                fill.Color = TextStyle.Ink;
                Polygon(sheet, fill, [(7, 0), (17, 0), (24, 7), (24, 17), (17, 24), (7, 24), (0, 17), (0, 7)], x, y);
                sheet.Canvas.DrawRect(middle - 1.4f, y + 5, 2.8f, 9, mark);
                sheet.Canvas.DrawCircle(middle, y + 17.8f, 1.7f, mark);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(kind), kind, "Unknown kind of caution.");
        }
    }

    private static void Polygon(Sheet sheet, SKPaint paint, (float X, float Y)[] corners, float x, float y)
    {
        using var builder = new SKPathBuilder();
        builder.AddPoly([.. corners.Select(corner => new SKPoint(x + corner.X, y + corner.Y))], true);
        using var path = builder.Detach();
        sheet.Canvas.DrawPath(path, paint);
    }
}
