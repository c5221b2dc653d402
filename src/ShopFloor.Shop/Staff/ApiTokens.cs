using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff.Secrets;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Staff;

/// <summary>The bearer tokens of the HTTP API: made by the owner, shown once, narrowed to what they are for, and never for ever.</summary>
public sealed class ApiTokens(ShopStore store)
{
    /// <summary>Tells a token of this shop apart from other secrets, also for programs that look for leaked ones.</summary>
    public const string Prefix = "shopfloor_";

    /// <summary>A program can neither run the shop nor stand in for a person's own responsibility.</summary>
    public static IReadOnlyList<Permission> Scopes { get; } =
        [.. Enum.GetValues<Permission>().Except([Permission.ManageShop, Permission.SignOffFindings])];

    public Task<List<ApiTokenRow>> ListAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.ReadAsync(
            async db => (await db.ApiTokens.OrderByDescending(token => token.CreatedAt).Take(Limits.Page).ToListAsync(cancellationToken))
                .Select(token => new ApiTokenRow(
                    token.Id, token.Name, token.Scope, token.CreatedBy, token.CreatedAt, token.ExpiresAt, token.RevokedAt, token.IsLive(store.Time.GetUtcNow())))
                .ToList(),
            cancellationToken);
    }

    /// <summary>Makes a token; seeing jobs is part of every scope, because all others work on them. Its text is in the answer and nowhere else.</summary>
    public async Task<Outcome<CreatedApiToken>> CreateAsync(Actor actor, ApiTokenForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        var problems = form.Problems();
        problems.AddRange(form.Scope.Where(permission => Scopes.Contains(permission) && !actor.May(permission))
            .Select(permission => new Problem(nameof(form.Scope), $"You cannot give away {permission}: you do not have it.")));
        if (problems.Count > 0)
        {
            return problems;
        }

        var secret = SecretToken.Create();
        var now = store.Time.GetUtcNow();
        return await store.WriteAsync<CreatedApiToken>(
            actor,
            async db =>
            {
                if (form.PersonId is { } personId && !await db.Users.AnyAsync(member => member.Id == personId && member.IsActive, cancellationToken))
                {
                    return new Problem(nameof(form.PersonId), "That person is not on file or switched off; choose another.");
                }

                var token = db.ApiTokens.Add(new ApiToken(
                    form.Name.Trim(), Tablets.HashOf(secret), form.Scope.Append(Permission.SeeJobs).Distinct().Order(), form.PersonId, actor.Name, now, now.AddDays(form.Days))).Entity;
                return new CreatedApiToken(token.Id, Prefix + secret.Reveal(), token.ExpiresAt);
            },
            cancellationToken);
    }

    public Task<Outcome<Done>> RevokeAsync(Actor actor, Guid tokenId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.WriteAsync<Done>(
            actor,
            async db =>
            {
                (await db.ApiTokens.SingleAsync(token => token.Id == tokenId, cancellationToken)).Revoke(store.Time.GetUtcNow());
                return Done.Value;
            },
            cancellationToken);
    }

    /// <summary>Who a presented token acts as; null when it is unknown, expired or revoked.</summary>
    public async Task<Actor?> ActorOfAsync(string? presented, CancellationToken cancellationToken)
    {
        if (presented?.StartsWith(Prefix, StringComparison.Ordinal) != true || !SecretToken.TryRead(presented[Prefix.Length..], out var secret))
        {
            return null;
        }

        var hash = Tablets.HashOf(secret);
        return await store.ReadAsync(
            async db =>
            {
                var token = await db.ApiTokens.FirstOrDefaultAsync(known => known.Hash == hash, cancellationToken);
                if (token?.IsLive(store.Time.GetUtcNow()) != true)
                {
                    return null;
                }

                var scope = token.Scope.Intersect(Scopes).ToHashSet();
                if (token.PersonId is not { } personId)
                {
                    return new Actor(null, token.Name, ShopRole.Owner, ActorVia.Api) { OnlyPermissions = scope };
                }

                // In a person's name it can do no more than the person, and nothing once they are switched off.
                var person = await db.Users.FirstOrDefaultAsync(member => member.Id == personId && member.IsActive, cancellationToken);
                return person is null ? null : new Actor(person.Id, person.DisplayName, person.Role, ActorVia.Api) { OnlyPermissions = scope };
            },
            cancellationToken);
    }
}

/// <summary>What the owner asks for in a token.</summary>
public sealed class ApiTokenForm
{
    [Display(Name = "What it is for")]
    public string Name { get; set; } = "";

    [Display(Name = "What it may do")]
    public List<Permission> Scope { get; set; } = [Permission.SeeJobs];

    [Display(Name = "Acts as")]
    public Guid? PersonId { get; set; }

    [Display(Name = "Days it lives")]
    public int Days { get; set; } = 90;

    public List<Problem> Problems()
    {
        var beyond = Scope.Except(ApiTokens.Scopes).ToList();
        return new Check()
            .Required(Name, nameof(Name), "What the token is for", 100)
            .That(Scope.Count > 0, nameof(Scope), "The token may do nothing; choose at least one thing.")
            .That(beyond.Count == 0, nameof(Scope), $"A token cannot have {string.Join(", ", beyond)}; accepted are {string.Join(", ", ApiTokens.Scopes)}.")
            .Range(Days, nameof(Days), "The life of the token", 1, 730, "days")
            .Problems;
    }
}

public sealed record ApiTokenRow(
    Guid Id,
    string Name,
    IReadOnlyList<Permission> Scope,
    string CreatedBy,
    DateTimeOffset CreatedAt,
    DateTimeOffset ExpiresAt,
    DateTimeOffset? RevokedAt,
    bool IsLive);

/// <param name="Id">The token's record.</param>
/// <param name="Text">The token itself; shown once.</param>
/// <param name="ExpiresAt">When it stops working.</param>
public sealed record CreatedApiToken(Guid Id, string Text, DateTimeOffset ExpiresAt)
{
    public override string ToString() => $"API token {Id} (hidden)";
}
