using QRCoder;
using ShopFloor.Documents.Composition;
using SkiaSharp;

namespace ShopFloor.Documents.Drawing;

/// <summary>Strips of figures, photos and QR codes.</summary>
internal static class PictureStrips
{
    private const float Gap = 10;
    private const float PointsPerMillimetre = 72 / 25.4f;

    // Landscape cells suit most photos; an upright one is made narrower.
    private const float PhotoCellRatio = 0.75f;

    public static List<Strip> Figure(Figure figure, DocumentWords words, float width, float tallest)
    {
        if (SizeOf(figure.Svg) is not { } frame)
            return TextStrips.Lines(FormattedText.FromString(words.FigureUnreadable), TextStyle.Label, 0, width);
        var caption = figure.Caption.Length == 0 ? [] : new ShapedText(figure.Caption, TextStyle.Remark).Wrap(width);
        var room = Math.Max(tallest / 3, tallest - (caption.Count * TextStyle.Remark.LineHeight) - 4);
        var height = (float)figure.HeightMillimetres * PointsPerMillimetre;
        if (!(height > 0))
            throw new ArgumentException($"Figure height: {figure.HeightMillimetres} mm. Accepted: above 0.", nameof(figure));
        // A turned drawing wants the page's height for its width; its own height is then measured across the page.
        var scale = figure.Turned
            ? Math.Min(Math.Min(width, height) / frame.Height, room / frame.Width)
            : Math.Min(width / frame.Width, Math.Min(height, room) / frame.Height);
        if (figure.TrueSize)
        {
            scale = PointsPerMillimetre;
            if (figure.Turned || frame.Width * scale > width || frame.Height * scale > room)
                throw new ArgumentException($"True-size figure: {frame.Width} mm by {frame.Height} mm. Accepted: upright, at most {width / scale:0} mm by {room / scale:0} mm.", nameof(figure));
        }

        var (drawnWidth, drawnHeight) = figure.Turned ? (frame.Height * scale, frame.Width * scale) : (frame.Width * scale,
            frame.Height * scale);
        var strips = new List<Strip>
        {
            new(drawnHeight, (sheet, left, top) =>
            {
                if (sheet.IsRehearsal)
                {
                    sheet.Faces.UseInEveryFace(figure.Svg);
                    return;
                }
                using var drawing = SvgPicture.Read(figure.Svg, sheet.Faces.Typeface);
                sheet.Canvas.Save();
                sheet.Canvas.Translate(left + ((width - drawnWidth) / 2), top);
                if (figure.Turned)
                {
                    sheet.Canvas.Translate(0, drawnHeight);
                    sheet.Canvas.RotateDegrees(-90);
                }
                sheet.Canvas.Scale(scale);
                sheet.Canvas.Translate(-frame.Left, -frame.Top);
                if (figure.TrueSize)
                    sheet.Canvas.ClipRect(frame);
                sheet.Canvas.DrawPicture(drawing!.Picture);
                sheet.Canvas.Restore();
            })
            {
                Hold = caption.Count > 0 ? Hold.Firm : Hold.None,
            },
        };
        if (caption.Count > 0)
            strips.AddRange(TextStrips.Lines(caption, 0).After(4));
        return strips;
    }

    public static List<Strip> Photos(Photos photos, DocumentWords words, float width, float tallest)
    {
        if (photos.PerRow is < 1 or > 6)
            throw new ArgumentException($"Photos per row: {photos.PerRow}. Accepted: 1 to 6.", nameof(photos));
        var cellWidth = (width - (Gap * (photos.PerRow - 1))) / photos.PerRow;
        var cellHeight = Math.Min(cellWidth * PhotoCellRatio, tallest * 0.8f);
        var strips = new List<Strip>();
        foreach (var row in photos.Items.Chunk(photos.PerRow))
        {
            var placed = row.Select((photo, i) => PlacedPhoto.Fit(photo, i * (cellWidth + Gap), cellWidth, cellHeight, words)).ToList();
            var captions = row.Select((photo, i) =>
                new RowCell(photo.Caption.Length == 0 ? [] : new ShapedText(photo.Caption, TextStyle.Remark).Wrap(cellWidth),
                    i * (cellWidth + Gap), cellWidth)).ToList();
            var hasCaptions = captions.Any(caption => caption.Lines.Count > 0);
            strips.Add(new Strip(placed.Max(photo => photo.Height), (sheet, left, top) =>
            {
                foreach (var photo in placed)
                    photo.Draw(sheet, left, top);
            })
            {
                SpaceBefore = strips.Count > 0 ? Gap : 0,
                Hold = hasCaptions ? Hold.Firm : Hold.None,
            });
            if (hasCaptions)
                strips.AddRange(TextStrips.Row(captions, 2.5f, tallest));
        }
        return strips;
    }

    public static List<Strip> QrCode(QrCode code, DocumentWords words, float width, float tallest)
    {
        var size = (float)code.SizeMillimetres * PointsPerMillimetre;
        if (!(size is > 20 and < 400))
            throw new ArgumentException($"QR code size: {code.SizeMillimetres} mm. Accepted: 8 to 140 mm.", nameof(code));
        QRCodeData modules;
        try
        {
            using var generator = new QRCodeGenerator();
            modules = generator.CreateQrCode(code.Payload, QRCodeGenerator.ECCLevel.M);
        }
        catch (QRCoder.Exceptions.DataTooLongException)
        {
            return TextStrips.Lines(words.QrCodeTooLong + "\n" + code.Payload + "\n" + code.Caption, TextStyle.Body, 0, width);
        }
        var textLeft = size + 12;
        var lines = new ShapedText(code.Caption, TextStyle.Body).Wrap(width - textLeft);
        var textHeight = lines.Count * TextStyle.Body.LineHeight;
        if (textHeight > tallest * 0.6f)
            return [QrStrip(modules, code.Payload, size), .. TextStrips.Lines(lines, textLeft)];
        var drawn = QrStrip(modules, code.Payload, size);
        return
        [
            new Strip(Math.Max(size, textHeight), (sheet, left, top) =>
            {
                drawn.Draw(sheet, left, top);
                var y = top + Math.Max(0, (size - textHeight) / 2);
                foreach (var line in lines)
                {
                    line.Draw(sheet, left + textLeft, y);
                    y += line.Style.LineHeight;
                }
            }),
        ];
    }

    private static SKRect? SizeOf(string svg)
    {
        using var drawing = SvgPicture.Read(svg, face => face.Typeface);
        return drawing?.Picture?.CullRect;
    }

    private static Strip QrStrip(QRCodeData code, string payload, float size)
    {
        // The matrix already holds the quiet zone of four modules that readers need (ISO/IEC 18004).
        var matrix = code.ModuleMatrix;
        var module = size / matrix.Count;
        return new Strip(size, (sheet, left, top) =>
        {
            using var builder = new SKPathBuilder();
            for (var row = 0; row < matrix.Count; row++)
            {
                for (var column = 0; column < matrix.Count; column++)
                {
                    var from = column;
                    while (column < matrix.Count && matrix[row][column])
                        column++;
                    if (column > from)
                        builder.AddRect(new SKRect(left + (from * module), top + (row * module), left + (column * module),
                            top + ((row + 1) * module)));
                }
            }
            using var path = builder.Detach();
            using var paint = new SKPaint { Color = SKColors.Black, IsAntialias = true };
            sheet.Canvas.DrawPath(path, paint);
            if (Uri.TryCreate(payload, UriKind.Absolute, out var address) && address.Scheme is "https" or "http")
                sheet.Canvas.DrawUrlAnnotation(new SKRect(left, top, left + size, top + size), address.AbsoluteUri);
        });
    }

    /// <summary>A photo at its place in a row, or the words that stand for one that cannot be read.</summary>
    private sealed record PlacedPhoto(float X, float Width, float Height, PhotoSource? Source, DocumentWords Words)
    {
        // One pixel a point is 72 dpi: beyond that a photo is only blurred, not larger in content.
        private const float LargestPointsPerPixel = 1;

        public static PlacedPhoto Fit(Photo photo, float x, float cellWidth, float cellHeight, DocumentWords words)
        {
            if (PhotoSource.Open(photo.Image) is not { } source)
                return new PlacedPhoto(x, cellWidth, cellHeight / 2, null, words);
            var scale = Math.Min(LargestPointsPerPixel, Math.Min(cellWidth / source.Width, cellHeight / source.Height));
            return new PlacedPhoto(x, source.Width * scale, source.Height * scale, source, words);
        }

        public void Draw(Sheet sheet, float left, float top)
        {
            using var image = sheet.IsRehearsal ? null : Source?.ForPrint(Width, Height);
            var frame = SKRect.Create(left + X, top, Width, Height);
            if (image is not null)
            {
                sheet.Canvas.DrawImage(image, frame, new SKSamplingOptions(SKFilterMode.Linear));
                return;
            }
            using var outline = new SKPaint { Color = TextStyle.Hairline, Style = SKPaintStyle.Stroke, StrokeWidth = 0.8f };
            sheet.Canvas.DrawRect(frame, outline);
            var y = top + 6;
            foreach (var line in new ShapedText(FormattedText.FromString(Words.PhotoUnreadable), TextStyle.Remark).Wrap(Math.Max(20,
                Width - 12)))
            {
                line.Draw(sheet, left + X + 6, y);
                y += line.Style.LineHeight;
            }
        }
    }
}
