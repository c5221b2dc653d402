using System.Text.Json;
using ShopFloor.Shop.Phases.Handover;

namespace ShopFloor.Shop.Tests;

/// <summary>Stands in for the drawing of documents, which lies above the business: the facts as bytes.</summary>
internal sealed class FactsPrint : IHandoverPrint
{
    public Task<byte[]> PrintAsync(HandoverFacts facts, CancellationToken cancellationToken) => Task.FromResult(JsonSerializer.SerializeToUtf8Bytes(facts));
}
