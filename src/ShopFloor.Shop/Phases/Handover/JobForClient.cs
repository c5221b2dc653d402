using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Handover;

/// <summary>What a client sees behind their link. Its records have no field for a cost, so none can slip through.</summary>
public sealed class JobForClient(ShopStore store)
{
    public async Task<SharedJob> JobAsync(ClientAccess access, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(access);
        return await store.ReadAsync(
            async db =>
            {
                var job = await db.WholeJobAsync(access.JobId, cancellationToken);
                var stages = await db.JobStages.Include(stage => stage.Steps).Where(stage => stage.JobId == job.Id).OrderBy(stage => stage.Order).ToListAsync(cancellationToken);
                var current = stages.FindIndex(stage => !stage.IsDone);
                return new SharedJob(
                    Letterhead.From(await db.SettingsAsync(cancellationToken)),
                    job.Reference,
                    job.Title,
                    job.Client!.Name, // included above; the foreign key is required
                    job.Vehicle!.Title, // included above; the foreign key is required
                    job.State,
                    job.PromisedOn,
                    job.DeliveredAt,
                    [.. stages.Select((stage, index) => new SharedStage(
                        stage.Name,
                        stage.IsDone ? SharedStageState.Done : index != current ? SharedStageState.Later : stage.Steps.Any(step => step.IsTicked) ? SharedStageState.Underway : SharedStageState.Next))],
                    await db.Estimates
                        .Where(version => version.JobId == job.Id && version.State != EstimateState.Replaced)
                        .OrderByDescending(version => version.Number)
                        .Select(version => (EstimateState?)version.State)
                        .FirstOrDefaultAsync(cancellationToken),
                    await Photos(db, job.Id).CountAsync(cancellationToken),
                    await db.HandoverReleases.AnyAsync(release => release.JobId == job.Id, cancellationToken));
            },
            cancellationToken);
    }

    public async Task<IReadOnlyList<SharedPhoto>> PhotosAsync(ClientAccess access, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(access);
        return await store.ReadAsync(
            db => Photos(db, access.JobId).OrderBy(photo => photo.TakenAt).ThenBy(photo => photo.Id)
                .Select(photo => new SharedPhoto(photo.Id, photo.Caption, photo.TakenAt, photo.Width, photo.Height)).ToListAsync(cancellationToken),
            cancellationToken);
    }

    /// <summary>Name in the photo store of a photo the client may see: one shown to them now, or one in the handover they were given.</summary>
    public async Task<string?> PhotoHashAsync(ClientAccess access, Guid photoId, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(access);
        return await store.ReadAsync(
            async db => await Photos(db, access.JobId).Where(photo => photo.Id == photoId).Select(photo => photo.Hash).SingleOrDefaultAsync(cancellationToken)
                ?? (await Handovers.ReleasedAsync(db, access.JobId, number: null, cancellationToken))?.Facts.Photos.FirstOrDefault(photo => photo.Id == photoId)?.Hash,
            cancellationToken);
    }

    /// <returns>The newest handover that was released; null before that.</returns>
    public async Task<ReleasedHandover?> HandoverAsync(ClientAccess access, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(access);
        return await store.ReadAsync(db => Handovers.ReleasedAsync(db, access.JobId, number: null, cancellationToken), cancellationToken);
    }

    private static IQueryable<Photo> Photos(ShopDbContext db, Guid jobId) => db.Photos.Where(photo => photo.JobId == jobId && photo.ShownToClient);
}

/// <summary>The first page behind the link.</summary>
public sealed record SharedJob(
    Letterhead Letterhead,
    string Reference,
    string Title,
    string ClientName,
    string Vehicle,
    JobState State,
    DateOnly? PromisedOn,
    DateTimeOffset? DeliveredAt,
    IReadOnlyList<SharedStage> Stages,
    EstimateState? Estimate,
    int PhotoCount,
    bool HasHandover);

public sealed record SharedStage(string Name, SharedStageState State);

public enum SharedStageState
{
    Done,
    Underway,
    Next,
    Later,
}

public sealed record SharedPhoto(Guid Id, string Caption, DateTimeOffset TakenAt, int Width, int Height);
