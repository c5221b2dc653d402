using System.Globalization;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.Data.Sqlite;

namespace ShopFloor.Shop.Storage.Backup;

/// <summary>
/// Copies a shop that may be in use into one archive: the database by SQLite's online backup, then the photos, then a manifest with
/// their hashes. Photos are never rewritten and are stored before the row that names them, so copying them second misses none.
/// Keys and logs stay behind: whoever finds an archive can neither sign in with it nor guess PINs.
/// </summary>
public sealed class ShopBackup(ShopFolder folder, TimeProvider time)
{
    public const string NamePattern = "shop-*.zip";

    /// <returns>The finished archive. Until it is finished and read back it has another name.</returns>
    /// <exception cref="InvalidDataException">The copy of the database is damaged, or the archive does not read back as written.</exception>
    public async Task<FileInfo> MakeAsync(string toFolder, CancellationToken cancellationToken)
    {
        Directory.CreateDirectory(toFolder);
        var now = time.GetUtcNow();
        var name = string.Create(CultureInfo.InvariantCulture, $"shop-{now:yyyyMMdd'T'HHmmss'Z'}-{RandomNumberGenerator.GetHexString(6, lowercase: true)}.zip");
        var target = Path.Combine(toFolder, name);
        var unfinished = target + ".part";
        var copy = Path.Combine(toFolder, name + ".db.part");
        try
        {
            CopyDatabase(copy);
            await using (var file = new FileStream(unfinished, FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None))
            {
                await WriteArchiveAsync(file, copy, now, cancellationToken);
                file.Flush(flushToDisk: true);
                file.Position = 0;
                await BackupArchive.CheckAsync(file, cancellationToken);
            }

            File.Move(unfinished, target);
            Photos.FolderFlush.ToDisk(toFolder);
            return new FileInfo(target);
        }
        finally
        {
            File.Delete(copy);
            File.Delete(unfinished);
        }
    }

    /// <summary>Deletes all but the newest archives of a folder.</summary>
    public static int Prune(string inFolder, int keep)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(keep, 1);

        // The name begins with the time, so it sorts as time does.
        var old = new DirectoryInfo(inFolder).GetFiles(NamePattern).OrderByDescending(file => file.Name, StringComparer.Ordinal).Skip(keep).ToList();
        old.ForEach(file => file.Delete());
        return old.Count;
    }

    private void CopyDatabase(string copy)
    {
        using var source = new SqliteConnection(folder.ConnectionString + ";Mode=ReadWrite;Pooling=False");
        using var target = new SqliteConnection($"Data Source={copy};Pooling=False");
        source.Open();
        target.Open();
        source.BackupDatabase(target);

        // One file with nothing beside it.
        using var settle = target.CreateCommand();
        settle.CommandText = "PRAGMA journal_mode=DELETE";
        settle.ExecuteNonQuery();
        DatabaseCheck.ThrowIfDamaged(target);
    }

    private async Task WriteArchiveAsync(Stream file, string databaseCopy, DateTimeOffset now, CancellationToken cancellationToken)
    {
        using var archive = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true);
        var files = new List<BackupFile>
        {
            await AddAsync(archive, databaseCopy, BackupManifest.DatabaseName, CompressionLevel.Fastest, cancellationToken),
        };
        foreach (var photo in Directory.EnumerateFiles(folder.Photos, "*.jpg", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
        {
            var name = BackupManifest.PhotosPrefix + Path.GetRelativePath(folder.Photos, photo).Replace(Path.DirectorySeparatorChar, '/');
            if (BackupManifest.IsOurName(name))
            {
                files.Add(await AddAsync(archive, photo, name, CompressionLevel.NoCompression, cancellationToken));
            }
        }

        var manifest = new BackupManifest(BackupManifest.CurrentFormat, now, DatabaseCheck.LastMigration(databaseCopy), files);
        await using var entry = await archive.CreateEntry(BackupManifest.FileName, CompressionLevel.Fastest).OpenAsync(cancellationToken);
        await JsonSerializer.SerializeAsync(entry, manifest, BackupManifest.Json, cancellationToken);
    }

    private static async Task<BackupFile> AddAsync(ZipArchive archive, string path, string name, CompressionLevel level, CancellationToken cancellationToken)
    {
        await using var source = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read | FileShare.Delete);
        await using var target = await archive.CreateEntry(name, level).OpenAsync(cancellationToken);
        var (bytes, hash) = await HashedCopy.RunAsync(source, target, long.MaxValue, cancellationToken);
        return new BackupFile(name, bytes, hash);
    }
}
