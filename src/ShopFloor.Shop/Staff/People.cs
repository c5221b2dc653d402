using System.Security.Cryptography;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff.Secrets;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Staff;

/// <summary>
/// What the owner does with the people of the shop. Whatever narrows what somebody may do also renews their security stamp,
/// so that their open pages end at the next check.
/// </summary>
public sealed class People(ShopStore store, IPasswordHasher<StaffMember> passwords, PinHasher pins)
{
    public Task<List<PersonRow>> ListAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        var now = store.Time.GetUtcNow();
        return store.ReadAsync(
            async db => (await db.Users.OrderByDescending(member => member.IsActive).ThenBy(member => member.DisplayName).ToListAsync(cancellationToken))
                .Select(member => new PersonRow(
                    member.Id,
                    member.Version,
                    member.DisplayName,
                    member.UserName ?? "",
                    member.Role,
                    member.IsActive,
                    member.PasswordHash is not null,
                    member.PinHash is not null,
                    PinCounters.Read(member.PinGuardState).Locked,
                    member.LockoutEnd > now))
                .ToList(),
            cancellationToken);
    }

    /// <returns>The form as it stands with its version, or null when there is no such person.</returns>
    public Task<PersonDraft?> GetAsync(Actor actor, Guid personId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        actor.Demand(Permission.SeeCosts);
        return store.ReadAsync(
            async db => await db.Users.FirstOrDefaultAsync(member => member.Id == personId, cancellationToken) is { } member
                ? new PersonDraft(member.Id, member.Version, PersonForm.Of(member))
                : null,
            cancellationToken);
    }

    public async Task<Outcome<Guid>> AddAsync(Actor actor, PersonForm form, string? password, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        actor.Demand(Permission.SeeCosts);
        var problems = form.Problems();
        if (!string.IsNullOrEmpty(password) && !PasswordRules.Accepts(password, form.UserName.Trim(), out var problem))
        {
            problems.Add(new Problem(PasswordField, problem));
        }

        if (problems.Count > 0)
        {
            return problems;
        }

        return await store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                if (await NameTakenAsync(db, form.UserName, null, cancellationToken) is { } taken)
                {
                    return taken;
                }

                var member = NewMember(form);
                if (!string.IsNullOrEmpty(password))
                {
                    member.PasswordHash = passwords.HashPassword(member, password);
                }

                db.Users.Add(member);
                return member.Id;
            },
            cancellationToken);
    }

    public async Task<Outcome<Guid>> EditAsync(Actor actor, Guid personId, Guid expectedVersion, PersonForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        actor.Demand(Permission.SeeCosts);
        var problems = form.Problems();
        if (problems.Count > 0)
        {
            return problems;
        }

        return await store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                var member = await db.Users.SingleAsync(found => found.Id == personId, cancellationToken);

                // A failed sign-in also renews the version; only a difference in the form is somebody else's edit.
                if (await db.ConflictAsync(member, expectedVersion, form, PersonForm.Of(member), cancellationToken) is { Differences.Count: > 0 } conflict)
                {
                    return conflict;
                }

                if (await NameTakenAsync(db, form.UserName, personId, cancellationToken) is { } taken)
                {
                    return taken;
                }

                if (member is { Role: ShopRole.Owner, IsActive: true } && (form.Role != ShopRole.Owner || !form.IsActive))
                {
                    var others = await db.Users.CountAsync(
                        other => other.Id != personId && other.IsActive && other.Role == ShopRole.Owner && other.PasswordHash != null,
                        cancellationToken);
                    if (others == 0)
                    {
                        return new Problem(
                            form.IsActive ? nameof(PersonForm.Role) : nameof(PersonForm.IsActive),
                            $"{member.DisplayName} is the last owner who can sign in. Make somebody else an owner first.");
                    }
                }

                if (form.Role != member.Role || form.IsActive != member.IsActive || Normalised(form.UserName) != member.NormalizedUserName)
                {
                    member.SecurityStamp = NewStamp();
                }

                Apply(member, form);
                return member.Id;
            },
            cancellationToken);
    }

    /// <summary>Sets a person's password: the owner anybody's, everybody their own.</summary>
    public async Task<Outcome<Done>> SetPasswordAsync(Actor actor, Guid personId, string password, CancellationToken cancellationToken)
    {
        DemandOwnOrManage(actor, personId);
        return await store.WriteAsync<Done>(
            actor,
            async db =>
            {
                var member = await db.Users.SingleAsync(found => found.Id == personId, cancellationToken);
                if (!PasswordRules.Accepts(password, member.UserName ?? "", out var problem))
                {
                    return new Problem(PasswordField, problem);
                }

                member.PasswordHash = passwords.HashPassword(member, password);
                member.SecurityStamp = NewStamp();
                member.LockoutEnd = null;
                member.AccessFailedCount = 0;
                db.RecordAct("PasswordSet", member, member.Id, "");
                return Done.Value;
            },
            cancellationToken);
    }

    /// <summary>Sets a person's PIN for shared tablets and opens it again if it was locked.</summary>
    public async Task<Outcome<Done>> SetPinAsync(Actor actor, Guid personId, string pin, CancellationToken cancellationToken)
    {
        DemandOwnOrManage(actor, personId);
        if (!PinRules.Accepts(pin, out var problem))
        {
            return new Problem(PinField, problem);
        }

        var hash = pins.Hash(pin);
        return await store.WriteAsync<Done>(
            actor,
            async db =>
            {
                var member = await db.Users.SingleAsync(found => found.Id == personId, cancellationToken);
                member.PinHash = hash;
                member.PinGuardState = null;
                db.RecordAct("PinSet", member, member.Id, "");
                return Done.Value;
            },
            cancellationToken);
    }

    /// <summary>Opens a PIN that was locked after too many wrong tries.</summary>
    public async Task<Outcome<Done>> ResetPinLockAsync(Actor actor, Guid personId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return await store.WriteAsync<Done>(
            actor,
            async db =>
            {
                var member = await db.Users.SingleAsync(found => found.Id == personId, cancellationToken);
                member.PinGuardState = PinCounters.Write(PinGuard.Reset());
                db.RecordAct("PinUnlocked", member, member.Id, "");
                return Done.Value;
            },
            cancellationToken);
    }

    /// <summary>Keeps the units a person chose for themselves.</summary>
    public async Task<Outcome<Done>> ChooseUnitsAsync(Actor actor, UnitSystem units, CancellationToken cancellationToken) =>
        await store.WriteAsync<Done>(
            actor,
            async db =>
            {
                if (await db.Users.FirstOrDefaultAsync(found => found.Id == actor.Id, cancellationToken) is { } member)
                {
                    member.Units = units;
                }

                return Done.Value;
            },
            cancellationToken);

    public const string PasswordField = "Password";

    public const string PinField = "Pin";

    internal static StaffMember NewMember(PersonForm form)
    {
        var member = new StaffMember(form.UserName.Trim(), form.DisplayName.Trim(), form.Role) { LockoutEnabled = true, SecurityStamp = NewStamp() };
        Apply(member, form);
        return member;
    }

    internal static string Normalised(string userName) => userName.Trim().Normalize().ToUpperInvariant();

    // Owners of a session of their own only: a PIN session on a shared tablet must not set a password or a PIN.
    private static void DemandOwnOrManage(Actor actor, Guid personId)
    {
        if (actor.Id != personId || actor.Via != ActorVia.Desk)
        {
            actor.Demand(Permission.ManageShop);
        }
    }

    private static string NewStamp() => Convert.ToHexString(RandomNumberGenerator.GetBytes(20));

    private static void Apply(StaffMember member, PersonForm form)
    {
        member.DisplayName = form.DisplayName.Trim();
        member.UserName = form.UserName.Trim();
        member.NormalizedUserName = Normalised(form.UserName);
        member.Role = form.Role;
        member.CostPerHour = form.CostPerHour;
        member.Units = form.Units;
        member.IsActive = form.IsActive;
    }

    private static async Task<Problem?> NameTakenAsync(ShopDbContext db, string userName, Guid? except, CancellationToken cancellationToken)
    {
        var normalised = Normalised(userName);
        return await db.Users.AnyAsync(other => other.Id != except && other.NormalizedUserName == normalised, cancellationToken)
            ? new Problem(nameof(PersonForm.UserName), $"The sign-in name '{userName.Trim()}' is already somebody else's.")
            : null;
    }
}

/// <param name="Id">The person.</param>
/// <param name="Version">Version for an edit.</param>
/// <param name="Form">What stands now, with the cost rate.</param>
public sealed record PersonDraft(Guid Id, Guid Version, PersonForm Form);

/// <param name="Id">The person.</param>
/// <param name="Version">Version for an edit.</param>
/// <param name="DisplayName">Name shown.</param>
/// <param name="UserName">Name typed at sign-in.</param>
/// <param name="Role">Role in the shop.</param>
/// <param name="IsActive">Whether they may sign in.</param>
/// <param name="HasPassword">Whether a password is set.</param>
/// <param name="HasPin">Whether a PIN is set.</param>
/// <param name="PinLocked">Whether the PIN waits for an owner.</param>
/// <param name="SignInPaused">Whether password sign-in is paused after wrong tries.</param>
public sealed record PersonRow(
    Guid Id,
    Guid Version,
    string DisplayName,
    string UserName,
    ShopRole Role,
    bool IsActive,
    bool HasPassword,
    bool HasPin,
    bool PinLocked,
    bool SignInPaused);
