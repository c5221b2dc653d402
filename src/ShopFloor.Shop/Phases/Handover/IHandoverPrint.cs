namespace ShopFloor.Shop.Phases.Handover;

/// <summary>Turns the facts of a handover into the file the client keeps. The seam to the documents, which lie above the business.</summary>
public interface IHandoverPrint
{
    /// <returns>The bytes of a PDF; the same facts give the same bytes.</returns>
    Task<byte[]> PrintAsync(HandoverFacts facts, CancellationToken cancellationToken);
}
