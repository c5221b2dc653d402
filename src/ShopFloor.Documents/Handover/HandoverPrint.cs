using ShopFloor.Documents.Drawing;
using ShopFloor.Shop.Phases.Handover;

namespace ShopFloor.Documents.Handover;

/// <summary>Prints the handover with the photos of the photo store.</summary>
public sealed class HandoverPrint(PhotoBytes photos, IDocumentDrawing drawing) : IHandoverPrint
{
    public async Task<byte[]> PrintAsync(HandoverFacts facts, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(facts);
        var pictures = await photos.ReadAsync(facts.Photos.Select(photo => photo.Hash), cancellationToken);
        using var file = new MemoryStream();
        drawing.Draw(HandoverDocument.Compose(facts, pictures), file, PaperSizes.Of(facts.Letterhead));
        return file.ToArray();
    }
}
