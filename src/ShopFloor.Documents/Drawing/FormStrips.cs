using ShopFloor.Documents.Composition;
using SkiaSharp;

namespace ShopFloor.Documents.Drawing;

/// <summary>Strips of facts, boxes to tick and places to sign.</summary>
internal static class FormStrips
{
    private const float Gap = 16;
    private const float BoxSize = 11;
    private const float SigningHeight = 46;

    public static List<Strip> KeyValues(KeyValues block, float width, float pageHeight)
    {
        CheckAcross(block.Across, 3, nameof(KeyValues));
        var columnWidth = (width - (Gap * (block.Across - 1))) / block.Across;
        var names = block.Facts.Select(fact => new ShapedText(FormattedText.FromString(fact.Name), TextStyle.Label)).ToList();
        var nameWidth = Math.Min(names.Select(name => name.NaturalWidth).DefaultIfEmpty().Max() + 0.1f, columnWidth * 0.4f);
        var valueLeft = nameWidth + 12;
        var strips = new List<Strip>();
        foreach (var row in block.Facts.Zip(names).Chunk(block.Across))
        {
            var cells = row.SelectMany((pair, i) =>
            {
                var left = i * (columnWidth + Gap);
                var value = new ShapedText(pair.First.Value, TextStyle.Body with { Size = 9.5f, LineHeight = TextStyle.Label.LineHeight });
                return new[]
                {
                    new RowCell(pair.Second.Wrap(nameWidth), left, nameWidth),
                    new RowCell(value.Wrap(columnWidth - valueLeft), left + valueLeft, columnWidth - valueLeft),
                };
            }).ToList();
            strips.AddRange(TextStrips.Row(cells, 2.2f, pageHeight, (sheet, left, top, height) =>
            {
                for (var i = 0; i < row.Length; i++)
                {
                    var from = left + (i * (columnWidth + Gap));
                    TextStrips.Rule(sheet, from, from + columnWidth, top + height, 0.5f, TextStyle.Hairline);
                }
            }));
        }
        return strips;
    }

    public static List<Strip> Checklist(Checklist block, float width, float pageHeight)
    {
        CheckAcross(block.Across, 4, nameof(Checklist));
        var columnWidth = (width - (Gap * (block.Across - 1))) / block.Across;
        var textLeft = BoxSize + 8;
        var strips = new List<Strip>();
        foreach (var row in block.Items.Chunk(block.Across))
        {
            var cells = row.Select((item, i) =>
            {
                var left = i * (columnWidth + Gap);
                return new RowCell(new ShapedText(item.Text, TextStyle.Body).Wrap(columnWidth - textLeft), left + textLeft,
                    columnWidth - textLeft)
                {
                    Beside = (sheet, x, y) => Box(sheet, x + left, y + 1.5f, item.Ticked),
                };
            }).ToList();
            strips.AddRange(TextStrips.Row(cells, 3, pageHeight));
        }
        return strips;
    }

    public static List<Strip> Labels(Labels block, float width, float pageHeight)
    {
        const int Across = 3;
        const float Inset = 8;
        var columnWidth = width / Across;
        var textWidth = columnWidth - (2 * Inset);
        var strips = new List<Strip>();
        foreach (var row in block.Items.Chunk(Across))
        {
            // Mark, text and detail are rows of their own, so that labels beside each other line up.
            List<Strip> Part(Func<Label, string> text, TextStyle style, float padding) => TextStrips.Row(
                [.. row.Select((label, i) => new RowCell(new ShapedText(FormattedText.FromString(text(label)), style).Wrap(textWidth), (i * columnWidth) + Inset, textWidth))],
                padding,
                pageHeight / 4);
            List<Strip> parts =
            [
                .. Part(label => label.Mark, TextStyle.SectionTitle, 3),
                .. Part(label => label.Text, TextStyle.Cell, 0),
                .. Part(label => label.Detail, TextStyle.Remark, 2),
            ];
            var height = parts.Sum(part => part.Height + part.SpaceBefore) + 4;
            strips.Add(new Strip(height, (sheet, left, top) =>
            {
                var y = top;
                foreach (var part in parts)
                {
                    y += part.SpaceBefore;
                    part.Draw(sheet, left, y);
                    y += part.Height;
                }

                using var cut = new SKPaint { Color = TextStyle.Secondary, IsAntialias = true, Style = SKPaintStyle.Stroke, StrokeWidth = 0.6f, PathEffect = SKPathEffect.CreateDash([4, 3], 0) };
                for (var i = 0; i < row.Length; i++)
                    sheet.Canvas.DrawRect(left + (i * columnWidth), top, columnWidth, height, cut);
            }));
        }
        return strips;
    }

    public static List<Strip> Signatures(Signatures block, DocumentWords words, float width)
    {
        var strips = new List<Strip>();
        foreach (var row in block.Items.Chunk(2))
        {
            var columnWidth = (width - Gap) / 2;
            var places = row.Select((signature, i) => new SigningPlace(signature, words, i * (columnWidth + Gap), columnWidth)).ToList();
            var strip = new Strip(places.Max(place => place.Height), (sheet, left, top) =>
            {
                foreach (var place in places)
                    place.Draw(sheet, left, top);
            });
            strips.Add(strips.Count == 0 ? strip : strip with { SpaceBefore = Gap });
        }
        return strips;
    }

    private static void CheckAcross(int across, int most, string what)
    {
        if (across < 1 || across > most)
            throw new ArgumentException($"{what} across: {across}. Accepted: 1 to {most}.", nameof(across));
    }

    private static void Box(Sheet sheet, float x, float y, bool ticked)
    {
        using var paint = new SKPaint { Color = TextStyle.Ink, IsAntialias = true, Style = SKPaintStyle.Stroke, StrokeWidth = 1,
            StrokeCap = SKStrokeCap.Round };
        sheet.Canvas.DrawRect(x + 0.5f, y + 0.5f, BoxSize - 1, BoxSize - 1, paint);
        if (!ticked)
            return;
        paint.StrokeWidth = 1.9f;
        sheet.Canvas.DrawLine(x + 2.6f, y + 5.8f, x + 4.8f, y + 8.2f, paint);
        sheet.Canvas.DrawLine(x + 4.8f, y + 8.2f, x + 8.6f, y + 3, paint);
    }

    private sealed class SigningPlace
    {
        // More lines than this are not a role or a name; the rest is not shown rather than pushing the line to sign off the page.
        private const int MostLines = 6;

        private readonly float _x;
        private readonly float _width;
        private readonly SKPath? _strokes;
        private readonly SignatureStrokes? _box;
        private readonly List<TextLine> _role;
        private readonly List<TextLine> _name;
        private readonly List<TextLine> _date;

        public SigningPlace(Signature signature, DocumentWords words, float x, float width)
        {
            _x = x;
            _width = width;
            _role = Lines(FormattedText.FromString(signature.Role), TextStyle.Label with { Heavy = true, Color = TextStyle.Ink }, width);
            _name = Lines(words.Name + "  " + FormattedText.Strong(signature.Name), TextStyle.Label, width * 0.6f);
            _date = Lines(words.Date + "  " + FormattedText.Strong(signature.DateText), TextStyle.Label, width * 0.36f);
            _box = signature.Strokes;
            if (_box is null)
                return;
            _strokes = SKPath.ParseSvgPathData(_box.PathData);
            if (_strokes is null || !(_box.Width > 0) || !(_box.Height > 0))
                throw new ArgumentException($"The strokes of the signature '{signature.Role}' are not SVG path data in a box with a size.", nameof(signature));
        }

        public float Height => TextHeight(_role) + SigningHeight + 4 + Math.Max(TextHeight(_name), TextHeight(_date));

        public void Draw(Sheet sheet, float left, float top)
        {
            left += _x;
            top = DrawLines(sheet, _role, left, top);
            if (_strokes is not null && _box is not null)
                DrawStrokes(sheet, _strokes, _box, left, top);
            var line = top + SigningHeight;
            TextStrips.Rule(sheet, left, left + _width, line, 0.8f, TextStyle.Ink);
            DrawLines(sheet, _name, left, line + 4);
            DrawLines(sheet, _date, left + (_width * 0.64f), line + 4);
        }

        private static List<TextLine> Lines(FormattedText text, TextStyle style, float width) =>
            [.. new ShapedText(text, style).Wrap(width).Take(MostLines)];

        private static float TextHeight(List<TextLine> lines) => lines.Sum(line => line.Style.LineHeight);

        private static float DrawLines(Sheet sheet, List<TextLine> lines, float x, float y)
        {
            foreach (var line in lines)
            {
                line.Draw(sheet, x, y);
                y += line.Style.LineHeight;
            }
            return y;
        }

        private void DrawStrokes(Sheet sheet, SKPath strokes, SignatureStrokes box, float left, float top)
        {
            var scale = Math.Min(_width / (float)box.Width, (SigningHeight - 4) / (float)box.Height);
            using var pen = new SKPaint
            {
                Color = TextStyle.Ink,
                IsAntialias = true,
                Style = SKPaintStyle.Stroke,
                StrokeCap = SKStrokeCap.Round,
                StrokeJoin = SKStrokeJoin.Round,
                StrokeWidth = 1.3f / scale,
            };
            sheet.Canvas.Save();
            sheet.Canvas.ClipRect(SKRect.Create(left, top, _width, SigningHeight + 4));
            sheet.Canvas.Translate(left, top + 2);
            sheet.Canvas.Scale(scale);
            sheet.Canvas.DrawPath(strokes, pen);
            sheet.Canvas.Restore();
        }
    }
}
