using System.Globalization;
using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Account;

/// <summary>Signs people in and out of the browser they sit at.</summary>
public sealed class StaffSignIn(SignInManager<StaffMember> signIn, IPasswordHasher<StaffMember> passwords, TimeProvider time)
{
    private const string Refusal = "Sign-in name and password do not fit together.";

    // Checked when there is nobody of that name, so that both answers take the same time.
    private static readonly StaffMember Nobody = new("nobody", "Nobody", ShopRole.Technician);
    private static string? _decoy;

    /// <returns>Null when signed in, else what to tell the person.</returns>
    public async Task<string?> WithPasswordAsync(string userName, string password)
    {
        var member = await signIn.UserManager.FindByNameAsync(userName.Trim());
        if (member is not { IsActive: true, PasswordHash: not null })
        {
            _decoy ??= passwords.HashPassword(Nobody, "nobody has this password");
            passwords.VerifyHashedPassword(Nobody, _decoy, password);
            return Refusal;
        }

        if (await CheckAsync(member, password, Refusal) is { } refusal)
        {
            return refusal;
        }

        await signIn.SignInWithClaimsAsync(member, new AuthenticationProperties(), [new(ShopClaims.Via, nameof(ActorVia.Desk))]);
        return null;
    }

    /// <summary>Whether somebody who is signed in knows their password; misses count as they do at the sign-in.</summary>
    /// <returns>Null when they do, else what to tell them.</returns>
    public async Task<string?> RefusalAsync(ClaimsPrincipal person, string password) =>
        await signIn.UserManager.GetUserAsync(person) is { IsActive: true, PasswordHash: not null } member
            ? await CheckAsync(member, password, "That is not your present password.")
            : "Your account has no password; ask an owner to set one.";

    public Task SignOutAsync() => signIn.Context.SignOutAsync(IdentityConstants.ApplicationScheme);

    private async Task<string?> CheckAsync(StaffMember member, string password, string refusal)
    {
        var result = await signIn.CheckPasswordSignInAsync(member, password, lockoutOnFailure: true);
        if (result.IsLockedOut)
        {
            var minutes = Math.Max(1, Math.Ceiling(((member.LockoutEnd ?? time.GetUtcNow()) - time.GetUtcNow()).TotalMinutes));
            return string.Create(CultureInfo.CurrentCulture, $"Too many wrong passwords for this sign-in name. Try again in {minutes} min, or ask an owner to set a new one.");
        }

        return result.Succeeded ? null : refusal;
    }
}
