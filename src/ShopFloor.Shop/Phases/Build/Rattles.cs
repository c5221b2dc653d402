using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Fabrication.Treatment;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>Rattles found by tones, what was done against them and what was heard afterwards. Every command may be sent again; it counts once.</summary>
public sealed class Rattles(ShopStore store)
{
    public Task<RattleSheet> SheetAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                var rows = (await JobDesigns.ListAsync<RattleForm>(db, jobId, cancellationToken)).SelectMany(list => list.Form.Rows).ToList();
                return new RattleSheet(
                    jobId,
                    await JobLock.ProblemAsync(db, jobId, cancellationToken) is null,
                    [.. rows.Where(row => !row.IsStruckOff).OrderBy(row => row.State == RattleState.Gone).ThenBy(row => row.Hertz)],
                    [.. rows.Where(row => row.IsStruckOff)]);
            },
            cancellationToken);
    }

    /// <summary>What is still heard or was not played again; nothing while no rattle is on the list.</summary>
    internal static async Task<IReadOnlyList<Finding>> FindingsAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken) =>
        RattleList.Open([.. (await JobDesigns.ListAsync<RattleForm>(db, jobId, cancellationToken)).SelectMany(list => list.Form.InOrder()).Select(row => row.Rattle())], UnitText.Invariant);

    /// <summary>Notes a rattle.</summary>
    public Task<Outcome<Done>> FindAsync(Actor actor, Guid commandId, FoundRattle found, DateTimeOffset? pressedAt, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(found);
        return ChangeAsync(
            actor,
            commandId,
            found.JobId,
            form =>
            {
                if (found.Hertz is not { } hertz)
                {
                    return new Problem(nameof(FoundRattle.Hertz), "The frequency of the tone is needed, in Hz.");
                }

                form.Rows.Add(new RattleRow { Place = found.Place.Trim(), Hertz = hertz, LevelDecibels = found.LevelDecibels, FoundBy = actor.Name, FoundAt = At(pressedAt) });
                return null;
            },
            cancellationToken);
    }

    /// <summary>Notes what was done; the tone is then played again.</summary>
    public Task<Outcome<Done>> TreatAsync(Actor actor, Guid commandId, Guid jobId, string rattleId, string remedy, DateTimeOffset? pressedAt, CancellationToken cancellationToken) => ChangeAsync(
        actor,
        commandId,
        jobId,
        form =>
        {
            if (new Check().Required(remedy, "Remedy", "What was done", Limits.Line).Problems is [var missing, ..])
            {
                return missing;
            }

            return On(form, rattleId, row => row.Remedies.Add(new RattleRemedy { Text = remedy.Trim(), By = actor.Name, At = At(pressedAt) }));
        },
        cancellationToken);

    /// <summary>Notes what was heard when the same tone was played after the last remedy.</summary>
    public Task<Outcome<Done>> PlayedAsync(Actor actor, Guid commandId, Guid jobId, string rattleId, bool stillHeard, DateTimeOffset? pressedAt, CancellationToken cancellationToken) => ChangeAsync(
        actor,
        commandId,
        jobId,
        form => form.Rows.Find(row => row.Id == rattleId) is { Last: null }
            ? new Problem("Remedy", "Say first what was done, then play the tone again.")
            : On(form, rattleId, row => (row.Last!.StillHeard, row.Last.PlayedBy, row.Last.PlayedAt) = (stillHeard, actor.Name, At(pressedAt))), // one without a remedy was refused above
        cancellationToken);

    /// <summary>Strikes a rattle off as a mistake, or takes that back.</summary>
    public Task<Outcome<Done>> StrikeOffAsync(Actor actor, Guid commandId, Guid jobId, string rattleId, bool isOff, CancellationToken cancellationToken) =>
        ChangeAsync(actor, commandId, jobId, form => On(form, rattleId, row => row.IsStruckOff = isOff), cancellationToken);

    private DateTimeOffset At(DateTimeOffset? pressedAt) => PressTime.Of(pressedAt, store.Time.GetUtcNow()).At;

    private static Problem? On(RattleForm form, string rattleId, Action<RattleRow> change)
    {
        if (form.Rows.Find(row => row.Id == rattleId) is not { } row)
        {
            return new Problem("RattleId", "That rattle is not on the list.");
        }

        change(row);
        return null;
    }

    // The list is read and written in one go, so entries of two tablets never overwrite each other.
    private Task<Outcome<Done>> ChangeAsync(Actor actor, Guid commandId, Guid jobId, Func<RattleForm, Problem?> change, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        return store.WriteOnceAsync(
            actor,
            commandId,
            async db =>
            {
                if (await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                var list = await db.JobDesigns.Where(design => design.JobId == jobId && design.Kind == DesignKind.Rattle).OrderBy(design => design.Id).FirstOrDefaultAsync(cancellationToken);
                var form = list?.Form<RattleForm>() ?? new RattleForm();
                if (change(form) is { } refused)
                {
                    return refused;
                }

                if (form.Problems() is { Count: > 0 } problems)
                {
                    return problems;
                }

                if (list is null)
                {
                    db.JobDesigns.Add(new JobDesign(jobId, DesignKind.Rattle, "Rattles", JobDesign.Write(form), store.Time.GetUtcNow()));
                }
                else
                {
                    list.Apply(list.Name, JobDesign.Write(form));
                }

                return Done.Value;
            },
            cancellationToken);
    }
}

/// <param name="Place">Where, such as "rear shelf, left clip".</param>
/// <param name="Hertz">Tone at which it was heard, Hz.</param>
/// <param name="LevelDecibels">Level at the seat where it began, dB; null when not noted.</param>
public sealed record FoundRattle(Guid JobId, string Place, double? Hertz, double? LevelDecibels);

/// <summary>The rattles of a job.</summary>
/// <param name="IsOpen">Whether anything may be entered.</param>
/// <param name="Rows">Open ones first, then by frequency.</param>
/// <param name="StruckOff">Mistakes, kept on file.</param>
public sealed record RattleSheet(Guid JobId, bool IsOpen, IReadOnlyList<RattleRow> Rows, IReadOnlyList<RattleRow> StruckOff)
{
    public int OpenCount => Rows.Count(row => row.State != RattleState.Gone);
}
