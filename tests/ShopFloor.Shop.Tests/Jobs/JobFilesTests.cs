using System.Security.Cryptography;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Tests.Jobs;

public sealed class JobFilesTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    private JobFiles Files => _shop.Get<JobFiles>();

    [Fact]
    public async Task A_file_is_read_back_byte_for_byte()
    {
        var jobId = await _shop.OpenJobAsync();
        var bytes = RandomNumberGenerator.GetBytes(200_000);

        var id = (await AddAsync(jobId, "../scans/box.stl", bytes)).Value;

        var opened = (await Files.OpenAsync(_shop.Technician, id, CancellationToken.None))!; // just stored
        Assert.Equal(bytes, opened.Content);
        var row = Assert.Single(await Files.ListAsync(_shop.Technician, jobId, JobFileKind.Mesh, CancellationToken.None));
        Assert.Equal(("box.stl", 200_000L, Convert.ToHexStringLower(SHA256.HashData(bytes))), (row.FileName, row.Bytes, row.Sha256));
    }

    [Fact]
    public async Task The_same_bytes_sent_again_are_kept_once()
    {
        var jobId = await _shop.OpenJobAsync();

        Assert.Equal((await AddAsync(jobId, "a.stl", [1, 2, 3])).Value, (await AddAsync(jobId, "b.stl", [1, 2, 3])).Value);
        Assert.Single(await Files.ListAsync(_shop.Technician, jobId, null, CancellationToken.None));
    }

    [Fact]
    public async Task An_empty_or_endless_upload_is_refused_in_words()
    {
        var jobId = await _shop.OpenJobAsync();

        Assert.Contains("empty", (await AddAsync(jobId, "a.stl", [])).Message, StringComparison.Ordinal);
        var endless = await Files.AddAsync(_shop.Technician, jobId, JobFileKind.Mesh, "huge.stl", new EndlessStream(), CancellationToken.None);
        Assert.Contains("64 MB", endless.Message, StringComparison.Ordinal);
        Assert.Empty(await Files.ListAsync(_shop.Technician, jobId, null, CancellationToken.None));
    }

    [Fact]
    public async Task A_file_taken_away_is_still_read_by_what_was_made_from_it_and_can_be_brought_back()
    {
        var jobId = await _shop.OpenJobAsync();
        var id = (await AddAsync(jobId, "a.stl", [1, 2, 3])).Value;

        Assert.True((await Files.RemoveAsync(_shop.Technician, id, CancellationToken.None)).Succeeded);
        Assert.Empty(await Files.ListAsync(_shop.Technician, jobId, null, CancellationToken.None));
        Assert.NotNull(await Files.OpenAsync(_shop.Technician, id, CancellationToken.None));

        Assert.True((await Files.BringBackAsync(_shop.Technician, id, CancellationToken.None)).Succeeded);
        Assert.Single(await Files.ListAsync(_shop.Technician, jobId, null, CancellationToken.None));
    }

    private Task<Shop.Common.Outcome<Guid>> AddAsync(Guid jobId, string name, byte[] bytes) =>
        Files.AddAsync(_shop.Technician, jobId, JobFileKind.Mesh, name, new MemoryStream(bytes), CancellationToken.None);

    private sealed class EndlessStream : Stream
    {
        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position
        {
            get => throw new NotSupportedException();
            set => throw new NotSupportedException();
        }

        public override void Flush()
        {
        }

        public override int Read(byte[] buffer, int offset, int count) => count;

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
