using System.Security.Claims;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Components.Server;
using Microsoft.AspNetCore.Identity;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Account;

/// <summary>Ends an open page within a minute when the person behind it was switched off, got another role, or left a shared tablet.</summary>
internal sealed class StaffStateProvider(ILoggerFactory loggers, IServiceScopeFactory scopes, TabletSessions sessions) : RevalidatingServerAuthenticationStateProvider(loggers)
{
    protected override TimeSpan RevalidationInterval => TimeSpan.FromSeconds(Math.Min(30, sessions.IdleLimit.TotalSeconds / 4));

    protected override async Task<bool> ValidateAuthenticationStateAsync(AuthenticationState authenticationState, CancellationToken cancellationToken)
    {
        if (sessions.IsOver(authenticationState.User))
        {
            return false;
        }

        await using var scope = scopes.CreateAsyncScope();
        var users = scope.ServiceProvider.GetRequiredService<UserManager<StaffMember>>();
        var principal = authenticationState.User;
        return await users.GetUserAsync(principal) is { IsActive: true } member
            && principal.FindFirstValue(users.Options.ClaimsIdentity.SecurityStampClaimType) == await users.GetSecurityStampAsync(member);
    }
}
