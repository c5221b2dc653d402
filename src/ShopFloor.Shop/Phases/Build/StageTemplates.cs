using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>The shop's own stage templates. Jobs copy them when they are planned; changing a template changes no job.</summary>
public sealed class StageTemplates(ShopStore store)
{
    /// <summary>Templates in use, the default first. Also for whoever plans a job.</summary>
    public Task<List<TemplateRow>> ListAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db => (await db.StageTemplates.ToListAsync(cancellationToken))
                .OrderByDescending(template => template.IsDefault)
                .ThenBy(template => template.Name, StringComparer.CurrentCultureIgnoreCase)
                .Select(TemplateRow.Of)
                .ToList(),
            cancellationToken);
    }

    /// <summary>Templates that were taken away, for bringing back.</summary>
    public Task<List<TemplateRow>> RemovedAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.ReadAsync(
            async db => (await db.StageTemplates.IgnoreQueryFilters().Where(template => template.RemovedAt != null).ToListAsync(cancellationToken))
                .Select(TemplateRow.Of)
                .ToList(),
            cancellationToken);
    }

    /// <returns>The template as a form, or null when it is no longer there.</returns>
    public Task<LoadedTemplate?> FindAsync(Actor actor, Guid templateId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.ReadAsync(
            async db => await db.StageTemplates.FirstOrDefaultAsync(template => template.Id == templateId, cancellationToken) is { } found
                ? new LoadedTemplate(found.Id, found.Version, TemplateForm.Of(found))
                : null,
            cancellationToken);
    }

    /// <summary>A new template, by default a copy of the usual stages.</summary>
    public Task<Outcome<Guid>> AddAsync(Actor actor, TemplateForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        var problems = form.Problems();
        return problems.Count > 0
            ? Task.FromResult<Outcome<Guid>>(problems)
            : store.WriteAsync<Guid>(
                actor,
                async db =>
                {
                    var added = db.StageTemplates.Add(new StageTemplate(form.Name.Trim(), form.ToStages())).Entity;
                    await SetDefaultAsync(db, added, form.IsDefault, cancellationToken);
                    return added.Id;
                },
                cancellationToken);
    }

    public Task<Outcome<Guid>> EditAsync(Actor actor, Guid templateId, Guid expectedVersion, TemplateForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        var problems = form.Problems();
        return problems.Count > 0
            ? Task.FromResult<Outcome<Guid>>(problems)
            : store.WriteAsync<Guid>(
                actor,
                async db =>
                {
                    if (await db.StageTemplates.FirstOrDefaultAsync(found => found.Id == templateId, cancellationToken) is not { } template)
                    {
                        return Gone;
                    }

                    if (await db.ConflictAsync(template, expectedVersion, form, TemplateForm.Of(template), cancellationToken) is { } conflict)
                    {
                        return conflict;
                    }

                    template.Name = form.Name.Trim();
                    template.Stages = form.ToStages();
                    await SetDefaultAsync(db, template, form.IsDefault, cancellationToken);
                    return template.Id;
                },
                cancellationToken);
    }

    public Task<Outcome<Guid>> DuplicateAsync(Actor actor, Guid templateId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.WriteAsync<Guid>(
            actor,
            async db => await db.StageTemplates.FirstOrDefaultAsync(found => found.Id == templateId, cancellationToken) is { } template
                ? db.StageTemplates.Add(new StageTemplate(CopyName(template.Name), template.Stages)).Entity.Id
                : Gone,
            cancellationToken);
    }

    /// <summary>Takes a template away; jobs planned from it keep their stages, and it can be brought back.</summary>
    public Task<Outcome<Done>> RemoveAsync(Actor actor, Guid templateId, CancellationToken cancellationToken) =>
        ChangeAsync(actor, templateId, template =>
        {
            template.IsDefault = false;
            template.Remove(store.Time.GetUtcNow());
        }, cancellationToken);

    public Task<Outcome<Done>> BringBackAsync(Actor actor, Guid templateId, CancellationToken cancellationToken) =>
        ChangeAsync(actor, templateId, template => template.BringBack(), cancellationToken);

    private static Problem Gone => new("", "That template is no longer there; load the list again.");

    private static string CopyName(string name)
    {
        var copy = $"{name} (copy)";
        return copy.Length <= Limits.Name ? copy : copy[^Limits.Name..];
    }

    private Task<Outcome<Done>> ChangeAsync(Actor actor, Guid templateId, Action<StageTemplate> change, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.WriteAsync<Done>(
            actor,
            async db =>
            {
                if (await db.StageTemplates.IgnoreQueryFilters().FirstOrDefaultAsync(found => found.Id == templateId, cancellationToken) is not { } template)
                {
                    return Gone;
                }

                change(template);
                return Done.Value;
            },
            cancellationToken);
    }

    private static async Task SetDefaultAsync(ShopDbContext db, StageTemplate template, bool isDefault, CancellationToken cancellationToken)
    {
        template.IsDefault = isDefault;
        if (isDefault)
        {
            foreach (var other in await db.StageTemplates.Where(found => found.IsDefault && found.Id != template.Id).ToListAsync(cancellationToken))
            {
                other.IsDefault = false;
            }
        }
    }
}

public sealed record TemplateRow(Guid Id, string Name, bool IsDefault, int Stages, int Steps, decimal PlannedHours)
{
    public static TemplateRow Of(StageTemplate template) => new(
        template.Id,
        template.Name,
        template.IsDefault,
        template.Stages.Count,
        template.Stages.Sum(stage => stage.Steps.Count),
        template.Stages.Sum(stage => stage.PlannedHours));
}

/// <param name="Id">Which template.</param>
/// <param name="Version">Version it was loaded with, handed back when it is saved.</param>
/// <param name="Form">What is edited.</param>
public sealed record LoadedTemplate(Guid Id, Guid Version, TemplateForm Form);

/// <summary>A template as it is edited.</summary>
public sealed class TemplateForm
{
    [Display(Name = "Name")]
    public string Name { get; set; } = "";

    [Display(Name = "Used when a job is planned without choosing")]
    public bool IsDefault { get; set; }

    [Display(Name = "Stages")]
    public List<StageForm> Stages { get; set; } = [];

    public static TemplateForm Of(StageTemplate template) => new()
    {
        Name = template.Name,
        IsDefault = template.IsDefault,
        Stages = [.. template.Stages.Select(StageForm.Of)],
    };

    public static TemplateForm OfUsual() => new() { Name = UsualStages.Name, Stages = [.. UsualStages.Stages.Select(StageForm.Of)] };

    public List<TemplateStage> ToStages() => [.. Stages.Select(stage => stage.ToStage())];

    public List<Problem> Problems() => StageTemplate.ProblemsIn(Name, ToStages());
}
