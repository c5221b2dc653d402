using System.Collections.Concurrent;
using System.Globalization;
using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Account;

/// <summary>
/// The PIN sessions of shared tablets. One ends when nobody touched the tablet for a while, so that the next pair of hands does not work
/// under somebody else's name. Kept in memory: after a restart every tablet asks for a PIN again.
/// </summary>
public sealed class TabletSessions(TimeProvider time, IConfiguration configuration)
{
    /// <summary>How long a tablet may lie untouched; <c>Shop:TabletLockSeconds</c>, 300 unless set.</summary>
    public TimeSpan IdleLimit { get; } = TimeSpan.FromSeconds(Math.Clamp(configuration.GetValue("Shop:TabletLockSeconds", 300), 2, 3600));

    /// <summary>A forgotten tablet on which something keeps moving still asks again after a shift.</summary>
    public static readonly TimeSpan LongestSession = TimeSpan.FromHours(10);

    private const string SessionClaim = "shop:session";

    private readonly ConcurrentDictionary<string, Session> _sessions = new();

    /// <summary>Starts a session and gives the claims that stand for it.</summary>
    public IReadOnlyList<Claim> Start(Guid tabletId)
    {
        foreach (var (old, session) in _sessions)
        {
            if (IsOver(session))
            {
                _sessions.TryRemove(old, out _);
            }
        }

        var id = Guid.CreateVersion7().ToString("N");
        _sessions[id] = new Session(tabletId, time.GetUtcNow(), time.GetUtcNow());
        return
        [
            new Claim(ShopClaims.Via, nameof(ActorVia.Tablet)),
            new Claim(SessionClaim, id),
        ];
    }

    /// <summary>Notes that somebody is at the tablet. Does not bring an ended session back.</summary>
    public void Touch(ClaimsPrincipal principal)
    {
        if (IdOf(principal) is { } id && _sessions.TryGetValue(id, out var session) && !IsOver(session))
        {
            _sessions.TryUpdate(id, session with { LastSeen = time.GetUtcNow() }, session);
        }
    }

    /// <summary>Whether this is a PIN session that has ended. Sign-ins by password are none.</summary>
    public bool IsOver(ClaimsPrincipal principal) =>
        ShopClaims.IsTablet(principal) && (IdOf(principal) is not { } id || !_sessions.TryGetValue(id, out var session) || IsOver(session));

    public void End(ClaimsPrincipal principal)
    {
        if (IdOf(principal) is { } id)
        {
            _sessions.TryRemove(id, out _);
        }
    }

    /// <summary>Ends what runs on a tablet that was taken off the list.</summary>
    public void EndAllOn(Guid tabletId)
    {
        foreach (var (id, _) in _sessions.Where(entry => entry.Value.TabletId == tabletId))
        {
            _sessions.TryRemove(id, out _);
        }
    }

    /// <summary>
    /// Narrows what the account carries to what six digits may buy: a technician's rights. Also applied whenever the cookie is renewed,
    /// because renewing starts from the account again.
    /// </summary>
    public static ClaimsPrincipal Narrow(ClaimsPrincipal full, IEnumerable<Claim> sessionClaims)
    {
        var account = (ClaimsIdentity)full.Identity!; // made by the claims factory just before
        var kept = account.Claims.Where(claim => claim.Type is not (ClaimTypes.Role or ShopClaims.Via or ShopClaims.Scope));
        var narrowed = new ClaimsIdentity(
            [.. kept, new Claim(ClaimTypes.Role, nameof(ShopRole.Technician)), .. sessionClaims],
            account.AuthenticationType,
            account.NameClaimType,
            account.RoleClaimType);
        return new ClaimsPrincipal(narrowed);
    }

    public static IEnumerable<Claim> ClaimsOf(ClaimsPrincipal principal) =>
        principal.Claims.Where(claim => claim.Type is ShopClaims.Via or SessionClaim);

    private bool IsOver(Session session) =>
        time.GetUtcNow() - session.LastSeen > IdleLimit || time.GetUtcNow() - session.Started > LongestSession;

    private static string? IdOf(ClaimsPrincipal principal) => principal.FindFirstValue(SessionClaim);

    private sealed record Session(Guid TabletId, DateTimeOffset Started, DateTimeOffset LastSeen);
}

/// <summary>Signs a person in on a tablet after their PIN was right.</summary>
public sealed class TabletSignIn(SignInManager<StaffMember> signIn, TabletSessions sessions)
{
    public async Task SignInAsync(PinSession session)
    {
        var member = await signIn.UserManager.FindByIdAsync(session.PersonId.ToString("D", CultureInfo.InvariantCulture))
            ?? throw new InvalidOperationException("The person whose PIN was right is gone.");
        var principal = TabletSessions.Narrow(await signIn.CreateUserPrincipalAsync(member), sessions.Start(session.TabletId));
        await signIn.Context.SignInAsync(IdentityConstants.ApplicationScheme, principal, new AuthenticationProperties());
    }
}
