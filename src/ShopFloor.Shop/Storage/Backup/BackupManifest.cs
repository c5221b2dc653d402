using System.Text.Json;

namespace ShopFloor.Shop.Storage.Backup;

/// <summary>What an archive holds, with the hash of every file; the first thing read at a restore.</summary>
/// <param name="Format">Version of the archive's layout.</param>
/// <param name="MadeAt">When the copy was made.</param>
/// <param name="LastMigration">Last migration of the database inside.</param>
/// <param name="Files">Every file of the archive but this one.</param>
public sealed record BackupManifest(int Format, DateTimeOffset MadeAt, string LastMigration, IReadOnlyList<BackupFile> Files)
{
    public const int CurrentFormat = 1;
    public const string FileName = "manifest.json";
    public const string DatabaseName = "shop.db";
    public const string PhotosPrefix = "photos/";

    /// <summary>A manifest of a hundred thousand photos has about 17 MB; beyond this it is not one of ours.</summary>
    public const long LargestBytes = 64 * 1024 * 1024;

    internal static JsonSerializerOptions Json { get; } = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    /// <summary>Whether a name is one a backup writes: the database, or a photo two folders deep. Anything else could lead out of the folder.</summary>
    public static bool IsOurName(string name) => name == DatabaseName || IsPhotoName(name);

    private static bool IsPhotoName(string name)
    {
        if (!name.StartsWith(PhotosPrefix, StringComparison.Ordinal))
        {
            return false;
        }

        var parts = name[PhotosPrefix.Length..].Split('/');
        return parts is [{ Length: 2 } first, { Length: 2 } second, var file]
            && first.All(char.IsAsciiHexDigitLower)
            && second.All(char.IsAsciiHexDigitLower)
            && file.StartsWith(first + second, StringComparison.Ordinal)
            && file.All(letter => char.IsAsciiLetterOrDigit(letter) || letter == '.')
            && !file.Contains("..", StringComparison.Ordinal);
    }
}

/// <param name="Name">Path inside the archive, with forward slashes.</param>
/// <param name="Bytes">Length.</param>
/// <param name="Sha256">Hash of the content, lower-case hexadecimal.</param>
public sealed record BackupFile(string Name, long Bytes, string Sha256);
