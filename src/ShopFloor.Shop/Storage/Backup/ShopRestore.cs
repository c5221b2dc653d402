using Microsoft.Data.Sqlite;

namespace ShopFloor.Shop.Storage.Backup;

/// <summary>Puts an archive into a folder that holds no shop yet. Nothing is in place until everything was checked.</summary>
public static class ShopRestore
{
    private const string Unfinished = ".restoring";

    // What an installation may already have before its data: keys put back by hand, the log of a first start.
    private static readonly HashSet<string> Tolerated = new(StringComparer.Ordinal) { "keys", "logs", "backups", "lost+found", Unfinished };

    /// <exception cref="InvalidOperationException">The folder is not empty.</exception>
    /// <exception cref="InvalidDataException">The archive is not one of ours, is damaged, or was changed.</exception>
    public static async Task<BackupManifest> RunAsync(string archivePath, ShopFolder folder, CancellationToken cancellationToken)
    {
        RefuseUnlessEmpty(folder);
        var staging = Path.Combine(folder.Root, Unfinished);
        if (Directory.Exists(staging))
        {
            Directory.Delete(staging, recursive: true);
        }

        Directory.CreateDirectory(staging);
        try
        {
            BackupManifest manifest;
            await using (var archive = new FileStream(archivePath, FileMode.Open, FileAccess.Read, FileShare.Read))
            {
                manifest = await BackupArchive.ReadAsync(archive, (file, _) => Create(staging, file.Name), cancellationToken);
            }

            CheckDatabase(Path.Combine(staging, BackupManifest.DatabaseName));
            folder.Create();

            // The database last: without it the folder still counts as empty.
            var photos = Path.Combine(staging, "photos");
            if (Directory.Exists(photos))
            {
                Directory.Delete(folder.Photos, recursive: true);
                Directory.Move(photos, folder.Photos);
            }

            File.Move(Path.Combine(staging, BackupManifest.DatabaseName), folder.Database);
            Photos.FolderFlush.ToDisk(folder.Root);
            return manifest;
        }
        finally
        {
            Directory.Delete(staging, recursive: true);
        }
    }

    private static void RefuseUnlessEmpty(ShopFolder folder)
    {
        Directory.CreateDirectory(folder.Root);
        var there = Directory.EnumerateFileSystemEntries(folder.Root)
            .Where(entry => !Tolerated.Contains(Path.GetFileName(entry)))
            .Where(entry => entry != folder.Photos || Directory.EnumerateFileSystemEntries(entry).Any())
            .Select(Path.GetFileName)
            .Take(3)
            .ToList();
        if (there.Count > 0)
        {
            throw new InvalidOperationException(
                $"The folder '{folder.Root}' is not empty ({string.Join(", ", there)}). A restore never overwrites a shop: name a new folder, or move the old one away.");
        }
    }

    private static FileStream Create(string staging, string name)
    {
        var root = Path.GetFullPath(staging) + Path.DirectorySeparatorChar;
        var path = Path.GetFullPath(Path.Combine(root, name.Replace('/', Path.DirectorySeparatorChar)));
        if (!path.StartsWith(root, StringComparison.Ordinal))
        {
            throw new InvalidDataException($"The archive names '{name}', which leads out of the folder.");
        }

        Directory.CreateDirectory(Path.GetDirectoryName(path)!); // below the root, so it has a folder
        return new FileStream(path, FileMode.CreateNew, FileAccess.Write, FileShare.None);
    }

    private static void CheckDatabase(string path)
    {
        using var connection = new SqliteConnection($"Data Source={path};Mode=ReadOnly;Pooling=False");
        connection.Open();
        DatabaseCheck.ThrowIfDamaged(connection);
    }
}
