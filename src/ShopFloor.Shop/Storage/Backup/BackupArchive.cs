using System.IO.Compression;
using System.Text.Json;

namespace ShopFloor.Shop.Storage.Backup;

/// <summary>Reads an archive without trusting it.</summary>
public static class BackupArchive
{
    /// <summary>Checks every file against the manifest without unpacking to disk.</summary>
    /// <exception cref="InvalidDataException">The archive is not one of ours, is damaged, or was changed.</exception>
    public static Task<BackupManifest> CheckAsync(Stream archive, CancellationToken cancellationToken) =>
        ReadAsync(archive, (_, _) => Stream.Null, cancellationToken);

    /// <summary>Hands every file to <paramref name="open"/> and compares what went through with the manifest.</summary>
    internal static async Task<BackupManifest> ReadAsync(Stream stream, Func<BackupFile, int, Stream> open, CancellationToken cancellationToken)
    {
        ZipArchive archive;
        try
        {
            archive = new ZipArchive(stream, ZipArchiveMode.Read, leaveOpen: true);
        }
        catch (InvalidDataException)
        {
            throw new InvalidDataException("The file is not an archive, or its end is missing.");
        }

        using (archive)
        {
            var manifest = await ManifestAsync(archive, cancellationToken);
            var number = 0;
            foreach (var file in manifest.Files)
            {
                var entry = archive.GetEntry(file.Name) ?? throw new InvalidDataException($"'{file.Name}' is in the manifest but not in the archive.");
                await using var source = await entry.OpenAsync(cancellationToken);
                await using var target = open(file, number++);
                var (bytes, hash) = await HashedCopy.RunAsync(source, target, file.Bytes, cancellationToken);
                if (bytes != file.Bytes || hash != file.Sha256)
                {
                    throw new InvalidDataException($"'{file.Name}' is not the file that was backed up: its hash or length differs.");
                }
            }

            return manifest;
        }
    }

    private static async Task<BackupManifest> ManifestAsync(ZipArchive archive, CancellationToken cancellationToken)
    {
        var entry = archive.GetEntry(BackupManifest.FileName) ?? throw new InvalidDataException("The archive has no manifest; it is not a backup of a shop.");
        if (entry.Length > BackupManifest.LargestBytes)
        {
            throw new InvalidDataException($"The manifest has {entry.Length} bytes; at most {BackupManifest.LargestBytes} are read.");
        }

        BackupManifest manifest;
        try
        {
            await using var stream = await entry.OpenAsync(cancellationToken);
            manifest = await JsonSerializer.DeserializeAsync<BackupManifest>(stream, BackupManifest.Json, cancellationToken)
                ?? throw new JsonException("empty");
        }
        catch (JsonException)
        {
            throw new InvalidDataException("The manifest of the archive cannot be read.");
        }

        if (manifest.Format != BackupManifest.CurrentFormat)
        {
            throw new InvalidDataException($"The archive has layout {manifest.Format}; this program reads {BackupManifest.CurrentFormat}.");
        }

        if (manifest.Files?.FirstOrDefault(file => file is null || !BackupManifest.IsOurName(file.Name ?? "")) is { } odd)
        {
            throw new InvalidDataException($"The archive names '{odd.Name}', which no backup of a shop contains.");
        }

        var names = manifest.Files?.Select(file => file.Name).Append(BackupManifest.FileName).ToList() ?? [];
        if (names.Distinct(StringComparer.Ordinal).Count() != names.Count || !names.Contains(BackupManifest.DatabaseName))
        {
            throw new InvalidDataException("The manifest names a file twice, or names no database.");
        }

        var inside = archive.Entries.Select(found => found.FullName).ToList();
        if (inside.Count != names.Count || inside.Except(names, StringComparer.Ordinal).FirstOrDefault() is not null)
        {
            throw new InvalidDataException(
                $"The archive holds files its manifest does not name: {string.Join(", ", inside.Except(names, StringComparer.Ordinal).Take(3))}.");
        }

        return manifest;
    }
}
