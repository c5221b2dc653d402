using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Staff.Secrets;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Clients;

/// <summary>Private links for clients: made by the front desk, shown once, kept as a hash, ended at will.</summary>
public sealed class ClientLinks(ShopStore store)
{
    /// <summary>Makes a link. Others of the job go on working; <see cref="RotateAsync"/> ends them.</summary>
    public Task<Outcome<NewClientLink>> CreateAsync(Actor actor, Guid jobId, CancellationToken cancellationToken) =>
        CreateAsync(actor, jobId, endOthers: false, cancellationToken);

    /// <summary>Ends every live link of the job and makes a new one: for a link that went to the wrong person.</summary>
    public Task<Outcome<NewClientLink>> RotateAsync(Actor actor, Guid jobId, CancellationToken cancellationToken) =>
        CreateAsync(actor, jobId, endOthers: true, cancellationToken);

    public async Task<Outcome<Done>> RevokeAsync(Actor actor, Guid linkId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        return await store.WriteAsync<Done>(
            actor,
            async db =>
            {
                var link = await db.ClientLinks.SingleAsync(found => found.Id == linkId, cancellationToken);
                link.Revoke(store.Time.GetUtcNow());
                return Done.Value;
            },
            cancellationToken);
    }

    public async Task<IReadOnlyList<ClientLinkLine>> ListAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        var now = store.Time.GetUtcNow();
        return await store.ReadAsync(
            async db => (await db.ClientLinks.Where(link => link.JobId == jobId).OrderByDescending(link => link.CreatedAt).ToListAsync(cancellationToken))
                .ConvertAll(link => new ClientLinkLine(link.Id, link.CreatedBy, link.CreatedAt, link.ExpiresAt, link.RevokedAt, link.LastOpenedAt, link.OpenedCount, link.IsLive(now))),
            cancellationToken);
    }

    /// <summary>Finds out which job a presented secret opens. Changes nothing.</summary>
    /// <returns>Null for a secret that is wrong, expired or revoked; nobody is told which.</returns>
    public async Task<ClientAccess?> ResolveAsync(string? token, CancellationToken cancellationToken)
    {
        if (!SecretToken.TryRead(token, out var secret))
        {
            return null;
        }

        var hash = HashOf(secret);
        var now = store.Time.GetUtcNow();
        return await store.ReadAsync(
            async db =>
            {
                var link = await db.ClientLinks.SingleOrDefaultAsync(found => found.Hash == hash, cancellationToken);
                return link is null || !link.IsLive(now) || !secret.Matches(Convert.FromHexString(link.Hash)) ? null : new ClientAccess(link.Id, link.JobId, link.ExpiresAt);
            },
            cancellationToken);
    }

    /// <summary>Counts that the link was opened; the one thing looking at it changes.</summary>
    public async Task CountOpeningAsync(ClientAccess access, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(access);
        await store.WriteAsync<Done>(
            Actor.Client("Client"),
            async db =>
            {
                var link = await db.ClientLinks.SingleAsync(found => found.Id == access.LinkId, cancellationToken);
                link.Opened(store.Time.GetUtcNow());
                return Done.Value;
            },
            cancellationToken);
    }

    private async Task<Outcome<NewClientLink>> CreateAsync(Actor actor, Guid jobId, bool endOthers, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        return await store.WriteAsync<NewClientLink>(
            actor,
            async db =>
            {
                if (await db.Jobs.Where(job => job.Id == jobId).Select(job => (JobState?)job.State).SingleOrDefaultAsync(cancellationToken) is not { } state || state == JobState.Cancelled)
                {
                    return new Problem("", "A cancelled job has no client link.");
                }

                var now = store.Time.GetUtcNow();
                if (endOthers)
                {
                    (await db.ClientLinks.Where(link => link.JobId == jobId && link.RevokedAt == null).ToListAsync(cancellationToken)).ForEach(link => link.Revoke(now));
                }

                var days = (await db.SettingsAsync(cancellationToken)).ClientLinkDays;
                var secret = SecretToken.Create();
                var link = new ClientLink(jobId, HashOf(secret), actor.Name, now, now.AddDays(days));
                db.ClientLinks.Add(link);
                return new NewClientLink(link.Id, secret.Reveal(), link.ExpiresAt);
            },
            cancellationToken);
    }

    private static string HashOf(SecretToken secret) => Convert.ToHexStringLower(secret.Hash());
}

/// <summary>A link just made. Its secret is shown now and never again.</summary>
public sealed class NewClientLink(Guid id, string secret, DateTimeOffset expiresAt)
{
    public Guid Id { get; } = id;

    public DateTimeOffset ExpiresAt { get; } = expiresAt;

    /// <summary>Path below the shop's address that the client opens.</summary>
    public string Path { get; } = $"/c/{secret}";

    /// <summary>Says nothing about the secret, so that it cannot slip into a log.</summary>
    public override string ToString() => "Client link (hidden)";
}

/// <summary>A link as the front desk sees it later: without its secret.</summary>
public sealed record ClientLinkLine(
    Guid Id, string CreatedBy, DateTimeOffset CreatedAt, DateTimeOffset ExpiresAt, DateTimeOffset? RevokedAt, DateTimeOffset? LastOpenedAt, int OpenedCount, bool IsLive);

/// <summary>Proof that a live link was presented; only <see cref="ClientLinks.ResolveAsync"/> makes one.</summary>
public sealed class ClientAccess
{
    internal ClientAccess(Guid linkId, Guid jobId, DateTimeOffset expiresAt) => (LinkId, JobId, ExpiresAt) = (linkId, jobId, expiresAt);

    public DateTimeOffset ExpiresAt { get; }

    public Guid LinkId { get; }

    public Guid JobId { get; }
}
