using System.Security.Cryptography;
using Microsoft.Extensions.Time.Testing;
using ShopFloor.Shop.Storage.Photos;
using SkiaSharp;

namespace ShopFloor.Shop.Tests.Storage.Photos;

[Collection("Photo decoding")]
public sealed class PhotoStoreTests : IDisposable
{
    private static readonly DateTimeOffset Start = new(2030, 3, 4, 7, 0, 0, TimeSpan.Zero);
    private readonly string _root = Directory.CreateTempSubdirectory("shopfloor-photos").FullName;
    private readonly FakeTimeProvider _time = new(Start);
    private readonly PhotoStore _store;

    public PhotoStoreTests() => _store = new PhotoStore(_root, _time);

    public void Dispose() => Directory.Delete(_root, recursive: true);

    [Fact]
    public async Task Saved_photo_lies_under_its_hash_and_reads_back()
    {
        using var upload = new MemoryStream(SamplePhotos.Quarters(SKEncodedImageFormat.Png));
        var accepted = Assert.IsType<PhotoIntakeResult.Accepted>(await PhotoIntake.ReadAsync(upload, PhotoLimits.Standard, default)).Photo;

        await _store.SaveAsync(accepted, default);

        var hash = accepted.Sha256;
        Assert.Equal(
            [$"{hash[..2]}/{hash[2..4]}/{hash}.jpg", $"{hash[..2]}/{hash[2..4]}/{hash}.thumb.jpg"],
            FilesBelowRoot());
        Assert.Equal(accepted.Jpeg.ToArray(), await ReadAsync(_store.OpenPicture(hash)));
        Assert.Equal(accepted.Thumbnail.ToArray(), await ReadAsync(_store.OpenThumbnail(hash)));
        Assert.True(await _store.IsIntactAsync(hash, default));
        Assert.Equal(new PhotoStoreSize(1, accepted.Jpeg.Length + accepted.Thumbnail.Length), _store.Measure());
    }

    [Fact]
    public async Task Existing_photo_is_never_written_again()
    {
        var photo = Photo(1);
        await _store.SaveAsync(photo, default);
        var path = Directory.EnumerateFiles(_root, photo.Sha256 + ".jpg", SearchOption.AllDirectories).Single();
        await File.WriteAllBytesAsync(path, [9, 9, 9]);

        await _store.SaveAsync(photo, default);

        Assert.Equal([9, 9, 9], await File.ReadAllBytesAsync(path));
        Assert.False(await _store.IsIntactAsync(photo.Sha256, default));
    }

    [Fact]
    public async Task Many_savers_of_one_photo_leave_two_whole_files_and_no_leftovers()
    {
        var photo = Photo(2, 200_000);
        await Task.WhenAll(Enumerable.Range(0, 16).Select(_ => Task.Run(() => _store.SaveAsync(photo, default))));

        Assert.Equal(2, FilesBelowRoot().Length);
        Assert.True(await _store.IsIntactAsync(photo.Sha256, default));
    }

    [Fact]
    public async Task Cancelled_save_leaves_nothing_behind()
    {
        using var cancel = new CancellationTokenSource();
        await cancel.CancelAsync();

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => _store.SaveAsync(Photo(3), cancel.Token));

        Assert.Empty(FilesBelowRoot());
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("../../../../etc/passwd")]
    [InlineData("..%2F..%2Fetc")]
    [InlineData("aabb/../aabb")]
    [InlineData("0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcde")]
    [InlineData("0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef0")]
    [InlineData("0123456789ABCDEF0123456789abcdef0123456789abcdef0123456789abcdef")]
    [InlineData("../3456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef")]
    [InlineData("0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcde\0")]
    [InlineData("٠123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef")]
    public void Name_that_is_not_a_hash_opens_nothing(string? name)
    {
        Assert.Null(_store.OpenPicture(name));
        Assert.Null(_store.OpenThumbnail(name));
    }

    [Fact]
    public async Task Photo_with_a_forged_name_is_not_written_outside_the_root()
    {
        var forged = Photo(4) with { Sha256 = "../../../outside" };
        await Assert.ThrowsAsync<ArgumentException>(() => _store.SaveAsync(forged, default));
        Assert.Empty(FilesBelowRoot());
    }

    [Fact]
    public void Unknown_photo_opens_as_nothing() => Assert.Null(_store.OpenPicture(Photo(5).Sha256));

    [Fact]
    public async Task Sweep_deletes_old_orphans_and_leftovers_and_nothing_else()
    {
        var (known, orphan, recent) = (Photo(6), Photo(7), Photo(8));
        await _store.SaveAsync(known, default);
        await _store.SaveAsync(orphan, default);
        var folder = Path.GetDirectoryName(Directory.EnumerateFiles(_root, known.Sha256 + ".jpg", SearchOption.AllDirectories).Single())!; // a file has a folder
        var leftover = Path.Combine(folder, known.Sha256 + ".jpg.0190.part");
        await File.WriteAllBytesAsync(leftover, [1, 2, 3]);
        File.SetLastWriteTimeUtc(leftover, Start.UtcDateTime);
        var foreign = Path.Combine(_root, "README.txt");
        await File.WriteAllTextAsync(foreign, "not ours");
        File.SetLastWriteTimeUtc(foreign, Start.UtcDateTime);
        _time.Advance(TimeSpan.FromHours(2));
        await _store.SaveAsync(recent, default);

        var sweep = _store.DeleteOrphans(new HashSet<string> { known.Sha256 }, Start.AddHours(1), default);

        Assert.Equal(new PhotoSweep(3, orphan.Jpeg.Length + orphan.Thumbnail.Length + 3), sweep);
        Assert.NotNull(await ReadAsync(_store.OpenPicture(known.Sha256)));
        Assert.NotNull(await ReadAsync(_store.OpenThumbnail(known.Sha256)));
        Assert.NotNull(await ReadAsync(_store.OpenPicture(recent.Sha256)));
        Assert.Null(_store.OpenPicture(orphan.Sha256));
        Assert.True(File.Exists(foreign));
        Assert.False(File.Exists(leftover));
    }

    // The same photo comes in again while its old file, no longer referred to, is about to be swept.
    [Fact]
    public async Task Orphan_that_is_saved_again_counts_as_new()
    {
        var photo = Photo(9);
        await _store.SaveAsync(photo, default);
        _time.Advance(TimeSpan.FromDays(30));
        await _store.SaveAsync(photo, default);

        var sweep = _store.DeleteOrphans(new HashSet<string>(), _time.GetUtcNow().AddHours(-1), default);

        Assert.Equal(0, sweep.DeletedFiles);
        Assert.True(await _store.IsIntactAsync(photo.Sha256, default));
    }

    [Fact]
    public async Task Photo_being_read_may_be_swept_without_harm_to_the_reader()
    {
        var photo = Photo(10);
        await _store.SaveAsync(photo, default);
        await using var open = _store.OpenPicture(photo.Sha256);

        _store.DeleteOrphans(new HashSet<string>(), Start.AddHours(1), default);

        Assert.Equal(photo.Jpeg.ToArray(), await ReadAsync(open));
    }

    private static AcceptedPhoto Photo(int seed, int length = 5000)
    {
        var bytes = new byte[length];
        new Random(seed).NextBytes(bytes);
        return new AcceptedPhoto(bytes, bytes.AsMemory(0, 100), 40, 30, Convert.ToHexStringLower(SHA256.HashData(bytes)));
    }

    private static async Task<byte[]?> ReadAsync(Stream? stream)
    {
        if (stream is null)
        {
            return null;
        }

        await using (stream)
        {
            using var copy = new MemoryStream();
            await stream.CopyToAsync(copy);
            return copy.ToArray();
        }
    }

    private string[] FilesBelowRoot() =>
        [.. Directory.EnumerateFiles(_root, "*", SearchOption.AllDirectories).Select(path => Path.GetRelativePath(_root, path).Replace('\\', '/')).Order(StringComparer.Ordinal)];
}
