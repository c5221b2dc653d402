using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Money;

/// <summary>Reads and edits the shop's own facts.</summary>
public sealed class ShopSettingsDesk(ShopStore store)
{
    public Task<SettingsDraft> GetAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.ReadAsync(
            async db => await db.ShopSettings.SingleOrDefaultAsync(found => found.Id == ShopSettings.OnlyId, cancellationToken) is { } settings
                ? new SettingsDraft(settings.Version, settings.Form with { })
                : new SettingsDraft(Guid.Empty, new ShopSettingsForm()),
            cancellationToken);
    }

    /// <returns>The new version, or what is wrong, or the edit somebody else made meanwhile.</returns>
    public async Task<Outcome<Guid>> EditAsync(Actor actor, Guid expectedVersion, ShopSettingsForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        var problems = form.Problems();
        if (!Currency.TryFromCode(form.Currency, out _, out var problem))
        {
            problems.Add(new Problem(nameof(form.Currency), problem));
        }

        if (problems.Count > 0)
        {
            return problems;
        }

        ShopSettings? saved = null;
        var outcome = await store.WriteAsync<Done>(
            actor,
            async db =>
            {
                saved = await db.ShopSettings.SingleOrDefaultAsync(found => found.Id == ShopSettings.OnlyId, cancellationToken);
                if (saved is null)
                {
                    saved = db.ShopSettings.Add(new ShopSettings(form with { })).Entity;
                    return Done.Value;
                }

                // Processors and limits of a tuning have an editor of their own; what it kept meanwhile is no conflict and stays.
                form = form with { Processors = saved.Form.Processors, Tuning = saved.Form.Tuning };
                if (await db.ConflictAsync(saved, expectedVersion, form, saved.Form, cancellationToken) is { } conflict)
                {
                    return conflict;
                }

                saved.Apply(form with { });
                return Done.Value;
            },
            cancellationToken);
        return outcome.Succeeded ? saved!.Version : outcome.As<Guid>(); // set by the write
    }
}

/// <param name="Version">Version for an edit; empty before the first one.</param>
/// <param name="Form">What stands now.</param>
public sealed record SettingsDraft(Guid Version, ShopSettingsForm Form);
