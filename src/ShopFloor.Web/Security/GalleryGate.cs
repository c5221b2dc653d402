using Microsoft.AspNetCore.Authorization;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Account;

namespace ShopFloor.Web.Security;

/// <summary>The gallery of components is for whoever builds the program; a shop's visitors have no business in it.</summary>
public static class GalleryGate
{
    public static TBuilder CloseGallery<TBuilder>(this TBuilder pages, IHostEnvironment environment)
        where TBuilder : IEndpointConventionBuilder
    {
        if (!environment.IsDevelopment())
        {
            pages.Add(endpoint =>
            {
                if (endpoint is RouteEndpointBuilder { RoutePattern.RawText: { } path } && path.TrimStart('/').StartsWith("gallery", StringComparison.Ordinal))
                {
                    foreach (var open in endpoint.Metadata.OfType<IAllowAnonymous>().ToList())
                    {
                        endpoint.Metadata.Remove(open);
                    }

                    endpoint.Metadata.Add(new NeedsAttribute(Permission.ManageShop));
                }
            });
        }

        return pages;
    }
}
