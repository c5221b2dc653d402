using ShopFloor.Documents.Composition;

namespace ShopFloor.Documents.Drawing;

/// <summary>Draws a document onto pages. The seam between what a document says and the library that writes the file.</summary>
public interface IDocumentDrawing
{
    /// <summary>Writes the document as one file to the stream, which is left open.</summary>
    /// <exception cref="ArgumentException">A block cannot be drawn as it was composed, for example a table row with more cells than
    /// columns.</exception>
    void Draw(PrintedDocument document, Stream destination, PaperSize paper);
}
