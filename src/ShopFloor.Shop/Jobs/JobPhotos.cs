using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Photos;

namespace ShopFloor.Shop.Jobs;

/// <summary>Photos of a job: taken in, shown, captioned, taken away and brought back.</summary>
public sealed class JobPhotos(ShopStore store, PhotoStore files)
{
    /// <summary>Takes in one upload. The same picture for the same subject is kept once, so an upload may be sent again.</summary>
    /// <returns>The photo's id.</returns>
    public async Task<Outcome<Guid>> AddAsync(Actor actor, NewPhoto command, Stream upload, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        var problems = new Check().Longest(command.Caption, nameof(NewPhoto.Caption), "The caption", Limits.Line).Problems;
        if (problems.Count > 0)
        {
            return problems;
        }

        // Looked up before the picture is read: a stray upload should not cost a decode.
        if (await store.ReadAsync(db => SubjectProblemAsync(db, command, cancellationToken), cancellationToken) is { } refusal)
        {
            return refusal;
        }

        var intake = await PhotoIntake.ReadAsync(upload, PhotoLimits.Standard, cancellationToken);
        if (intake is PhotoIntakeResult.Refused refused)
        {
            return new Problem("photo", refused.Message);
        }

        var photo = ((PhotoIntakeResult.Accepted)intake).Photo;
        await files.SaveAsync(photo, cancellationToken);
        return await store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                if (await SubjectProblemAsync(db, command, cancellationToken) is { } problem)
                {
                    return problem;
                }

                var same = await db.Photos.FirstOrDefaultAsync(
                    known => known.JobId == command.JobId && known.Subject == command.Subject && known.SubjectId == command.SubjectId && known.Hash == photo.Sha256,
                    cancellationToken);
                return (same ?? db.Photos.Add(new Photo(
                    command.JobId, photo.Sha256, photo.WidthPixels, photo.HeightPixels, command.Subject, command.SubjectId, actor.Name, store.Time.GetUtcNow())
                {
                    Caption = command.Caption.Trim(),
                }).Entity).Id;
            },
            cancellationToken);
    }

    public Task<Outcome<Done>> CaptionAsync(Actor actor, Guid photoId, string caption, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        var problems = new Check().Longest(caption, nameof(NewPhoto.Caption), "The caption", Limits.Line).Problems;
        return problems.Count > 0
            ? Task.FromResult<Outcome<Done>>(problems)
            : ChangeAsync(actor, photoId, (_, photo) =>
            {
                photo.Caption = caption.Trim();
                return Task.FromResult<Problem?>(null);
            }, cancellationToken);
    }

    /// <summary>Decides whether the client sees it behind their link and in the handover.</summary>
    public Task<Outcome<Done>> ShowToClientAsync(Actor actor, Guid photoId, bool shown, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        return ChangeAsync(actor, photoId, (_, photo) =>
        {
            photo.ShownToClient = shown;
            return Task.FromResult<Problem?>(null);
        }, cancellationToken);
    }

    /// <summary>Takes a photo away; the last proof of a ticked step stays.</summary>
    public Task<Outcome<Done>> RemoveAsync(Actor actor, Guid photoId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        return ChangeAsync(
            actor,
            photoId,
            async (db, photo) =>
            {
                if (photo.Subject == PhotoSubject.Step
                    && await db.JobSteps.FirstOrDefaultAsync(step => step.Id == photo.SubjectId && step.NeedsPhoto && step.TickedAt != null, cancellationToken) is { } step
                    && !await db.Photos.AnyAsync(other => other.JobId == photo.JobId && other.Subject == PhotoSubject.Step && other.SubjectId == step.Id && other.Id != photo.Id, cancellationToken))
                {
                    return new Problem("", $"This photo is the proof of '{step.Text}'. Take the tick back first, or add another photo.");
                }

                photo.Remove(store.Time.GetUtcNow());
                return null;
            },
            cancellationToken);
    }

    public Task<Outcome<Done>> BringBackAsync(Actor actor, Guid photoId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        return ChangeAsync(actor, photoId, (_, photo) =>
        {
            photo.BringBack();
            return Task.FromResult<Problem?>(null);
        }, cancellationToken);
    }

    /// <summary>Photos of a job in the order they were taken, of one subject or of all.</summary>
    public Task<List<PhotoRow>> ListAsync(Actor actor, Guid jobId, PhotoSubject? subject, Guid? subjectId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            db => db.Photos
                .Where(photo => photo.JobId == jobId && (subject == null || photo.Subject == subject) && (subjectId == null || photo.SubjectId == subjectId))
                .OrderBy(photo => photo.TakenAt).ThenBy(photo => photo.Id)
                .Select(photo => new PhotoRow(
                    photo.Id, photo.Subject, photo.SubjectId, photo.Caption, photo.ShownToClient, photo.TakenBy, photo.TakenAt, photo.Width, photo.Height))
                .ToListAsync(cancellationToken),
            cancellationToken);
    }

    /// <returns>The picture's bytes and its hash, or null when there is no such photo.</returns>
    public async Task<PhotoFile?> OpenAsync(Actor actor, Guid photoId, bool thumbnail, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        var hash = await store.ReadAsync(
            db => db.Photos.Where(photo => photo.Id == photoId).Select(photo => photo.Hash).FirstOrDefaultAsync(cancellationToken), cancellationToken);
        return (thumbnail ? files.OpenThumbnail(hash) : files.OpenPicture(hash)) is { } content ? new PhotoFile(content, hash!) : null; // a null hash opens nothing
    }

    private Task<Outcome<Done>> ChangeAsync(Actor actor, Guid photoId, Func<ShopDbContext, Photo, Task<Problem?>> change, CancellationToken cancellationToken) =>
        store.WriteAsync<Done>(
            actor,
            async db =>
            {
                if (await db.Photos.IgnoreQueryFilters().FirstOrDefaultAsync(found => found.Id == photoId, cancellationToken) is not { } photo)
                {
                    return new Problem("", "That photo is not on file.");
                }

                return await change(db, photo) is { } problem ? problem : Done.Value;
            },
            cancellationToken);

    private static async Task<Problem?> SubjectProblemAsync(ShopDbContext db, NewPhoto command, CancellationToken cancellationToken)
    {
        if (await db.OpenJobProblemAsync(command.JobId, cancellationToken) is { } closed)
        {
            return closed;
        }

        var (jobId, id) = (command.JobId, command.SubjectId);
        var known = command.Subject switch
        {
            PhotoSubject.Step => await db.JobSteps.AnyAsync(step => step.Id == id && step.JobId == jobId, cancellationToken),
            PhotoSubject.Blocker => await db.Blockers.AnyAsync(blocker => blocker.Id == id && blocker.JobId == jobId, cancellationToken),
            PhotoSubject.Part => await db.JobParts.AnyAsync(part => part.Id == id && part.JobId == jobId, cancellationToken),
            PhotoSubject.ConditionMark => await db.ConditionMarks.AnyAsync(mark => mark.Id == id && mark.JobId == jobId, cancellationToken),
            PhotoSubject.Job or PhotoSubject.CheckIn or PhotoSubject.Finished => true,
            _ => throw new ArgumentOutOfRangeException(nameof(command), command.Subject, "Unknown subject."),
        };
        return known ? null : new Problem(nameof(NewPhoto.SubjectId), "What this photo belongs to is no longer part of the job; add it to the job instead.");
    }
}

/// <param name="JobId">The job.</param>
/// <param name="Subject">What it shows.</param>
/// <param name="SubjectId">The step, report, part or mark; null for the others.</param>
/// <param name="Caption">Words under it.</param>
public sealed record NewPhoto(Guid JobId, PhotoSubject Subject, Guid? SubjectId = null, string Caption = "");

public sealed record PhotoRow(
    Guid Id, PhotoSubject Subject, Guid? SubjectId, string Caption, bool ShownToClient, string TakenBy, DateTimeOffset TakenAt, int Width, int Height);

/// <summary>A picture to send; the caller disposes of the stream.</summary>
public sealed record PhotoFile(Stream Content, string Hash);
