using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Storage;
using ShopFloor.Web.Account;

namespace ShopFloor.Web.Layout;

/// <summary>Finds out who looks at the page. Layouts load it once and cascade it.</summary>
public sealed class ViewerSource(AuthenticationStateProvider authentication, ShopStore store)
{
    /// <returns>The viewer, or null when nobody is signed in.</returns>
    public async Task<Viewer?> LoadAsync(CancellationToken cancellationToken)
    {
        var principal = (await authentication.GetAuthenticationStateAsync()).User;
        if (principal.Identity?.IsAuthenticated != true)
        {
            return null;
        }

        var actor = principal.ToActor();
        return await store.ReadAsync(
            async db =>
            {
                var settings = (await db.ShopSettings.SingleOrDefaultAsync(found => found.Id == ShopSettings.OnlyId, cancellationToken))?.Form ?? new ShopSettingsForm();
                var units = await db.Users.Where(member => member.Id == actor.Id).Select(member => member.Units).FirstOrDefaultAsync(cancellationToken);
                var zone = TimeZoneInfo.TryFindSystemTimeZoneById(settings.TimeZoneId, out var found) ? found : TimeZoneInfo.Utc;
                return new Viewer(actor, units, zone, settings.Currency, settings.Name);
            },
            cancellationToken);
    }
}
