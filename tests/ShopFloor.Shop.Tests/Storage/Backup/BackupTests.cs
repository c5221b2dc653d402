using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Backup;

namespace ShopFloor.Shop.Tests.Storage.Backup;

public sealed class BackupTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();
    private readonly string _outside = Path.Combine(Path.GetTempPath(), "shopfloor-tests", Guid.CreateVersion7().ToString("N"));
    private string _photoHash = "";

    private ShopFolder Restored => new(Path.Combine(_outside, "restored"));

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        Directory.CreateDirectory(_outside);
        var jobId = await _shop.OpenJobAsync();
        var people = _shop.Get<People>();
        var added = await people.AddAsync(_shop.Owner, new PersonForm { DisplayName = "Tech", UserName = "tech" }, "violet-gravel-lantern", CancellationToken.None);
        await people.SetPinAsync(_shop.Owner, added.Value, "704182", CancellationToken.None);
        _photoHash = SavePhotoFile("a picture");
        await _shop.Store.WriteAsync<Done>(
            _shop.Owner,
            db =>
            {
                db.Photos.Add(new Photo(jobId, _photoHash, 10, 10, PhotoSubject.Job, null, "Tom Tech", _shop.Time.GetUtcNow()));
                return Task.FromResult<Outcome<Done>>(Done.Value);
            },
            CancellationToken.None);
    }

    public async Task DisposeAsync()
    {
        await _shop.DisposeAsync();
        SqliteConnection.ClearAllPools();
        Directory.Delete(_outside, recursive: true);
    }

    [Fact]
    public async Task A_restored_shop_has_the_same_rows_the_same_photos_and_a_whole_audit_trail()
    {
        var archive = await BackUpAsync();

        await ShopRestore.RunAsync(archive, Restored, CancellationToken.None);

        Assert.Equal(await DumpAsync(_shop.Folder), await DumpAsync(Restored));
        Assert.Equal(PhotoHashes(_shop.Folder), PhotoHashes(Restored));
        Assert.Contains(_photoHash, PhotoHashes(Restored).Keys.Single(), StringComparison.Ordinal);
        var report = await VerifyAsync(Restored);
        Assert.Empty(report.Problems);
        Assert.Equal(1, report.Photos);
        Assert.True(report.AuditLines > 20, $"{report.AuditLines} lines were followed.");
    }

    [Fact]
    public async Task A_backup_taken_while_the_shop_is_written_to_is_whole()
    {
        using var stop = new CancellationTokenSource();
        var writing = Task.Run(async () =>
        {
            var jobs = 0;
            while (!stop.IsCancellationRequested)
            {
                await _shop.OpenJobAsync();
                jobs++;
            }

            return jobs;
        });

        var archive = await BackUpAsync();
        await stop.CancelAsync();

        Assert.True(await writing > 0);
        await ShopRestore.RunAsync(archive, Restored, CancellationToken.None);
        Assert.Empty((await VerifyAsync(Restored)).Problems);
    }

    [Fact]
    public async Task Neither_keys_nor_the_pepper_of_the_PINs_are_in_the_archive()
    {
        Assert.True(File.Exists(_shop.Folder.PinPepper));

        using var archive = ZipFile.OpenRead(await BackUpAsync());

        Assert.DoesNotContain(archive.Entries, entry => entry.FullName.Contains("key", StringComparison.OrdinalIgnoreCase) || entry.FullName.Contains("pepper", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_shop_is_never_overwritten()
    {
        var archive = await BackUpAsync();
        var before = await DumpAsync(_shop.Folder);

        var refusal = await Assert.ThrowsAsync<InvalidOperationException>(() => ShopRestore.RunAsync(archive, _shop.Folder, CancellationToken.None));

        Assert.Contains("not empty", refusal.Message, StringComparison.Ordinal);
        Assert.Equal(before, await DumpAsync(_shop.Folder));
    }

    [Fact]
    public async Task A_changed_photo_is_refused_and_leaves_nothing_behind()
    {
        var archive = await BackUpAsync();
        Rewrite(archive, entries => entries[PhotoName] = Encoding.UTF8.GetBytes("A picture"));

        await AssertRefusedAsync(archive, "hash or length differs");
    }

    [Fact]
    public async Task A_name_that_leads_out_of_the_folder_is_refused_even_with_a_matching_manifest()
    {
        foreach (var name in new[] { "../escaped.db", "photos/../../escaped.jpg", "/tmp/escaped.jpg", "photos/aa/bb/..\\escaped.jpg", "keys/pin-pepper" })
        {
            var archive = await BackUpAsync();
            var content = Encoding.UTF8.GetBytes("evil");
            Rewrite(archive, entries =>
            {
                entries[name] = content;
                EditManifest(entries, files => files.Add(new JsonObject
                {
                    ["name"] = name,
                    ["bytes"] = content.Length,
                    ["sha256"] = Convert.ToHexStringLower(SHA256.HashData(content)),
                }));
            });

            await AssertRefusedAsync(archive, "no backup of a shop contains");
        }

        Assert.False(File.Exists(Path.Combine(_outside, "escaped.db")));
        Assert.False(File.Exists(Path.Combine(_outside, "escaped.jpg")));
    }

    [Fact]
    public async Task A_file_the_manifest_does_not_name_and_one_that_is_missing_are_refused()
    {
        var extra = await BackUpAsync();
        Rewrite(extra, entries => entries["photos/aa/bb/aabb.jpg"] = [1]);
        await AssertRefusedAsync(extra, "does not name");

        var missing = await BackUpAsync();
        Rewrite(missing, entries => entries.Remove(PhotoName));
        await AssertRefusedAsync(missing, "");
    }

    [Fact]
    public async Task A_cut_off_archive_and_another_kind_of_file_are_refused()
    {
        var archive = await BackUpAsync();
        await using (var file = new FileStream(archive, FileMode.Open))
        {
            file.SetLength(file.Length - 100);
        }

        await AssertRefusedAsync(archive, "not an archive");
        await File.WriteAllTextAsync(archive, "hello");
        await AssertRefusedAsync(archive, "not an archive");
    }

    [Fact]
    public async Task Verification_finds_a_changed_photo_and_an_edited_trail()
    {
        await File.WriteAllTextAsync(PhotoPath(_photoHash), "another picture");
        await using (var connection = new SqliteConnection(_shop.Folder.ConnectionString))
        {
            await connection.OpenAsync();
            await using var command = connection.CreateCommand();
            command.CommandText = "DROP TRIGGER AuditEntries_no_update; UPDATE AuditEntries SET ActorName = 'nobody' WHERE Sequence = 3";
            await command.ExecuteNonQueryAsync();
        }

        var report = await VerifyAsync(_shop.Folder);

        Assert.Contains(report.Problems, problem => problem.Contains(_photoHash, StringComparison.Ordinal));
        Assert.Contains(report.Problems, problem => problem.StartsWith("Audit trail: line 3", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Pruning_keeps_the_newest_archives()
    {
        var names = new List<string>();
        for (var day = 0; day < 4; day++)
        {
            names.Add(Path.GetFileName(await BackUpAsync()));
            _shop.Time.Advance(TimeSpan.FromDays(1));
        }

        var deleted = ShopBackup.Prune(_outside, 2);

        Assert.Equal(2, deleted);
        Assert.Equal(names[2..], Directory.GetFiles(_outside, ShopBackup.NamePattern).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    private string PhotoName => $"photos/{_photoHash[..2]}/{_photoHash[2..4]}/{_photoHash}.jpg";

    private async Task<string> BackUpAsync() => (await _shop.Get<ShopBackup>().MakeAsync(_outside, CancellationToken.None)).FullName;

    private async Task AssertRefusedAsync(string archive, string because)
    {
        var refusal = await Assert.ThrowsAsync<InvalidDataException>(() => ShopRestore.RunAsync(archive, Restored, CancellationToken.None));

        Assert.Contains(because, refusal.Message, StringComparison.Ordinal);
        Assert.False(File.Exists(Restored.Database));
        Assert.False(Directory.Exists(Path.Combine(Restored.Root, ".restoring")));
    }

    private string PhotoPath(string hash) => Path.Combine(_shop.Folder.Photos, hash[..2], hash[2..4], hash + ".jpg");

    private string SavePhotoFile(string content)
    {
        var hash = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(content)));
        Directory.CreateDirectory(Path.GetDirectoryName(PhotoPath(hash))!); // below the photo folder
        File.WriteAllText(PhotoPath(hash), content);
        return hash;
    }

    private static SortedDictionary<string, string> PhotoHashes(ShopFolder folder) => new(
        Directory.GetFiles(folder.Photos, "*", SearchOption.AllDirectories)
            .ToDictionary(path => Path.GetRelativePath(folder.Photos, path), path => Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(path)))),
        StringComparer.Ordinal);

    private static async Task<VerificationReport> VerifyAsync(ShopFolder folder)
    {
        var services = new ServiceCollection();
        services.AddShop(folder);
        await using var provider = services.BuildServiceProvider();
        return await provider.GetRequiredService<ShopVerification>().RunAsync(CancellationToken.None);
    }

    /// <summary>Every row of every table as text.</summary>
    private static async Task<string> DumpAsync(ShopFolder folder)
    {
        await using var connection = new SqliteConnection(folder.ConnectionString + ";Pooling=False");
        await connection.OpenAsync();
        var tables = await ColumnAsync(connection, "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name");
        var text = new StringBuilder();
        foreach (var table in tables)
        {
            await using var command = connection.CreateCommand();
#pragma warning disable CA2100 // table names of the database itself
            command.CommandText = $"SELECT * FROM \"{table}\" ORDER BY 1";
#pragma warning restore CA2100
            await using var reader = await command.ExecuteReaderAsync();
            while (await reader.ReadAsync())
            {
                var values = new object[reader.FieldCount];
                reader.GetValues(values);
                text.Append(table).Append('|').AppendJoin('|', values).Append('\n');
            }
        }

        return text.ToString();
    }

    private static async Task<List<string>> ColumnAsync(SqliteConnection connection, string query)
    {
        await using var command = connection.CreateCommand();
#pragma warning disable CA2100 // fixed text of this file
        command.CommandText = query;
#pragma warning restore CA2100
        await using var reader = await command.ExecuteReaderAsync();
        var values = new List<string>();
        while (await reader.ReadAsync())
        {
            values.Add(reader.GetString(0));
        }

        return values;
    }

    private static void Rewrite(string path, Action<SortedDictionary<string, byte[]>> change)
    {
        var entries = new SortedDictionary<string, byte[]>(StringComparer.Ordinal);
        using (var archive = ZipFile.OpenRead(path))
        {
            foreach (var entry in archive.Entries)
            {
                using var stream = entry.Open();
                using var content = new MemoryStream();
                stream.CopyTo(content);
                entries[entry.FullName] = content.ToArray();
            }
        }

        change(entries);
        File.Delete(path);
        using var rewritten = ZipFile.Open(path, ZipArchiveMode.Create);
        foreach (var (name, content) in entries)
        {
            using var stream = rewritten.CreateEntry(name).Open();
            stream.Write(content);
        }
    }

    private static void EditManifest(SortedDictionary<string, byte[]> entries, Action<JsonArray> change)
    {
        var manifest = JsonNode.Parse(entries[BackupManifest.FileName])!.AsObject(); // written by the backup just before
        change(manifest["files"]!.AsArray()); // the same
        entries[BackupManifest.FileName] = JsonSerializer.SerializeToUtf8Bytes(manifest);
    }
}
