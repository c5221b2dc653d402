using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>A loudspeaker with its measurements, latest first.</summary>
/// <param name="Latest">The latest one worked out; null while there is none.</param>
public sealed record MeasuredDriver(Guid JobId, Guid PartId, Guid PartVersion, string Name, LoudspeakerData Data, IReadOnlyList<LoadedDesign<DriverMeasurementForm>> Kept, DriverStudy? Latest);

/// <summary>A sweep's file as it looks, to be confirmed.</summary>
/// <param name="Problem">Why it is none, in words; null when it is one.</param>
public sealed record SweepDraft(Guid FileId, string FileName, ImpedanceProposal? Proposal, string? Problem);

/// <summary>Measurements of a job's loudspeakers: looked at, worked out, kept, written to the part and taken back.</summary>
public sealed class DriverMeasurements(ShopStore store)
{
    /// <returns>Null when there is no such loudspeaker.</returns>
    public Task<MeasuredDriver?> GetAsync(Actor actor, Guid partId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                if (await db.JobParts.AsNoTracking().SingleOrDefaultAsync(found => found.Id == partId, cancellationToken) is not { Data: LoudspeakerData data } part)
                {
                    return null;
                }

                var kept = (await JobDesigns.ListAsync<DriverMeasurementForm>(db, part.JobId, cancellationToken)).Where(design => design.Form.PartId == partId).Reverse().ToList();
                var latest = kept.Count > 0 ? await StudyAsync(db, part, kept[0].Form, text, cancellationToken) : null;
                return new MeasuredDriver(part.JobId, part.Id, part.Version, part.Name, data, kept, latest);
            },
            cancellationToken);
    }

    /// <summary>How a file that was brought would be read.</summary>
    public Task<SweepDraft> LookAsync(Actor actor, Guid jobId, Guid fileId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                if (await JobFiles.OpenAsync(db, fileId, cancellationToken) is not { Kind: JobFileKind.ImpedanceTable } file || file.JobId != jobId)
                {
                    return new SweepDraft(fileId, "", null, "That file is not on this job; choose another.");
                }

                var proposal = ImpedanceFile.Propose(file.Content);
                return new SweepDraft(fileId, file.FileName, proposal, proposal.Problems.Count > 0 ? $"'{file.FileName}': {proposal.Problems[0].Message}" : null);
            },
            cancellationToken);
    }

    /// <summary>What a measurement says, before it is kept.</summary>
    /// <returns>Null when there is no such loudspeaker.</returns>
    public Task<DriverStudy?> StudyAsync(Actor actor, DriverMeasurementForm form, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db => await db.JobParts.AsNoTracking().SingleOrDefaultAsync(found => found.Id == form.PartId, cancellationToken) is { Data: LoudspeakerData } part
                ? await StudyAsync(db, part, Signed(form, actor), text, cancellationToken)
                : null,
            cancellationToken);
    }

    /// <summary>Keeps a measurement. Whoever may design has its figures written to the part with it; else they wait for somebody who may.</summary>
    /// <param name="partVersion">Version of the part the figures were looked at beside.</param>
    /// <returns>Its id.</returns>
    public async Task<Outcome<Guid>> KeepAsync(Actor actor, Guid partVersion, DriverMeasurementForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        var kept = Signed(form, actor) with { Changes = [], MeasuredBefore = [] };
        // Worked out before the write, which is one at a time; the part's version tells whether it still holds.
        if (await StudyAsync(actor, kept, UnitText.Invariant, cancellationToken) is not { } study)
        {
            return Gone;
        }

        if (study.Problems.Count > 0)
        {
            return study.Problems.ToList();
        }

        return await store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                if (await PartAsync(db, form.PartId, cancellationToken) is not { Data: LoudspeakerData data } part)
                {
                    return Gone;
                }

                if (await db.OpenJobProblemAsync(part.JobId, cancellationToken) is { } closed)
                {
                    return closed;
                }

                if (part.Version != partVersion)
                {
                    return new Problem("", $"{part.Name} was changed meanwhile; look at the figures again, then keep them.");
                }

                var written = actor.May(Permission.DesignJobs) ? Write(part, data, kept, study) : kept;
                return db.JobDesigns.Add(new JobDesign(part.JobId, DesignKind.DriverMeasurement, part.Name, JobDesign.Write(written), store.Time.GetUtcNow())).Entity.Id;
            },
            cancellationToken);
    }

    /// <summary>Writes the figures of a kept measurement to its part.</summary>
    public Task<Outcome<Done>> PutOnPartAsync(Actor actor, Guid designId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return ChangeAsync(
            actor, designId,
            async (db, design, part, data) =>
            {
                var form = design.Form<DriverMeasurementForm>();
                var study = await StudyAsync(db, part, form, UnitText.Invariant, cancellationToken);
                if (study.Problems.Count > 0)
                {
                    return study.Problems.ToList();
                }

                if (!form.IsOnPart)
                {
                    design.Apply(design.Name, JobDesign.Write(Write(part, data, form, study)));
                }

                return Done.Value;
            },
            cancellationToken);
    }

    /// <summary>Takes a measurement away. Figures of it that nobody typed over become what they were before.</summary>
    public Task<Outcome<Done>> TakeBackAsync(Actor actor, Guid designId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        return ChangeAsync(
            actor, designId,
            (db, design, part, data) =>
            {
                var form = design.Form<DriverMeasurementForm>();
                if (form.IsOnPart)
                {
                    actor.Demand(Permission.DesignJobs);
                    Restore(part, data, form);
                    design.Apply(design.Name, JobDesign.Write(form with { Changes = [] }));
                }

                design.Remove(store.Time.GetUtcNow());
                return Task.FromResult<Outcome<Done>>(Done.Value);
            },
            cancellationToken);
    }

    private static Problem Gone => new("", "That loudspeaker is no longer on the list.");

    private DriverMeasurementForm Signed(DriverMeasurementForm form, Actor actor) =>
        form with { MeasuredBy = form.MeasuredBy.Length > 0 ? form.MeasuredBy : actor.Name, MeasuredAt = form.MeasuredAt == default ? store.Time.GetUtcNow() : form.MeasuredAt };

    private static Task<JobPart?> PartAsync(ShopDbContext db, Guid partId, CancellationToken cancellationToken) => db.JobParts.SingleOrDefaultAsync(found => found.Id == partId, cancellationToken);

    private static DriverMeasurementForm Write(JobPart part, LoudspeakerData data, DriverMeasurementForm form, DriverStudy study)
    {
        Apply(part, study.Data!); // worked out without problems
        return form with
        {
            Changes = [.. study.Changes],
            MeasuredBefore = new((data.Measured ?? []).Where(pair => study.Changes.Any(change => change.Field == pair.Key))),
        };
    }

    private static void Restore(JobPart part, LoudspeakerData data, DriverMeasurementForm form)
    {
        var restored = (LoudspeakerData)data.Copy(); // of a loudspeaker
        restored.Measured ??= [];
        foreach (var change in form.Changes)
        {
            // A figure typed over since stays, but is no longer of this measurement.
            if (restored.Measured.TryGetValue(change.Field, out var mine) && mine.Value == change.After)
            {
                restored.Measured.Remove(change.Field);
            }

            if (DriverStudy.Get(data, change.Field) != change.After)
            {
                continue;
            }

            DriverStudy.Set(restored, change.Field, change.Before);
            if (form.MeasuredBefore.TryGetValue(change.Field, out var earlier))
            {
                restored.Measured[change.Field] = earlier;
            }
        }

        restored.Measured = restored.Measured.Count > 0 ? restored.Measured : null;
        Apply(part, restored);
    }

    private static void Apply(JobPart part, LoudspeakerData data)
    {
        var details = JobPartDetails.Of(part);
        details.Data = data;
        part.Apply(details);
    }

    private static async Task<DriverStudy> StudyAsync(ShopDbContext db, JobPart part, DriverMeasurementForm form, UnitText text, CancellationToken cancellationToken)
    {
        var day = ShopDay.Today(await db.ZoneAsync(cancellationToken), form.MeasuredAt);
        var words = string.Create(CultureInfo.InvariantCulture, $"measured by {form.MeasuredBy}, {day:d MMM yyyy}");
        Dictionary<Guid, OpenedJobFile> files = [];
        foreach (var sweep in new[] { form.FreeAir, form.Again })
        {
            if (sweep is not null && await JobFiles.OpenAsync(db, sweep.FileId, cancellationToken) is { Kind: JobFileKind.ImpedanceTable } file && file.JobId == part.JobId)
            {
                files[sweep.FileId] = file;
            }
        }

        return DriverStudy.Of(form, (LoudspeakerData)part.Data, files, words, text); // of a loudspeaker
    }

    private Task<Outcome<Done>> ChangeAsync(Actor actor, Guid designId, Func<ShopDbContext, JobDesign, JobPart, LoudspeakerData, Task<Outcome<Done>>> change, CancellationToken cancellationToken) =>
        store.WriteAsync<Done>(
            actor,
            async db =>
            {
                if (await db.JobDesigns.FirstOrDefaultAsync(found => found.Id == designId && found.Kind == DesignKind.DriverMeasurement, cancellationToken) is not { } design)
                {
                    return new Problem("", "That measurement is no longer there; load the page again.");
                }

                if (await db.OpenJobProblemAsync(design.JobId, cancellationToken) is { } closed)
                {
                    return closed;
                }

                return await PartAsync(db, design.Form<DriverMeasurementForm>().PartId, cancellationToken) is { Data: LoudspeakerData data } part ? await change(db, design, part, data) : Gone;
            },
            cancellationToken);
}
