using SkiaSharp;

namespace ShopFloor.Documents.Drawing;

/// <summary>What strips draw on: a canvas and the faces of the document.</summary>
/// <param name="Canvas">Where shapes go.</param>
/// <param name="Faces">The faces of the document.</param>
/// <param name="IsRehearsal">Whether nothing is drawn yet and only the text in use is gathered.</param>
internal sealed record Sheet(SKCanvas Canvas, DocumentFaces Faces, bool IsRehearsal);
