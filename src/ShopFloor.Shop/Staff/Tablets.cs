using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff.Secrets;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Staff;

/// <summary>The shared tablets of the shop: registering this one, listing, revoking, and knowing one again by its secret.</summary>
public sealed class Tablets(ShopStore store)
{
    public Task<List<TabletRow>> ListAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.ReadAsync(
            db => db.Tablets
                .OrderByDescending(tablet => tablet.RevokedAt == null)
                .ThenBy(tablet => tablet.Name)
                .Select(tablet => new TabletRow(tablet.Id, tablet.Name, tablet.RegisteredBy, tablet.RegisteredAt, tablet.RevokedAt))
                .ToListAsync(cancellationToken),
            cancellationToken);
    }

    /// <summary>Registers a tablet. The secret is for its cookie; only the hash is kept.</summary>
    public async Task<Outcome<RegisteredTablet>> RegisterAsync(Actor actor, string name, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        var check = new Check().Required(name, nameof(Tablet.Name), "The tablet's name", 60);
        if (check.Failed)
        {
            return check.Problems;
        }

        var secret = SecretToken.Create();
        return await store.WriteAsync<RegisteredTablet>(
            actor,
            async db =>
            {
                var trimmed = name.Trim();
                if (await db.Tablets.AnyAsync(other => other.RevokedAt == null && other.Name == trimmed, cancellationToken))
                {
                    return new Problem(nameof(Tablet.Name), $"There is already a tablet named '{trimmed}'. Choose another name, or revoke the old one first.");
                }

                var tablet = db.Tablets.Add(new Tablet(trimmed, HashOf(secret), actor.Name, store.Time.GetUtcNow())).Entity;
                return new RegisteredTablet(tablet.Id, tablet.Name, secret.Reveal());
            },
            cancellationToken);
    }

    public Task<Outcome<Done>> RevokeAsync(Actor actor, Guid tabletId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.WriteAsync<Done>(
            actor,
            async db =>
            {
                (await db.Tablets.SingleAsync(tablet => tablet.Id == tabletId, cancellationToken)).Revoke(store.Time.GetUtcNow());
                return Done.Value;
            },
            cancellationToken);
    }

    /// <summary>The registered tablet that holds this secret, with the people who can switch in on it; null when there is none.</summary>
    public async Task<KnownTablet?> FindAsync(string? secret, CancellationToken cancellationToken)
    {
        if (!SecretToken.TryRead(secret, out var token))
        {
            return null;
        }

        var hash = HashOf(token);
        return await store.ReadAsync(
            async db =>
            {
                var tablet = await db.Tablets.FirstOrDefaultAsync(known => known.SecretHash == hash && known.RevokedAt == null, cancellationToken);
                return tablet is null
                    ? null
                    : new KnownTablet(
                        tablet.Id,
                        tablet.Name,
                        await db.Users
                            .Where(member => member.IsActive && member.PinHash != null)
                            .OrderBy(member => member.DisplayName)
                            .Select(member => new TabletPerson(member.Id, member.DisplayName))
                            .ToListAsync(cancellationToken));
            },
            cancellationToken);
    }

    internal static string HashOf(SecretToken secret) => Convert.ToHexStringLower(secret.Hash());
}

public sealed record TabletRow(Guid Id, string Name, string RegisteredBy, DateTimeOffset RegisteredAt, DateTimeOffset? RevokedAt);

/// <param name="Id">The tablet.</param>
/// <param name="Name">Its name.</param>
/// <param name="Secret">For the cookie of the tablet; shown to nobody, kept nowhere else.</param>
public sealed record RegisteredTablet(Guid Id, string Name, string Secret)
{
    public override string ToString() => $"{Name} (secret hidden)";
}

public sealed record KnownTablet(Guid Id, string Name, IReadOnlyList<TabletPerson> People);

public sealed record TabletPerson(Guid Id, string Name);
