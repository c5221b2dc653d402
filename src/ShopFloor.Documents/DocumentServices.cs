using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Documents.Drawing;
using ShopFloor.Documents.Handover;
using ShopFloor.Shop.Phases.Handover;

namespace ShopFloor.Documents;

/// <summary>Registers the drawing of documents. Another engine takes over by another <see cref="IDocumentDrawing"/> here.</summary>
public static class DocumentServices
{
    public static IServiceCollection AddDocuments(this IServiceCollection services) => services
        .AddSingleton<IDocumentDrawing, PdfDrawing>()
        .AddSingleton<PhotoBytes>()
        .AddSingleton<IHandoverPrint, HandoverPrint>();
}
