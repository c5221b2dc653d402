using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Tuning;

/// <summary>The settings as the car leaves the shop with them: device, setting, value, in an order of the shop's choosing.</summary>
public sealed class SettingsSheet(ShopStore store)
{
    private const int MostRows = 400;

    /// <summary>Settings people usually write down (common practice, no source); the list only saves typing.</summary>
    private static readonly string[] UsualSettings =
    [
        "High-pass", "Low-pass", "Level", "Delay", "Polarity", "Input sensitivity", "Equaliser", "Preset", "Remote level",
    ];

    public async Task<SettingsSheetView> ReadAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return await store.ReadAsync(
            async db =>
            {
                var rows = await RowsAsync(db, jobId, cancellationToken);
                var devices = await db.JobParts
                    .Where(part => part.JobId == jobId
                        && part.Direction == PartDirection.Installed
                        && (part.Kind == PartKind.Amplifier || part.Kind == PartKind.Processor || part.Kind == PartKind.Source))
                    .OrderBy(part => part.Order)
                    .Select(part => part.Name)
                    .ToListAsync(cancellationToken);
                return new SettingsSheetView(
                    rows,
                    [.. devices.Concat(rows.Select(row => row.Device)).Distinct(StringComparer.OrdinalIgnoreCase)],
                    [.. UsualSettings.Concat(rows.Select(row => row.Setting)).Distinct(StringComparer.OrdinalIgnoreCase)]);
            },
            cancellationToken);
    }

    public async Task<Outcome<Guid>> AddAsync(Actor actor, Guid jobId, SettingRowForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        var problems = form.Problems();
        if (problems.Count > 0)
        {
            return problems;
        }

        return await store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                if (await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                var rows = await db.SettingRows.Where(row => row.JobId == jobId).ToListAsync(cancellationToken);
                if (rows.Count >= MostRows)
                {
                    return new Problem("", $"The sheet has {rows.Count} rows; at most {MostRows} are kept.");
                }

                // A row of a device that is already there goes to the end of that device's rows.
                var device = form.Device.Trim();
                var after = rows.Where(row => string.Equals(row.Device, device, StringComparison.OrdinalIgnoreCase)).OrderBy(row => row.Order).LastOrDefault();
                var order = after is null ? 1 + (rows.Count == 0 ? -1 : rows.Max(row => row.Order)) : after.Order + 1;
                foreach (var row in rows.Where(row => row.Order >= order))
                {
                    row.MoveTo(row.Order + 1);
                }

                var added = new SettingRow(jobId, form, order);
                db.SettingRows.Add(added);
                return added.Id;
            },
            cancellationToken);
    }

    public async Task<Outcome<Guid>> EditAsync(Actor actor, Guid rowId, Guid expectedVersion, SettingRowForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        var problems = form.Problems();
        if (problems.Count > 0)
        {
            return problems;
        }

        return await store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                var row = await db.SettingRows.SingleOrDefaultAsync(found => found.Id == rowId, cancellationToken);
                if (row is null)
                {
                    return new Problem("", "Somebody took this row away meanwhile.");
                }

                if (await JobLock.ProblemAsync(db, row.JobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                if (await db.ConflictAsync(row, expectedVersion, form, SettingRowForm.Of(row), cancellationToken) is { } conflict)
                {
                    return conflict;
                }

                row.Apply(form);
                return row.Id;
            },
            cancellationToken);
    }

    public Task<Outcome<Done>> RemoveAsync(Actor actor, Guid rowId, CancellationToken cancellationToken) =>
        ChangeAsync(actor, rowId, row => row.Remove(store.Time.GetUtcNow()), cancellationToken);

    public Task<Outcome<Done>> BringBackAsync(Actor actor, Guid rowId, CancellationToken cancellationToken) =>
        ChangeAsync(actor, rowId, row => row.BringBack(), cancellationToken);

    /// <summary>Moves a row one place up or down; at the end it stays.</summary>
    public async Task<Outcome<Done>> MoveAsync(Actor actor, Guid rowId, bool up, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        return await store.WriteAsync<Done>(
            actor,
            async db =>
            {
                var jobId = await db.SettingRows.Where(found => found.Id == rowId).Select(found => found.JobId).SingleAsync(cancellationToken);
                if (await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                var rows = await db.SettingRows.Where(found => found.JobId == jobId).OrderBy(found => found.Order).ThenBy(found => found.Id).ToListAsync(cancellationToken);
                var from = rows.FindIndex(found => found.Id == rowId);
                var to = Math.Clamp(from + (up ? -1 : 1), 0, rows.Count - 1);
                (rows[from], rows[to]) = (rows[to], rows[from]);

                // Counted anew: rows that were brought back may share a place.
                for (var index = 0; index < rows.Count; index++)
                {
                    rows[index].MoveTo(index);
                }

                return Done.Value;
            },
            cancellationToken);
    }

    internal static Task<List<SettingLine>> RowsAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken) => db.SettingRows
        .Where(row => row.JobId == jobId)
        .OrderBy(row => row.Order)
        .ThenBy(row => row.Id)
        .Select(row => new SettingLine(row.Id, row.Version, row.Device, row.Setting, row.Value))
        .ToListAsync(cancellationToken);

    private async Task<Outcome<Done>> ChangeAsync(Actor actor, Guid rowId, Action<SettingRow> change, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        return await store.WriteAsync<Done>(
            actor,
            async db =>
            {
                var row = await db.SettingRows.IgnoreQueryFilters().SingleAsync(found => found.Id == rowId, cancellationToken);
                if (await JobLock.ProblemAsync(db, row.JobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                change(row);
                return Done.Value;
            },
            cancellationToken);
    }
}

/// <param name="Rows">The sheet in order.</param>
/// <param name="Devices">Device names to choose from: of the parts list and of the sheet.</param>
/// <param name="Settings">Setting names to choose from.</param>
public sealed record SettingsSheetView(IReadOnlyList<SettingLine> Rows, IReadOnlyList<string> Devices, IReadOnlyList<string> Settings);

public sealed record SettingLine(Guid Id, Guid Version, string Device, string Setting, string Value)
{
    public SettingRowForm ToForm() => new() { Device = Device, Setting = Setting, Value = Value };
}
