using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>The shop's own ampacity tables. A changed table changes every plan that uses it, but no released one.</summary>
public sealed class OwnTables(ShopStore store)
{
    /// <summary>Tables in use, by name; also for whoever designs.</summary>
    public Task<List<OwnTableRow>> ListAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(async db => Rows(await db.OwnTables.ToListAsync(cancellationToken)), cancellationToken);
    }

    /// <summary>Tables that were taken away, for bringing back.</summary>
    public Task<List<OwnTableRow>> RemovedAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.ReadAsync(
            async db => Rows(await db.OwnTables.IgnoreQueryFilters().Where(table => table.RemovedAt != null).ToListAsync(cancellationToken)),
            cancellationToken);
    }

    /// <returns>The table as a form, or null when it is no longer there.</returns>
    public Task<LoadedOwnTable?> FindAsync(Actor actor, Guid tableId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.ReadAsync(
            async db => await db.OwnTables.FirstOrDefaultAsync(table => table.Id == tableId, cancellationToken) is { } found
                ? new LoadedOwnTable(found.Id, found.Version, found.Form with { })
                : null,
            cancellationToken);
    }

    public Task<Outcome<Guid>> AddAsync(Actor actor, OwnTableForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        var problems = form.Problems();
        return problems.Count > 0
            ? Task.FromResult<Outcome<Guid>>(problems)
            : store.WriteAsync<Guid>(
                actor,
                async db => await TakenAsync(db, form, Guid.Empty, cancellationToken) is { } taken ? taken : db.OwnTables.Add(new OwnTable(form with { })).Entity.Id,
                cancellationToken);
    }

    public Task<Outcome<Guid>> EditAsync(Actor actor, Guid tableId, Guid expectedVersion, OwnTableForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        var problems = form.Problems();
        return problems.Count > 0
            ? Task.FromResult<Outcome<Guid>>(problems)
            : store.WriteAsync<Guid>(
                actor,
                async db =>
                {
                    if (await db.OwnTables.FirstOrDefaultAsync(found => found.Id == tableId, cancellationToken) is not { } table)
                    {
                        return Gone;
                    }

                    if (await db.ConflictAsync(table, expectedVersion, form, table.Form, cancellationToken) is { } conflict)
                    {
                        return conflict;
                    }

                    if (await TakenAsync(db, form, tableId, cancellationToken) is { } taken)
                    {
                        return taken;
                    }

                    table.Apply(form with { });
                    return table.Id;
                },
                cancellationToken);
    }

    /// <summary>Takes a table away; jobs that use it keep it, and it can be brought back.</summary>
    public Task<Outcome<Done>> RemoveAsync(Actor actor, Guid tableId, CancellationToken cancellationToken) =>
        ChangeAsync(actor, tableId, table => table.Remove(store.Time.GetUtcNow()), cancellationToken);

    public Task<Outcome<Done>> BringBackAsync(Actor actor, Guid tableId, CancellationToken cancellationToken) =>
        ChangeAsync(actor, tableId, table => table.BringBack(), cancellationToken);

    private static Problem Gone => new("", "That table is no longer there; load the list again.");

    private static List<OwnTableRow> Rows(IEnumerable<OwnTable> tables) =>
        [.. tables.Select(OwnTableRow.Of).OrderBy(row => row.Name, StringComparer.CurrentCultureIgnoreCase)];

    private static async Task<Problem?> TakenAsync(ShopDbContext db, OwnTableForm form, Guid own, CancellationToken cancellationToken) =>
        (await db.OwnTables.Where(table => table.Id != own).ToListAsync(cancellationToken)).Exists(table => table.Form.Name.Trim().Equals(form.Name.Trim(), StringComparison.OrdinalIgnoreCase))
            ? new Problem(nameof(form.Name), $"There is a table named '{form.Name.Trim()}' already.")
            : null;

    private Task<Outcome<Done>> ChangeAsync(Actor actor, Guid tableId, Action<OwnTable> change, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        return store.WriteAsync<Done>(
            actor,
            async db =>
            {
                if (await db.OwnTables.IgnoreQueryFilters().FirstOrDefaultAsync(found => found.Id == tableId, cancellationToken) is not { } table)
                {
                    return Gone;
                }

                change(table);
                return Done.Value;
            },
            cancellationToken);
    }
}

/// <param name="InsulationCelsius">Insulation classes it has columns for, °C.</param>
public sealed record OwnTableRow(Guid Id, string Name, string Source, int Sizes, IReadOnlyList<double> InsulationCelsius)
{
    internal static OwnTableRow Of(OwnTable table)
    {
        var read = OwnTableText.Read(table.Form).Table;
        return new OwnTableRow(table.Id, table.Form.Name, table.Form.Source, read?.Rows.Count ?? 0, read?.InsulationCelsius ?? []);
    }
}

/// <param name="Version">Version it was loaded with, handed back when it is saved.</param>
public sealed record LoadedOwnTable(Guid Id, Guid Version, OwnTableForm Form);
