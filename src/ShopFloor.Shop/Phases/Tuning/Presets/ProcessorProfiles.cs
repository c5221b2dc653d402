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

    public Task<TuningLimits> LimitsAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(async db => (await db.SettingsAsync(cancellationToken)).Tuning, cancellationToken);
    }

    /// <param name="was">The profile as it was loaded, for a change; null for a new one.</param>
    public Task<Outcome<Done>> SaveAsync(Actor actor, ProcessorProfile? was, ProcessorProfile profile, UnitText text, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(profile);
        profile = profile with { Name = profile.Name.Trim() };
        return ChangeAsync(
            actor,
            settings =>
            {
                var problems = profile.Validate(text).Select(problem => new Problem(problem.Field, problem.Message)).ToList();
                if (problems.Count > 0)
                {
                    return problems;
                }

                var at = was is null ? -1 : Find(settings.Processors, was);
                if (was is not null && at < 0)
                {
                    return new Problem("", $"Somebody changed or removed '{was.Name}' meanwhile; load the list again.");
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
            settings => Find(settings.Processors, profile) is var at && at >= 0
                ? settings with { Processors = [.. settings.Processors.Where((_, index) => index != at)] }
                : new Problem("", $"Somebody changed or removed '{profile.Name}' meanwhile; load the list again."),
            cancellationToken);

    public Task<Outcome<Done>> SetLimitsAsync(Actor actor, TuningLimits limits, CancellationToken cancellationToken) =>
        ChangeAsync(actor, settings => limits.Problems() is { Count: > 0 } problems ? problems : settings with { Tuning = limits }, cancellationToken);

    internal static IReadOnlyList<ProcessorProfile> Of(ShopSettingsForm settings) => [Generic, .. settings.Processors.OrderBy(profile => profile.Name, StringComparer.OrdinalIgnoreCase)];

    // Lists inside a record are compared by what stands in them.
    private static int Find(IReadOnlyList<ProcessorProfile> all, ProcessorProfile one)
    {
        var wanted = System.Text.Json.JsonSerializer.Serialize(one, StoredJson.Options);
        return all.ToList().FindIndex(each => System.Text.Json.JsonSerializer.Serialize(each, StoredJson.Options) == wanted);
    }

    private Task<Outcome<Done>> ChangeAsync(Actor actor, Func<ShopSettingsForm, Outcome<ShopSettingsForm>> change, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.WriteAsync<Done>(
            actor,
            async db =>
            {
                var saved = await db.ShopSettings.SingleOrDefaultAsync(found => found.Id == ShopSettings.OnlyId, cancellationToken);
                var changed = change(saved?.Form ?? new ShopSettingsForm());
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
