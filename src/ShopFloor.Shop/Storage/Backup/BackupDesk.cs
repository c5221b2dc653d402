using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Storage.Backup;

/// <summary>Backups as the owner makes and fetches them from the settings.</summary>
public sealed class BackupDesk(ShopBackup backup, ShopFolder folder) : IDisposable
{
    private readonly SemaphoreSlim _one = new(1, 1);

    public IReadOnlyList<BackupRow> List(Actor actor)
    {
        actor.Demand(Permission.ManageShop);
        return Directory.Exists(folder.Backups)
            ? [.. new DirectoryInfo(folder.Backups).GetFiles(ShopBackup.NamePattern)
                .OrderByDescending(file => file.Name, StringComparer.Ordinal)
                .Select(file => new BackupRow(file.Name, file.Length, new DateTimeOffset(file.LastWriteTimeUtc)))]
            : [];
    }

    public async Task<Outcome<BackupRow>> MakeAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.ManageShop);
        if (!await _one.WaitAsync(TimeSpan.Zero, cancellationToken))
        {
            return new Problem("", "A backup is being made right now. Wait until it is done.");
        }

        try
        {
            var made = await backup.MakeAsync(folder.Backups, cancellationToken);
            return new BackupRow(made.Name, made.Length, new DateTimeOffset(made.LastWriteTimeUtc));
        }
        catch (IOException full)
        {
            return new Problem("", $"The backup could not be written: {full.Message} Make room on the disk, then try again.");
        }
        finally
        {
            _one.Release();
        }
    }

    /// <returns>The archive of that name, or null when there is none.</returns>
    public Stream? Open(Actor actor, string name) =>
        List(actor).Any(row => row.Name == name) ? File.OpenRead(Path.Combine(folder.Backups, name)) : null;

    public void Dispose() => _one.Dispose();
}

public sealed record BackupRow(string Name, long Bytes, DateTimeOffset MadeAt);
