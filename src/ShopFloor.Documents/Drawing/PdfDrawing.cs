using System.Globalization;
using ShopFloor.Documents.Composition;
using SkiaSharp;

namespace ShopFloor.Documents.Drawing;

/// <summary>
/// Draws documents as PDF. The same document gives the same bytes. Safe to use from several threads.
/// The text is searchable, the faces are embedded and camera data of photos is left out.
/// </summary>
public sealed class PdfDrawing : IDocumentDrawing
{
    private const float SideMargin = 54;
    private const float TopMargin = 64;
    private const float RunningHeaderTop = 34;
    private const float BottomMargin = 34;
    private const float FooterGap = 8;

    // A footer longer than this belongs into the text.
    private const int MostFooterLines = 3;

    /// <inheritdoc/>
    public void Draw(PrintedDocument document, Stream destination, PaperSize paper)
    {
        ArgumentNullException.ThrowIfNull(document);
        ArgumentNullException.ThrowIfNull(destination);
        var (pageWidth, pageHeight) = paper switch
        {
            PaperSize.A4 => (595.28f, 841.89f),
            PaperSize.Letter => (612f, 792f),
            _ => throw new ArgumentOutOfRangeException(nameof(paper), paper, "Unknown paper size."),
        };
        var width = pageWidth - (2 * SideMargin);
        var head = document.Head;
        var footer = Footer(head, width);
        var textHeight = pageHeight - TopMargin - BottomMargin - FooterGap - (footer.Count * TextStyle.Running.LineHeight);

        // First pass: every page is settled, so the second can say "of how many", and bad blocks are refused before anything is written.
        var pages = Pagination.Paginate(new DocumentStrips(document, width, textHeight).Build(), textHeight);
        var runningTitle = OneLine(head.Title, width * 0.68f);
        var runningReference = OneLine(head.Reference, width * 0.28f);

        void DrawPage(Sheet sheet, int index)
        {
            if (head.Watermark.Length > 0)
                DrawWatermark(sheet, head.Watermark, pageWidth, pageHeight);
            if (index > 0)
                DrawRunningHeader(sheet, runningTitle, runningReference, width);
            // The letterhead of the first page may stand higher, where other pages have their running header.
            foreach (var placed in pages[index])
                placed.Strip.Draw(sheet, SideMargin, (index == 0 ? TopMargin - 12 : TopMargin) + placed.Top);
            DrawFooter(sheet, footer, PageOf(head.Words, index + 1, pages.Count), width, pageHeight);
        }

        // A rehearsal gathers the text in use, so that only that part of each face goes into the file.
        using var faces = new DocumentFaces();
        using (var nowhere = new SKNoDrawCanvas((int)pageWidth, (int)pageHeight))
        {
            for (var i = 0; i < pages.Count; i++)
                DrawPage(new Sheet(nowhere, faces, IsRehearsal: true), i);
        }
        using var file = SKDocument.CreatePdf(destination, Metadata(head));
        for (var i = 0; i < pages.Count; i++)
        {
            DrawPage(new Sheet(file.BeginPage(pageWidth, pageHeight), faces, IsRehearsal: false), i);
            file.EndPage();
        }
        file.Close();
    }

    private static SKDocumentPdfMetadata Metadata(DocumentHead head) => new()
    {
        Title = head.Title,
        Author = head.ShopName,
        Subject = head.Reference,
        Creator = "ShopFloor",
        Producer = "ShopFloor",
        Creation = head.CreatedAt?.UtcDateTime,
        Modified = head.CreatedAt?.UtcDateTime,
        RasterDpi = 300,
        EncodingQuality = 85,
    };

    private static string PageOf(DocumentWords words, int page, int pages) =>
        string.Format(CultureInfo.InvariantCulture, words.PageOf, page, pages);

    private static List<TextLine> Footer(DocumentHead head, float width)
    {
        var text = head.FooterText.Length > 0 ? head.FooterText : head.ShopName;
        return [.. new ShapedText(FormattedText.FromString(text), TextStyle.Running).Wrap(width * 0.75f).Take(MostFooterLines)];
    }

    private static TextLine OneLine(string text, float width)
    {
        var line = new ShapedText(FormattedText.FromString(text), TextStyle.Running).Wrap(float.MaxValue)[0];
        var kept = text.Length;
        while (line.Width > width && kept > 1)
        {
            kept = Math.Max(1, Math.Min(kept - 1, (int)(kept * width / line.Width)));
            line = new ShapedText(FormattedText.FromString(text[..kept].TrimEnd() + "…"), TextStyle.Running).Wrap(float.MaxValue)[0];
        }
        return line;
    }

    // Under the text and pale, so that it disturbs no word; along the diagonal, so that no crop loses it.
    private static void DrawWatermark(Sheet sheet, string word, float pageWidth, float pageHeight)
    {
        var line = new ShapedText(FormattedText.FromString(word), TextStyle.Watermark).Wrap(float.MaxValue)[0];
        sheet.Canvas.Save();
        sheet.Canvas.Translate(pageWidth / 2, pageHeight / 2);
        sheet.Canvas.RotateDegrees(-55);
        line.Draw(sheet, -line.Width / 2, -TextStyle.Watermark.LineHeight / 2);
        sheet.Canvas.Restore();
    }

    private static void DrawRunningHeader(Sheet sheet, TextLine title, TextLine reference, float width)
    {
        title.Draw(sheet, SideMargin, RunningHeaderTop);
        reference.Draw(sheet, SideMargin + width - reference.Width, RunningHeaderTop);
        TextStrips.Rule(sheet, SideMargin, SideMargin + width, RunningHeaderTop + TextStyle.Running.LineHeight + 4, 0.5f,
            TextStyle.Hairline);
    }

    private static void DrawFooter(Sheet sheet, List<TextLine> footer, string pageOf, float width, float pageHeight)
    {
        var top = pageHeight - BottomMargin - (footer.Count * TextStyle.Running.LineHeight);
        TextStrips.Rule(sheet, SideMargin, SideMargin + width, top - 4, 0.5f, TextStyle.Hairline);
        var page = new ShapedText(FormattedText.FromString(pageOf), TextStyle.Running with { EqualDigits = true }).Wrap(width)[0];
        page.Draw(sheet, SideMargin + width - page.Width, top);
        foreach (var line in footer)
        {
            line.Draw(sheet, SideMargin, top);
            top += line.Style.LineHeight;
        }
    }
}
