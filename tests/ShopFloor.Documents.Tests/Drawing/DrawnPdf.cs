using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Drawing;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Tokens;

namespace ShopFloor.Documents.Tests.Drawing;

/// <summary>A document drawn to PDF and read back with a reader that shares nothing with the writer.</summary>
internal sealed class DrawnPdf : IDisposable
{
    private readonly PdfDocument _pdf;

    private DrawnPdf(byte[] bytes)
    {
        Bytes = bytes;
        _pdf = PdfDocument.Open(bytes);
        Pages = [.. _pdf.GetPages()];
    }

    public byte[] Bytes { get; }

    public IReadOnlyList<Page> Pages { get; }

    public DocumentInformation Information => _pdf.Information;

    /// <summary>All text in drawing order; lines run into each other with the blank that ended them.</summary>
    public string Text => string.Concat(Pages.Select(page => TextOf(page)));

    public static byte[] Draw(PrintedDocument document, PaperSize paper = PaperSize.A4)
    {
        using var stream = new MemoryStream();
        new PdfDrawing().Draw(document, stream, paper);
        return stream.ToArray();
    }

    public static DrawnPdf Of(PrintedDocument document, PaperSize paper = PaperSize.A4) => new(Draw(document, paper));

    public static DrawnPdf OfBlocks(params Block[] blocks) => Of(Document(blocks));

    public static PrintedDocument Document(params Block[] blocks) =>
        new(new DocumentHead("Test sheet", "Test shop") { Reference = "JC-1", CreatedAt = new DateTimeOffset(2026, 3, 14, 9, 26, 53,
            TimeSpan.Zero) }, new Section("", blocks));

    // The face has one glyph for the micro sign and for Greek mu; the reader knows nothing of the text recorded beside it.
    public static string TextOf(Page page) => page.Text.Replace('\u00B5', '\u03BC');

    /// <summary>Every font dictionary of every page, by its base name, with whether a font program is embedded.</summary>
    public IReadOnlyList<(string Name, bool Embedded)> Fonts()
    {
        var fonts = new HashSet<(string, bool)>();
        foreach (var page in Pages)
        {
            if (Child(page.Dictionary, NameToken.Resources) is not { } resources || Child(resources, NameToken.Font) is not { } list)
                continue;
            foreach (var name in list.Data.Keys)
            {
                var font = Child(list, NameToken.Create(name))!;
                var descendants = (ArrayToken)Resolve(font.Data["DescendantFonts"]);
                var descriptor = Child((DictionaryToken)Resolve(descendants.Data[0]), NameToken.FontDescriptor)!;
                fonts.Add((((NameToken)Resolve(font.Data["BaseFont"])).Data, descriptor.Data.ContainsKey("FontFile2")));
            }
        }
        return [.. fonts];
    }

    public void Dispose() => _pdf.Dispose();

    private DictionaryToken? Child(DictionaryToken parent, NameToken name) =>
        parent.Data.TryGetValue(name.Data, out var token) ? Resolve(token) as DictionaryToken : null;

    private IToken Resolve(IToken token) =>
        token is IndirectReferenceToken reference ? Resolve(_pdf.Structure.GetObject(reference.Data).Data) : token;
}
