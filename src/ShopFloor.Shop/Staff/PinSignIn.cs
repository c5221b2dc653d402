using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff.Secrets;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Staff;

/// <summary>Lets a person switch in on a registered tablet by PIN, held back by a guard for the person and one for the tablet.</summary>
public sealed class PinSignIn(ShopStore store, PinHasher pins, PinGuard guard)
{
    public const string PinField = "Pin";

    /// <returns>The person and the tablet, or why not. Never which of person, tablet and PIN was wrong beyond what the page shows anyway.</returns>
    public async Task<Outcome<PinSession>> TryAsync(string? tabletSecret, Guid personId, string? pin, CancellationToken cancellationToken)
    {
        if (!SecretToken.TryRead(tabletSecret, out var secret))
        {
            return NotRegistered;
        }

        // The try is counted and stored before the PIN is looked at, so that breaking the connection off wins nothing.
        var opened = await OpenTryAsync(Tablets.HashOf(secret), personId, cancellationToken);
        if (!opened.Succeeded)
        {
            return opened.As<PinSession>();
        }

        var attempt = opened.Value;
        if (!attempt.Allowed)
        {
            return new Problem(PinField, attempt.Message);
        }

        // Outside the write gate: the derivation takes its time on purpose.
        var found = pins.Verify(pin, attempt.PinHash ?? pins.Decoy);
        return found switch
        {
            PinCheck.Right or PinCheck.RightButOutdated => await SucceedAsync(attempt, found == PinCheck.RightButOutdated ? pins.Hash(pin!) : null, cancellationToken), // right means not null
            PinCheck.OtherPepper => new Problem(PinField, "This PIN was set on another installation of the shop. An owner has to set a new one."),
            PinCheck.Wrong or PinCheck.Unreadable => new Problem(
                PinField,
                attempt.LockedNow ? "That was not the PIN, and it is locked now. An owner can open it again." : "That was not the PIN."),
            _ => throw new InvalidOperationException($"Unknown answer {found}."),
        };
    }

    private static Problem NotRegistered { get; } = new("", "This tablet is not registered, or was taken off the list. An owner can register it.");

    private Task<Outcome<Attempt>> OpenTryAsync(string tabletHash, Guid personId, CancellationToken cancellationToken) =>
        store.WriteAsync<Attempt>(
            Actor.Shop,
            async db =>
            {
                var tablet = await db.Tablets.FirstOrDefaultAsync(known => known.SecretHash == tabletHash && known.RevokedAt == null, cancellationToken);
                if (tablet is null)
                {
                    return NotRegistered;
                }

                var member = await db.Users.FirstOrDefaultAsync(found => found.Id == personId && found.IsActive, cancellationToken);
                var decision = guard.Ask(PinCounters.Read(member?.PinGuardState), PinCounters.Read(tablet.PinGuardState), store.Time.GetUtcNow());
                tablet.PinGuardState = PinCounters.Write(decision.Device);
                if (member is not null)
                {
                    member.PinGuardState = PinCounters.Write(decision.Person);
                    if (decision is { Allowed: true, Person.Locked: true })
                    {
                        db.RecordAct("PinLocked", member, member.Id, $"Wrong PINs on {tablet.Name}");
                    }
                }

                return new Attempt(decision.Allowed, decision.Message, decision.Person.Locked, personId, tablet.Id, member?.PinHash);
            },
            cancellationToken);

    private Task<Outcome<PinSession>> SucceedAsync(Attempt attempt, string? newHash, CancellationToken cancellationToken) =>
        store.WriteAsync<PinSession>(
            Actor.Shop,
            async db =>
            {
                var tablet = await db.Tablets.SingleAsync(known => known.Id == attempt.TabletId, cancellationToken);
                var member = await db.Users.SingleAsync(found => found.Id == attempt.PersonId, cancellationToken);
                if (member.PinHash != attempt.PinHash)
                {
                    return new Problem(PinField, "The PIN was changed just now. Enter the new one.");
                }

                var (person, device) = guard.Succeed(PinCounters.Read(member.PinGuardState), PinCounters.Read(tablet.PinGuardState));
                member.PinGuardState = PinCounters.Write(person);
                tablet.PinGuardState = PinCounters.Write(device);
                member.PinHash = newHash ?? member.PinHash;
                return new PinSession(member.Id, tablet.Id, tablet.Name);
            },
            cancellationToken);

    private sealed record Attempt(bool Allowed, string Message, bool LockedNow, Guid PersonId, Guid TabletId, string? PinHash);
}

public sealed record PinSession(Guid PersonId, Guid TabletId, string TabletName);
