using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Jobs;

/// <summary>The named designs of a job, of any kind: added, changed under versions, taken away and brought back.</summary>
public sealed class JobDesigns(ShopStore store)
{
    public Task<List<LoadedDesign<TForm>>> ListAsync<TForm>(Actor actor, Guid jobId, CancellationToken cancellationToken)
        where TForm : class, IDesignForm
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => ListAsync<TForm>(db, jobId, cancellationToken), cancellationToken);
    }

    /// <summary>Designs that were taken away, latest first, for bringing back.</summary>
    public Task<List<LoadedDesign<TForm>>> RemovedAsync<TForm>(Actor actor, Guid jobId, CancellationToken cancellationToken)
        where TForm : class, IDesignForm
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db => Loaded<TForm>(await Of(db, TForm.Kind).IgnoreQueryFilters()
                .Where(design => design.JobId == jobId && design.RemovedAt != null)
                .OrderByDescending(design => design.RemovedAt)
                .ToListAsync(cancellationToken)),
            cancellationToken);
    }

    /// <returns>The design, or null when it is no longer there.</returns>
    public Task<LoadedDesign<TForm>?> FindAsync<TForm>(Actor actor, Guid designId, CancellationToken cancellationToken)
        where TForm : class, IDesignForm
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db => await Of(db, TForm.Kind).FirstOrDefaultAsync(design => design.Id == designId, cancellationToken) is { } found
                ? Loaded<TForm>(found)
                : null,
            cancellationToken);
    }

    /// <returns>The id of the new design.</returns>
    public Task<Outcome<Guid>> AddAsync<TForm>(Actor actor, Guid jobId, string name, TForm form, CancellationToken cancellationToken)
        where TForm : class, IDesignForm
    {
        actor.Demand(TForm.Needed);
        var problems = Problems(name, form);
        return problems.Count > 0
            ? Task.FromResult<Outcome<Guid>>(problems)
            : store.WriteAsync<Guid>(
                actor,
                async db => await db.OpenJobProblemAsync(jobId, cancellationToken) is { } closed
                    ? closed
                    : db.JobDesigns.Add(new JobDesign(jobId, TForm.Kind, name.Trim(), JobDesign.Write(form), store.Time.GetUtcNow())).Entity.Id,
                cancellationToken);
    }

    /// <param name="expectedVersion">Version the form was loaded with.</param>
    public Task<Outcome<Guid>> EditAsync<TForm>(Actor actor, Guid designId, Guid expectedVersion, string name, TForm form, CancellationToken cancellationToken)
        where TForm : class, IDesignForm
    {
        actor.Demand(TForm.Needed);
        var problems = Problems(name, form);
        return problems.Count > 0
            ? Task.FromResult<Outcome<Guid>>(problems)
            : store.WriteAsync<Guid>(
                actor,
                async db =>
                {
                    if (await Of(db, TForm.Kind).FirstOrDefaultAsync(found => found.Id == designId, cancellationToken) is not { } design)
                    {
                        return Gone;
                    }

                    if (await db.OpenJobProblemAsync(design.JobId, cancellationToken) is { } closed)
                    {
                        return closed;
                    }

                    if (await db.ConflictAsync(design, expectedVersion, form, design.Form<TForm>(), cancellationToken) is { } conflict)
                    {
                        return conflict;
                    }

                    design.Apply(name.Trim(), JobDesign.Write(form));
                    return design.Id;
                },
                cancellationToken);
    }

    /// <summary>Takes a design away; it can be brought back.</summary>
    public Task<Outcome<Done>> RemoveAsync<TForm>(Actor actor, Guid designId, CancellationToken cancellationToken)
        where TForm : class, IDesignForm =>
        ChangeAsync<TForm>(actor, designId, design => design.Remove(store.Time.GetUtcNow()), cancellationToken);

    public Task<Outcome<Done>> BringBackAsync<TForm>(Actor actor, Guid designId, CancellationToken cancellationToken)
        where TForm : class, IDesignForm =>
        ChangeAsync<TForm>(actor, designId, design => design.BringBack(), cancellationToken);

    /// <summary>Designs of a kind in the order they were begun; inside a reading or transaction of the caller.</summary>
    internal static async Task<List<LoadedDesign<TForm>>> ListAsync<TForm>(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
        where TForm : class, IDesignForm =>
        Loaded<TForm>(await Of(db, TForm.Kind)
            .Where(design => design.JobId == jobId)
            .OrderBy(design => design.Id)
            .ToListAsync(cancellationToken));

    private static Problem Gone => new("", "That design is no longer there; load the list again.");

    private static IQueryable<JobDesign> Of(ShopDbContext db, DesignKind kind) => db.JobDesigns.Where(design => design.Kind == kind);

    private static List<LoadedDesign<TForm>> Loaded<TForm>(IEnumerable<JobDesign> designs)
        where TForm : class, IDesignForm =>
        [.. designs.Select(Loaded<TForm>)];

    private static LoadedDesign<TForm> Loaded<TForm>(JobDesign design)
        where TForm : class, IDesignForm =>
        new(design.Id, design.Version, design.Name, design.Form<TForm>());

    private static List<Problem> Problems<TForm>(string name, TForm form)
        where TForm : class, IDesignForm =>
        [
            .. new Check().Required(name, "Name", "The name").Problems,
            .. form.Problems(),
        ];

    private Task<Outcome<Done>> ChangeAsync<TForm>(Actor actor, Guid designId, Action<JobDesign> change, CancellationToken cancellationToken)
        where TForm : class, IDesignForm
    {
        actor.Demand(TForm.Needed);
        return store.WriteAsync<Done>(
            actor,
            async db =>
            {
                if (await Of(db, TForm.Kind).IgnoreQueryFilters().FirstOrDefaultAsync(found => found.Id == designId, cancellationToken) is not { } design)
                {
                    return Gone;
                }

                if (await db.OpenJobProblemAsync(design.JobId, cancellationToken) is { } closed)
                {
                    return closed;
                }

                change(design);
                return Done.Value;
            },
            cancellationToken);
    }
}

/// <param name="Version">Version it was loaded with, handed back when it is saved.</param>
public sealed record LoadedDesign<TForm>(Guid Id, Guid Version, string Name, TForm Form)
    where TForm : class, IDesignForm;
