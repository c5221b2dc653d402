namespace ShopFloor.Shop.Storage.Photos;

/// <summary>
/// Photos as files named by the SHA-256 of their bytes: <c>aa/bb/aabb….jpg</c> and <c>….thumb.jpg</c> under one folder. A file is
/// written beside its place, forced to disk and then renamed, and is never written again, so a name that exists is whole.
/// </summary>
public sealed class PhotoStore
{
    private const string PictureEnding = ".jpg";
    private const string ThumbnailEnding = ".thumb.jpg";
    private const string UnfinishedEnding = ".part";
    private const int HashLength = 64;

    private readonly string _root;
    private readonly TimeProvider _time;

    // Keeps a photo that is being saved again from being swept between the look and the deletion.
    private readonly Lock _sweeping = new();

    public PhotoStore(string rootFolder, TimeProvider time)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(rootFolder);
        _root = Path.GetFullPath(rootFolder);
        _time = time;
        Directory.CreateDirectory(_root);
    }

    /// <summary>
    /// Stores picture and thumbnail; a photo already there is left as it is. When this returns the files survive a power cut, so
    /// the row that names them may be committed.
    /// </summary>
    public async Task SaveAsync(AcceptedPhoto photo, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(photo);
        var folder = FolderOf(photo.Sha256) ?? throw new ArgumentException("The photo's name is not a SHA-256.", nameof(photo));
        if (!Directory.Exists(folder))
        {
            Directory.CreateDirectory(folder);
            FolderFlush.ToDisk(Path.GetDirectoryName(folder)!); // never null below the root
            FolderFlush.ToDisk(_root);
        }

        // The picture last: where it exists, its thumbnail does.
        await SaveFileAsync(folder, photo.Sha256 + ThumbnailEnding, photo.Thumbnail, cancellationToken);
        await SaveFileAsync(folder, photo.Sha256 + PictureEnding, photo.Jpeg, cancellationToken);
        FolderFlush.ToDisk(folder);
    }

    /// <summary>The stored JPEG, or null when the hash is not 64 hexadecimal characters or nothing is stored under it.</summary>
    public Stream? OpenPicture(string? sha256) => Open(sha256, PictureEnding);

    /// <summary>The thumbnail JPEG, or null as for <see cref="OpenPicture"/>.</summary>
    public Stream? OpenThumbnail(string? sha256) => Open(sha256, ThumbnailEnding);

    /// <summary>Reads the picture back and compares it with its name: for backup and restore checks.</summary>
    public async Task<bool> IsIntactAsync(string sha256, CancellationToken cancellationToken)
    {
        await using var picture = OpenPicture(sha256);
        return picture is not null
            && Convert.ToHexStringLower(await System.Security.Cryptography.SHA256.HashDataAsync(picture, cancellationToken)) == sha256;
    }

    /// <summary>
    /// Deletes photos nobody refers to and leftovers of broken writes. Files saved at or after <paramref name="savedBefore"/> stay: their
    /// row may not be committed yet, so pass an instant an hour or more ago.
    /// </summary>
    public PhotoSweep DeleteOrphans(IReadOnlySet<string> knownHashes, DateTimeOffset savedBefore, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(knownHashes);
        var (files, bytes) = (0, 0L);
        foreach (var file in new DirectoryInfo(_root).EnumerateFiles("*", SearchOption.AllDirectories).Where(IsOurs))
        {
            cancellationToken.ThrowIfCancellationRequested();
            if (knownHashes.Contains(file.Name[..HashLength]) && !file.Name.EndsWith(UnfinishedEnding, StringComparison.Ordinal))
            {
                continue;
            }

            lock (_sweeping)
            {
                file.Refresh();
                if (file.Exists && file.LastWriteTimeUtc < savedBefore.UtcDateTime)
                {
                    (files, bytes) = (files + 1, bytes + file.Length);
                    file.Delete();
                }
            }
        }

        return new PhotoSweep(files, bytes);
    }

    /// <summary>How many photos are stored and how much room they and their thumbnails take.</summary>
    public PhotoStoreSize Measure()
    {
        var (photos, bytes) = (0, 0L);
        foreach (var file in new DirectoryInfo(_root).EnumerateFiles("*", SearchOption.AllDirectories).Where(IsOurs))
        {
            bytes += file.Length;
            photos += file.Name.Length == HashLength + PictureEnding.Length && file.Name.EndsWith(PictureEnding, StringComparison.Ordinal) ? 1 : 0;
        }

        return new PhotoStoreSize(photos, bytes);
    }

    private static bool IsHash(string? text) => text is { Length: HashLength } && text.All(char.IsAsciiHexDigitLower);

    private static bool IsOurs(FileInfo file) =>
        file.Name.Length > HashLength
        && IsHash(file.Name[..HashLength])
        && (file.Name[HashLength..] is PictureEnding or ThumbnailEnding || file.Name.EndsWith(UnfinishedEnding, StringComparison.Ordinal));

    private string? FolderOf(string? sha256) => IsHash(sha256) ? Path.Combine(_root, sha256![..2], sha256[2..4]) : null; // a hash is not null

    private FileStream? Open(string? sha256, string ending)
    {
        var path = FolderOf(sha256) is { } folder ? Path.Combine(folder, sha256 + ending) : null;
        return path is not null && File.Exists(path)
            ? new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read | FileShare.Delete, 81920, useAsync: true)
            : null;
    }

    private async Task SaveFileAsync(string folder, string name, ReadOnlyMemory<byte> content, CancellationToken cancellationToken)
    {
        var path = Path.Combine(folder, name);
        if (KeepIfThere(path))
        {
            return;
        }

        var unfinished = Path.Combine(folder, $"{name}.{Guid.CreateVersion7():N}{UnfinishedEnding}");
        try
        {
            await using (var file = new FileStream(unfinished, FileMode.CreateNew, FileAccess.Write, FileShare.None, 0, useAsync: true))
            {
                await file.WriteAsync(content, cancellationToken);
                file.Flush(flushToDisk: true);
            }

            File.SetLastWriteTimeUtc(unfinished, _time.GetUtcNow().UtcDateTime);
            lock (_sweeping)
            {
                if (!KeepIfThere(path))
                {
                    File.Move(unfinished, path, overwrite: false);
                }
            }
        }
        finally
        {
            File.Delete(unfinished);
        }
    }

    private bool KeepIfThere(string path)
    {
        lock (_sweeping)
        {
            if (!File.Exists(path))
            {
                return false;
            }

            File.SetLastWriteTimeUtc(path, _time.GetUtcNow().UtcDateTime);
            return true;
        }
    }
}

/// <summary>What a sweep removed.</summary>
public sealed record PhotoSweep(int DeletedFiles, long FreedBytes);

/// <summary>What the store holds.</summary>
public sealed record PhotoStoreSize(int Photos, long Bytes);
