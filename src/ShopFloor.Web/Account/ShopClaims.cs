using System.Security.Claims;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Account;

/// <summary>What a signed-in person carries in the cookie, and how it is read back as an <see cref="Actor"/>.</summary>
public static class ShopClaims
{
    public const string DisplayName = "shop:name";
    public const string Via = "shop:via";
    public const string Scope = "shop:scope";

    /// <summary>The claims <see cref="ToActor"/> reads an actor back from.</summary>
    public static IEnumerable<Claim> Of(Actor actor)
    {
        if (actor.Id is { } id)
        {
            yield return new Claim(ClaimTypes.NameIdentifier, id.ToString());
        }

        yield return new Claim(DisplayName, actor.Name);
        yield return new Claim(ClaimTypes.Role, actor.Role?.ToString() ?? throw new ArgumentException("Only people and tokens sign in.", nameof(actor)));
        yield return new Claim(Via, actor.Via.ToString());
        foreach (var permission in actor.OnlyPermissions ?? new HashSet<Permission>())
        {
            yield return new Claim(Scope, permission.ToString());
        }
    }

    /// <summary>Whether somebody switched in on a shared tablet by PIN.</summary>
    public static bool IsTablet(ClaimsPrincipal principal) => principal.HasClaim(Via, nameof(ActorVia.Tablet));

    /// <summary>The same person with more claims.</summary>
    public static ClaimsPrincipal With(ClaimsPrincipal principal, IEnumerable<Claim> claims)
    {
        var identity = ((ClaimsIdentity)principal.Identity!).Clone(); // every principal of ours has one
        identity.AddClaims(claims);
        return new ClaimsPrincipal(identity);
    }

    /// <exception cref="InvalidOperationException">Nobody is signed in.</exception>
    public static Actor ToActor(this ClaimsPrincipal principal)
    {
        if (principal.Identity?.IsAuthenticated != true)
        {
            throw new InvalidOperationException("Nobody is signed in.");
        }

        var id = principal.FindFirstValue(ClaimTypes.NameIdentifier);
        var via = Enum.Parse<ActorVia>(principal.FindFirstValue(Via) ?? nameof(ActorVia.Desk));

        // Six digits typed in the open never buy more than a technician's rights, whoever typed them.
        var role = via == ActorVia.Tablet ? ShopRole.Technician : Enum.Parse<ShopRole>(principal.FindFirstValue(ClaimTypes.Role) ?? "");
        var scope = principal.FindAll(Scope).Select(claim => Enum.Parse<Permission>(claim.Value)).ToHashSet();
        return new Actor(id is null ? null : Guid.Parse(id), principal.FindFirstValue(DisplayName) ?? "?", role, via)
        {
            OnlyPermissions = via == ActorVia.Api ? scope : null,
        };
    }
}

/// <summary>Adds the shop's claims when somebody signs in.</summary>
public sealed class StaffClaimsFactory(UserManager<StaffMember> users, IOptions<IdentityOptions> options)
    : UserClaimsPrincipalFactory<StaffMember>(users, options)
{
    protected override async Task<ClaimsIdentity> GenerateClaimsAsync(StaffMember user)
    {
        var made = await base.GenerateClaimsAsync(user);
        var identity = new ClaimsIdentity(made.Claims, made.AuthenticationType, ShopClaims.DisplayName, made.RoleClaimType);
        identity.AddClaim(new Claim(ShopClaims.DisplayName, user.DisplayName));
        identity.AddClaim(new Claim(ClaimTypes.Role, user.Role.ToString()));
        return identity;
    }
}
