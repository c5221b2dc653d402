using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Tuning.Presets;

/// <summary>What the processors the shop works with can be set to, as entered from their makers' sheets, and the limits a tuning is judged by.</summary>
public sealed class ProcessorProfiles(ShopStore store)
{
    public const int Most = 20;

    /// <summary>A processor of no maker: where a profile begins, and what is used until the shop enters its own.</summary>
    public static ProcessorProfile Generic { get; } = new() { Name = "Generic processor" };

    public Task<IReadOnlyList<ProcessorProfile>> ListAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(async db => Of(await db.SettingsAsync(cancellationToken)), cancellationToken);
    }

    public Task<LimitsDraft> LimitsAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db => await db.ShopSettings.SingleOrDefaultAsync(found => found.Id == ShopSettings.OnlyId, cancellationToken) is { } saved
                ? new LimitsDraft(saved.Version, saved.Form.Tuning with { })
                : new LimitsDraft(Guid.Empty, new TuningLimits()),
            cancellationToken);
    }

    /// <param name="was">The profile as it was loaded, for a change; null for a new one.</param>
    /// <returns>Done, or what is wrong, or the edit somebody else made meanwhile.</returns>
    public Task<Outcome<Done>> SaveAsync(Actor actor, ProcessorProfile? was, ProcessorProfile profile, UnitText text, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(profile);
        profile = profile with { Name = profile.Name.Trim() };
        return ChangeAsync(
            actor,
            async (db, saved, settings) =>
            {
                var problems = profile.Validate(text).Select(problem => new Problem(problem.Field, problem.Message)).ToList();
                if (problems.Count > 0)
                {
                    return problems;
                }

                var at = was is null ? -1 : Find(settings.Processors, was);
                if (was is not null && at < 0)
                {
                    if (saved is null || settings.Processors.FirstOrDefault(each => each.Name == was.Name) is not { } theirs)
                    {
                        return new Problem("", $"Somebody removed or renamed '{was.Name}' meanwhile. Save again to add yours as a new processor.");
                    }

                    var conflict = await db.ConflictAsync(saved, Guid.Empty, ProcessorForm.Of(profile), ProcessorForm.Of(theirs), cancellationToken);
                    return conflict! with { Subject = $"Processor '{was.Name}'" }; // no version is the empty one
                }

                if (Of(settings).Where(other => was is null || other.Name != was.Name).Any(other => other.Name.Equals(profile.Name, StringComparison.OrdinalIgnoreCase)))
                {
                    return new Problem(nameof(profile.Name), $"There is a processor '{profile.Name}' already.");
                }

                if (at < 0 && settings.Processors.Count >= Most)
                {
                    return new Problem("", $"There are {settings.Processors.Count} processors; at most {Most} are kept.");
                }

                return at < 0 ? settings with { Processors = [.. settings.Processors, profile] } : settings with { Processors = [.. settings.Processors.Select((each, index) => index == at ? profile : each)] };
            },
            cancellationToken);
    }

    /// <summary>Takes a profile off the list; presets keep the copy they were made with.</summary>
    public Task<Outcome<Done>> RemoveAsync(Actor actor, ProcessorProfile profile, CancellationToken cancellationToken) =>
        ChangeAsync(
            actor,
            (_, _, settings) => Task.FromResult<Outcome<ShopSettingsForm>>(
                Find(settings.Processors, profile) is var at && at >= 0
                    ? settings with { Processors = [.. settings.Processors.Where((_, index) => index != at)] }
                    : new Problem("", $"Somebody changed or removed '{profile.Name}' meanwhile; look at it again.")),
            cancellationToken);

    /// <returns>The new version, or what is wrong, or the edit somebody else made meanwhile.</returns>
    public async Task<Outcome<Guid>> SetLimitsAsync(Actor actor, Guid expectedVersion, TuningLimits limits, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(limits);
        var outcome = await ChangeAsync(
            actor,
            async (db, saved, settings) =>
            {
                if (limits.Problems() is { Count: > 0 } problems)
                {
                    return problems;
                }

                var conflict = saved is null ? null : await db.ConflictAsync(saved, expectedVersion, limits, settings.Tuning, cancellationToken);
                return conflict is null ? settings with { Tuning = limits with { } } : conflict with { Subject = "Limits of a tuning" };
            },
            cancellationToken);
        return outcome.Succeeded ? (await LimitsAsync(actor, cancellationToken)).Version : outcome.As<Guid>();
    }

    internal static IReadOnlyList<ProcessorProfile> Of(ShopSettingsForm settings) => [Generic, .. settings.Processors.OrderBy(profile => profile.Name, StringComparer.OrdinalIgnoreCase)];

    // Lists inside a record are compared by what stands in them.
    private static int Find(IReadOnlyList<ProcessorProfile> all, ProcessorProfile one)
    {
        var wanted = System.Text.Json.JsonSerializer.Serialize(one, StoredJson.Options);
        return all.ToList().FindIndex(each => System.Text.Json.JsonSerializer.Serialize(each, StoredJson.Options) == wanted);
    }

    private Task<Outcome<Done>> ChangeAsync(Actor actor, Func<ShopDbContext, ShopSettings?, ShopSettingsForm, Task<Outcome<ShopSettingsForm>>> change, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.WriteAsync<Done>(
            actor,
            async db =>
            {
                var saved = await db.ShopSettings.SingleOrDefaultAsync(found => found.Id == ShopSettings.OnlyId, cancellationToken);
                var changed = await change(db, saved, saved?.Form ?? new ShopSettingsForm());
                if (!changed.Succeeded)
                {
                    return changed.As<Done>();
                }

                if (saved is null)
                {
                    db.ShopSettings.Add(new ShopSettings(changed.Value!)); // succeeded
                }
                else
                {
                    saved.Apply(changed.Value!); // succeeded
                }

                return Done.Value;
            },
            cancellationToken);
    }
}

/// <param name="Version">Version of the shop's settings, for an edit; empty before the first one.</param>
/// <param name="Limits">What stands now.</param>
public sealed record LimitsDraft(Guid Version, TuningLimits Limits);
