using UglyToad.PdfPig;
using UglyToad.PdfPig.DocumentLayoutAnalysis.TextExtractor;

namespace ShopFloor.Browser.Tests.Running;

/// <summary>The words of a PDF as a reader finds them.</summary>
public static class Pdf
{
    public static string Words(byte[] file) => string.Join('\n', Pages(file));

    public static IReadOnlyList<string> Pages(byte[] file)
    {
        using var document = PdfDocument.Open(file);
        return [.. document.GetPages().Select(page => ContentOrderTextExtractor.GetText(page))];
    }
}
