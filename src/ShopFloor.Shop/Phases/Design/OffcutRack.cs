using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>The offcuts of the shop: left by jobs, taken by others, each once.</summary>
public sealed class OffcutRack(ShopStore store, JobDesigns designs, CutLists lists)
{
    private const int MostRemovedShown = 50;

    /// <summary>What lies on the rack, by material and size, the largest first.</summary>
    public Task<List<OffcutRow>> ListAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => RowsAsync(db, db.Offcuts, cancellationToken), cancellationToken);
    }

    /// <summary>What left it last, for bringing back.</summary>
    public Task<List<OffcutRow>> RemovedAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            db => RowsAsync(db, db.Offcuts.IgnoreQueryFilters().Where(offcut => offcut.RemovedAt != null && offcut.End != OffcutEnd.LaidOutAnew).OrderByDescending(offcut => offcut.RemovedAt).Take(MostRemovedShown), cancellationToken),
            cancellationToken);
    }

    /// <summary>Sheet materials of the catalogue whose thickness is known: nobody types them again.</summary>
    public Task<List<ShelfMaterial>> MaterialsAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                var known = await db.CatalogueParts.AsNoTracking().Where(part => part.Kind == PartKind.Material).OrderBy(part => part.Name).ToListAsync(cancellationToken);
                return new PanelShelf([.. known.Select(part => new ShelfPart(part.Id, part, part, null))]).Materials().Where(material => material.HasThickness).ToList();
            },
            cancellationToken);
    }

    public Task<Outcome<Guid>> AddAsync(Actor actor, OffcutForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        ArgumentNullException.ThrowIfNull(form);
        var problems = form.Problems();
        return problems.Count > 0 ? Task.FromResult<Outcome<Guid>>(problems) : store.WriteAsync<Guid>(actor, db => Task.FromResult<Outcome<Guid>>(db.Offcuts.Add(new Offcut(form with { }, null, null)).Entity.Id), cancellationToken);
    }

    public Task<Outcome<Guid>> EditAsync(Actor actor, Guid offcutId, Guid expectedVersion, OffcutForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        ArgumentNullException.ThrowIfNull(form);
        var problems = form.Problems();
        return problems.Count > 0
            ? Task.FromResult<Outcome<Guid>>(problems)
            : store.WriteAsync<Guid>(
                actor,
                async db =>
                {
                    if (await db.Offcuts.FirstOrDefaultAsync(found => found.Id == offcutId, cancellationToken) is not { } offcut)
                    {
                        return Gone;
                    }

                    if (await db.ConflictAsync(offcut, expectedVersion, form, offcut.Form, cancellationToken) is { } conflict)
                    {
                        return conflict;
                    }

                    offcut.Apply(form with { });
                    return offcut.Id;
                },
                cancellationToken);
    }

    /// <summary>Keeps an offcut for a cut list. Refused when another one has it.</summary>
    public Task<Outcome<OffcutRow>> TakeAsync(Actor actor, Guid jobId, Guid designId, Guid offcutId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.WriteAsync<OffcutRow>(
            actor,
            async db =>
            {
                if (await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                if (!await db.JobDesigns.AnyAsync(design => design.Id == designId && design.JobId == jobId && design.Kind == DesignKind.CutList, cancellationToken))
                {
                    return new Problem("", "That cut list is no longer there; load the list again.");
                }

                if (await db.Offcuts.FirstOrDefaultAsync(found => found.Id == offcutId, cancellationToken) is not { } offcut)
                {
                    return Gone;
                }

                if (offcut.FromDesignId == designId)
                {
                    return new Problem("", $"{offcut.Form} is what this list leaves; it cannot be cut from it too.");
                }

                if (offcut.ForDesignId is { } other && other != designId)
                {
                    return new Problem("", $"{offcut.Form} is kept for {await ReferenceAsync(db, offcut.ForJobId, cancellationToken)} already; choose another.");
                }

                offcut.Reserve(jobId, designId);
                return new OffcutRow(offcut.Id, offcut.Version, offcut.Form with { }, jobId, await ReferenceAsync(db, jobId, cancellationToken), designId, await ReferenceAsync(db, offcut.FromJobId, cancellationToken), offcut.End) { FromDesignId = offcut.FromDesignId };
            },
            cancellationToken);
    }

    /// <summary>Frees an offcut for every job.</summary>
    public Task<Outcome<Done>> GiveBackAsync(Actor actor, Guid offcutId, CancellationToken cancellationToken) =>
        ChangeAsync(actor, offcutId, offcut => offcut.Free(), cancellationToken);

    public Task<Outcome<Done>> ThrowAwayAsync(Actor actor, Guid offcutId, CancellationToken cancellationToken) =>
        ChangeAsync(actor, offcutId, offcut => offcut.Remove(OffcutEnd.ThrownAway, store.Time.GetUtcNow()), cancellationToken);

    public Task<Outcome<Done>> BringBackAsync(Actor actor, Guid offcutId, CancellationToken cancellationToken) =>
        ChangeAsync(actor, offcutId, offcut => offcut.BringBack(), cancellationToken);

    /// <summary>After the saw: puts what a cut list leaves on the rack, and takes off what it used up. Asked again, it changes nothing that is the same.</summary>
    /// <returns>How many were put there.</returns>
    public async Task<Outcome<int>> KeepAsync(Actor actor, Guid jobId, Guid designId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        if (await designs.FindAsync<CutListForm>(actor, designId, cancellationToken) is not { } design)
        {
            return new Problem("", "That cut list is no longer there; load the list again.");
        }

        var page = await lists.GetAsync(actor, jobId, cancellationToken);
        var basis = CutListMapping.Map(design.Form, page.Materials, UnitText.Invariant);
        if (basis.Problems.Count > 0)
        {
            return basis.Problems.ToList();
        }

        var view = await lists.LayOutAsync(actor, basis, UnitText.Invariant, null, cancellationToken);
        var left = LeftOf(design.Form, view);
        var used = view.Result.Materials.SelectMany(material => material.Sheets).Select(sheet => sheet.StockId).ToHashSet();
        HashSet<Guid> usedUp = [.. design.Form.Stock.Where(row => used.Contains(row.Id)).Select(row => row.OffcutId).OfType<Guid>()];
        return await store.WriteAsync<int>(
            actor,
            async db =>
            {
                var now = store.Time.GetUtcNow();
                foreach (var offcut in await db.Offcuts.Where(offcut => offcut.ForDesignId == designId).ToListAsync(cancellationToken))
                {
                    if (usedUp.Contains(offcut.Id))
                    {
                        offcut.Remove(OffcutEnd.UsedUp, now);
                    }
                }

                // One that was thrown away or used since then is not put there again; one nobody took and that is no longer left over goes.
                var before = await db.Offcuts.IgnoreQueryFilters().Where(offcut => offcut.FromDesignId == designId && offcut.End != OffcutEnd.LaidOutAnew).ToListAsync(cancellationToken);
                var open = left.ToList();
                foreach (var offcut in before.OrderBy(offcut => offcut.RemovedAt is null && offcut.ForJobId is null))
                {
                    var same = open.FindIndex(form => SamePiece(form, offcut.Form));
                    if (same >= 0)
                    {
                        open.RemoveAt(same);
                    }
                    else if (offcut is { RemovedAt: null, ForJobId: null })
                    {
                        offcut.Remove(OffcutEnd.LaidOutAnew, now);
                    }
                }

                db.Offcuts.AddRange(open.Select(form => new Offcut(form, jobId, designId)));
                return open.Count;
            },
            cancellationToken);
    }

    internal static Task<List<OffcutRow>> RowsAsync(ShopDbContext db, CancellationToken cancellationToken) => RowsAsync(db, db.Offcuts, cancellationToken);

    private static Problem Gone => new("", "That offcut is no longer on the rack; load the list again.");

    private static async Task<List<OffcutRow>> RowsAsync(ShopDbContext db, IQueryable<Offcut> offcuts, CancellationToken cancellationToken)
    {
        var found = await offcuts.AsNoTracking().ToListAsync(cancellationToken);
        var ids = found.SelectMany(offcut => new[] { offcut.ForJobId, offcut.FromJobId }).OfType<Guid>().Distinct().ToList();
        var jobs = (await db.Jobs.IgnoreQueryFilters().AsNoTracking().Where(job => ids.Contains(job.Id)).Select(job => new { job.Id, job.Number }).ToListAsync(cancellationToken)).ToDictionary(job => job.Id, job => Job.ReferenceOf(job.Number));
        string Reference(Guid? id) => id is { } key ? jobs.GetValueOrDefault(key, "") : "";
        return
        [
            .. found.Select(offcut => new OffcutRow(offcut.Id, offcut.Version, offcut.Form with { }, offcut.ForJobId, Reference(offcut.ForJobId), offcut.ForDesignId, Reference(offcut.FromJobId), offcut.End) { FromDesignId = offcut.FromDesignId })
                .OrderBy(row => row.Form.Material, StringComparer.CurrentCultureIgnoreCase).ThenBy(row => row.Form.ThicknessMeters).ThenByDescending(row => row.Form.LengthMeters * row.Form.WidthMeters),
        ];
    }

    private static async Task<string> ReferenceAsync(ShopDbContext db, Guid? jobId, CancellationToken cancellationToken) =>
        await db.Jobs.IgnoreQueryFilters().Where(job => job.Id == jobId).Select(job => (int?)job.Number).FirstOrDefaultAsync(cancellationToken) is { } number ? Job.ReferenceOf(number) : "";

    private static List<OffcutForm> LeftOf(CutListForm form, CutListView view) =>
    [
        .. from material in view.Materials
           from sheet in material.Nesting.Sheets
           let row = form.Stock.Find(stock => stock.Id == sheet.StockId)
           from left in sheet.LeftOver
           where left.Kept
           select new OffcutForm
           {
               Material = material.Material.Name, ThicknessMeters = material.Material.ThicknessMeters, Grain = row?.Grain ?? default,
               LengthMeters = Math.Floor(left.LengthMeters * 1000 + 1e-6) / 1000, WidthMeters = Math.Floor(left.WidthMeters * 1000 + 1e-6) / 1000,
           },
    ];

    // Its note may have been written and its size corrected by a hair on the rack.
    private static bool SamePiece(OffcutForm one, OffcutForm other) =>
        one.Material == other.Material && Near(one.ThicknessMeters, other.ThicknessMeters) && Near(one.LengthMeters, other.LengthMeters) && Near(one.WidthMeters, other.WidthMeters);

    private static bool Near(double? one, double? other) => Math.Abs((one ?? 0) - (other ?? 0)) < 0.003;

    private Task<Outcome<Done>> ChangeAsync(Actor actor, Guid offcutId, Action<Offcut> change, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        return store.WriteAsync<Done>(
            actor,
            async db =>
            {
                if (await db.Offcuts.IgnoreQueryFilters().FirstOrDefaultAsync(found => found.Id == offcutId, cancellationToken) is not { } offcut)
                {
                    return Gone;
                }

                change(offcut);
                return Done.Value;
            },
            cancellationToken);
    }
}
