using System.Globalization;
using System.IO.Compression;
using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Jobs;

/// <summary>Files of a job: taken in, read again, taken away and brought back. They lie in the database, so that a backup has them.</summary>
public sealed class JobFiles(ShopStore store)
{
    /// <summary>Most bytes of one file: a mesh of 1.2 million triangles, or 40 s of stereo at 192 kHz and 32 bit.</summary>
    public const int MostBytes = 64 * 1024 * 1024;

    /// <summary>Most bytes of one file of a kind.</summary>
    public static int MostBytesOf(JobFileKind kind) => kind == JobFileKind.ImpedanceTable ? ImpedanceFile.MostBytes : MostBytes;

    /// <summary>Takes in one upload; the same bytes of the same kind are kept once.</summary>
    /// <returns>The file's id.</returns>
    public async Task<Outcome<Guid>> AddAsync(Actor actor, Guid jobId, JobFileKind kind, string fileName, Stream upload, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        if (await store.ReadAsync(db => db.OpenJobProblemAsync(jobId, cancellationToken), cancellationToken) is { } refused)
        {
            return refused;
        }

        var name = NameOnly(fileName);
        var most = MostBytesOf(kind);
        var read = await PackAsync(upload, most, cancellationToken);
        if (read is not { } file)
        {
            return new Problem("File", string.Create(
                CultureInfo.CurrentCulture, $"'{name}' is larger than {most / (1024 * 1024)} MB, the most {(most < MostBytes ? "a table of impedance" : "one file")} may have."));
        }

        if (file.Bytes == 0)
        {
            return new Problem("File", $"'{name}' is empty.");
        }

        return await store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                if (await db.OpenJobProblemAsync(jobId, cancellationToken) is { } closed)
                {
                    return closed;
                }

                if (await db.JobFiles.FirstOrDefaultAsync(known => known.JobId == jobId && known.Kind == kind && known.Sha256 == file.Sha256, cancellationToken) is { } same)
                {
                    return same.Id;
                }

                var added = db.JobFiles.Add(new JobFile(jobId, kind, name, file.Sha256, file.Bytes, actor.Name, store.Time.GetUtcNow())).Entity;
                db.JobFileContents.Add(new JobFileContent(added.Id, file.Compressed));
                return added.Id;
            },
            cancellationToken);
    }

    /// <summary>Files of a job, oldest first, of one kind or all.</summary>
    public Task<List<JobFileRow>> ListAsync(Actor actor, Guid jobId, JobFileKind? kind, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            db => db.JobFiles
                .Where(file => file.JobId == jobId && (kind == null || file.Kind == kind))
                .OrderBy(file => file.Id)
                .Select(file => new JobFileRow(file.Id, file.JobId, file.Kind, file.FileName, file.Bytes, file.Sha256, file.AddedBy, file.AddedAt))
                .ToListAsync(cancellationToken),
            cancellationToken);
    }

    /// <returns>The bytes as they came, or null when there is no such file.</returns>
    public Task<OpenedJobFile?> OpenAsync(Actor actor, Guid fileId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => OpenAsync(db, fileId, cancellationToken), cancellationToken);
    }

    /// <inheritdoc cref="OpenAsync(Actor, Guid, CancellationToken)"/>
    /// <remarks>Inside a reading of the caller; also a file that was taken away, for what was made from it.</remarks>
    internal static async Task<OpenedJobFile?> OpenAsync(ShopDbContext db, Guid fileId, CancellationToken cancellationToken)
    {
        var found = await db.JobFiles.IgnoreQueryFilters()
            .Where(file => file.Id == fileId)
            .Join(db.JobFileContents, file => file.Id, content => content.Id, (file, content) => new { file.JobId, file.FileName, file.Kind, file.Bytes, file.Sha256, content.Compressed })
            .FirstOrDefaultAsync(cancellationToken);
        return found is null ? null : new OpenedJobFile(found.JobId, found.Kind, found.FileName, found.Sha256, Unpack(found.Compressed, (int)found.Bytes));
    }

    /// <summary>Takes a file away; its bytes stay, and it can be brought back.</summary>
    public Task<Outcome<Done>> RemoveAsync(Actor actor, Guid fileId, CancellationToken cancellationToken) =>
        ChangeAsync(actor, fileId, file => file.Remove(store.Time.GetUtcNow()), cancellationToken);

    public Task<Outcome<Done>> BringBackAsync(Actor actor, Guid fileId, CancellationToken cancellationToken) =>
        ChangeAsync(actor, fileId, file => file.BringBack(), cancellationToken);

    private Task<Outcome<Done>> ChangeAsync(Actor actor, Guid fileId, Action<JobFile> change, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        return store.WriteAsync<Done>(
            actor,
            async db =>
            {
                if (await db.JobFiles.IgnoreQueryFilters().FirstOrDefaultAsync(found => found.Id == fileId, cancellationToken) is not { } file)
                {
                    return new Problem("", "That file is not on file.");
                }

                if (await db.OpenJobProblemAsync(file.JobId, cancellationToken) is { } closed)
                {
                    return closed;
                }

                change(file);
                return Done.Value;
            },
            cancellationToken);
    }

    // Read piece by piece, so that an upload that never ends costs no more than one that is allowed.
    private static async Task<PackedFile?> PackAsync(Stream upload, int most, CancellationToken cancellationToken)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        using var packed = new MemoryStream();
        long bytes = 0;
        await using (var press = new GZipStream(packed, CompressionLevel.Fastest, leaveOpen: true))
        {
            var piece = new byte[81_920];
            int read;
            while ((read = await upload.ReadAsync(piece, cancellationToken)) > 0)
            {
                bytes += read;
                if (bytes > most)
                {
                    return null;
                }

                hash.AppendData(piece, 0, read);
                await press.WriteAsync(piece.AsMemory(0, read), cancellationToken);
            }
        }

        return new PackedFile(packed.ToArray(), bytes, Convert.ToHexStringLower(hash.GetHashAndReset()));
    }

    private static byte[] Unpack(byte[] compressed, int bytes)
    {
        var whole = new byte[bytes];
        using var press = new GZipStream(new MemoryStream(compressed), CompressionMode.Decompress);
        press.ReadExactly(whole);
        return whole;
    }

    private static string NameOnly(string fileName)
    {
        var last = fileName.Split('/', '\\')[^1].Trim();
        var clean = string.Concat(last.Where(character => !char.IsControl(character)));
        return clean.Length switch
        {
            0 => "file",
            > Limits.Name => clean[^Limits.Name..],
            _ => clean,
        };
    }

    private sealed record PackedFile(byte[] Compressed, long Bytes, string Sha256);
}

public sealed record JobFileRow(Guid Id, Guid JobId, JobFileKind Kind, string FileName, long Bytes, string Sha256, string AddedBy, DateTimeOffset AddedAt);

/// <param name="Content">The bytes as they came.</param>
public sealed record OpenedJobFile(Guid JobId, JobFileKind Kind, string FileName, string Sha256, byte[] Content);
