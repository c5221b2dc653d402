using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Engineering.Tuning.Verification;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Tuning.Presets;

/// <summary>The presets of a job's processor: kept in versions that never change, compared, brought back, and one of them in the car.</summary>
public sealed class TuningPresets(ShopStore store, JobDesigns designs)
{
    /// <summary>As many versions as a job keeps: a preset of twelve channels is some 15 kB.</summary>
    public const int MostVersions = 200;

    public async Task<TuningPresetList> GetAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        var removed = await designs.RemovedAsync<PresetForm>(actor, jobId, cancellationToken);
        return await store.ReadAsync(
            async db => new TuningPresetList(await ListAsync(db, jobId, cancellationToken), removed, ProcessorProfiles.Of(await db.SettingsAsync(cancellationToken))),
            cancellationToken);
    }

    /// <summary>Keeps a draft as the next version, on the steps of its processor.</summary>
    /// <returns>The version; refused when somebody kept another one from the same beginning meanwhile.</returns>
    public async Task<Outcome<KeptPreset>> SaveAsync(Actor actor, Guid jobId, PresetDraft draft, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(PresetForm.Needed);
        ArgumentNullException.ThrowIfNull(draft);
        List<Problem> problems =
        [
            .. new Check().Required(draft.Name, nameof(draft.Name), "The name of the preset").Longest(draft.Note, nameof(draft.Note), "The reason", Limits.Line).Problems,
            .. draft.Profile.Validate(text).Select(problem => new Problem($"{nameof(draft.Profile)}.{problem.Field}", problem.Message)),
            .. draft.Target.Validate(text).Select(problem => new Problem($"{nameof(draft.Target)}.{problem.Field}", problem.Message)),
        ];
        if (problems.Count == 0)
        {
            problems.AddRange(new ProcessorPreset(draft.Name, draft.Channels) { Inputs = draft.Inputs }.Validate(draft.Profile.SampleRateHertz, text).Select(problem => new Problem(problem.Field, problem.Message)));
        }

        if (problems.Count > 0)
        {
            return problems;
        }

        var rounded = SettingQuantiser.Fit(new ProcessorPreset(draft.Name.Trim(), draft.Channels) { Inputs = draft.Inputs }, draft.Profile, text);
        var id = Guid.Empty;
        var number = 0;
        var outcome = await store.WriteAsync<Done>(
            actor,
            async db =>
            {
                if (await db.OpenJobProblemAsync(jobId, cancellationToken) is { } closed)
                {
                    return closed;
                }

                var kept = await All(db, jobId).IgnoreQueryFilters().Where(design => design.JobId == jobId).ToListAsync(cancellationToken);
                if (kept.Count >= MostVersions)
                {
                    return new Problem("", $"The job has {kept.Count} versions of presets; at most {MostVersions} are kept.");
                }

                var own = kept.Where(design => design.RemovedAt is null).Select(design => (design.Name, Form: design.Form<PresetForm>())).Where(each => each.Form.PresetId == draft.PresetId).ToList();
                if (draft.PresetId is not null && own.Count == 0)
                {
                    return new Problem(nameof(draft.PresetId), "That preset is no longer there; load the list again.");
                }

                if (draft.PresetId is null && kept.Exists(design => design.RemovedAt is null && design.Name.Equals(draft.Name.Trim(), StringComparison.OrdinalIgnoreCase)))
                {
                    return new Problem(nameof(draft.Name), $"There is a preset '{draft.Name.Trim()}' already; choose another name, or keep a version of that one.");
                }

                var last = own.Select(each => each.Form).MaxBy(form => form.Number);
                if (last is not null && draft.BasedOn != last.Number)
                {
                    return new Problem(
                        nameof(draft.BasedOn),
                        $"{last.SavedBy.Name} kept version {last.Number} of this preset meanwhile; yours began from version {draft.BasedOn}. Compare both, then go on from version {last.Number} or keep yours under another name.");
                }

                // Numbers of removed versions are not given again.
                number = 1 + kept.Select(design => design.Form<PresetForm>()).Where(form => form.PresetId == draft.PresetId).Select(form => form.Number).DefaultIfEmpty(0).Max();
                var now = store.Time.GetUtcNow();
                var form = new PresetForm
                {
                    PresetId = draft.PresetId ?? Guid.CreateVersion7(now), Number = number, BasedOn = last is null ? null : draft.BasedOn, Note = draft.Note.Trim(), SavedBy = new DoneBy(actor.Name, now),
                    Profile = draft.Profile, Target = draft.Target, Channels = rounded.Preset.Channels, Inputs = rounded.Preset.Inputs, Factory = draft.Inputs.Count > 0 ? draft.Factory : [], Pins = draft.Pins,
                };
                id = db.JobDesigns.Add(new JobDesign(jobId, DesignKind.TuningPreset, draft.Name.Trim(), JobDesign.Write(form), now)).Entity.Id;
                return Done.Value;
            },
            cancellationToken);
        return outcome.Succeeded ? new KeptPreset(id, number, rounded.Rounded, rounded.Findings) : outcome.As<KeptPreset>();
    }

    /// <summary>Makes an earlier version the latest again, as a new version; what came between stays.</summary>
    public async Task<Outcome<KeptPreset>> RestoreAsync(Actor actor, Guid versionId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(PresetForm.Needed);
        if (await store.ReadAsync(db => FindAsync(db, versionId, cancellationToken), cancellationToken) is not { } found)
        {
            return Gone;
        }

        var form = found.Design.Form;
        return await SaveAsync(
            actor,
            found.JobId,
            new PresetDraft
            {
                PresetId = form.PresetId, BasedOn = found.Latest, Name = found.Design.Name, Note = $"Version {form.Number} brought back",
                Profile = form.Profile, Target = form.Target, Channels = form.Channels, Inputs = form.Inputs, Factory = form.Factory, Pins = form.Pins,
            },
            text,
            cancellationToken);
    }

    /// <summary>Says that the processor in the car now holds this version; the one before no longer counts as in the car.</summary>
    public Task<Outcome<Done>> PutInCarAsync(Actor actor, Guid versionId, CancellationToken cancellationToken) =>
        ChangeAsync(actor, versionId, (all, design) =>
        {
            var now = store.Time.GetUtcNow();
            foreach (var other in all.Where(other => other.Id != design.Id))
            {
                if (other.Form<PresetForm>() is { InCar: not null } before)
                {
                    other.Apply(other.Name, JobDesign.Write(before with { InCar = null }));
                }
            }

            design.Apply(design.Name, JobDesign.Write(design.Form<PresetForm>() with { InCar = new DoneBy(actor.Name, now) }));
            return null;
        }, cancellationToken);

    /// <summary>Keeps what was heard at a point of the listening list; a second answer takes the place of the first.</summary>
    public Task<Outcome<Done>> HearAsync(Actor actor, Guid versionId, ListeningAnswer answer, CancellationToken cancellationToken) =>
        ChangeAsync(actor, versionId, (_, design) =>
        {
            if (ListeningChecklist.Points.All(point => point.Id != answer.PointId))
            {
                return new Problem(nameof(answer.PointId), $"'{answer.PointId}' is no point of the listening list; accepted are {string.Join(", ", ListeningChecklist.Points.Select(point => point.Id))}.");
            }

            if (new Check().Longest(answer.Note, nameof(answer.Note), "What was heard", Limits.Line).Problems is [var tooLong, ..])
            {
                return tooLong;
            }

            var form = design.Form<PresetForm>();
            var heard = new HeardPoint(answer with { Note = answer.Note.Trim() }, new DoneBy(actor.Name, store.Time.GetUtcNow()));
            design.Apply(design.Name, JobDesign.Write(form with { Heard = [.. form.Heard.Where(each => each.Answer.PointId != answer.PointId), heard] }));
            return null;
        }, cancellationToken);

    /// <summary>What is typed into the processor, with the heads of a paper; null when the version is not of this job.</summary>
    public Task<PresetPaper?> SheetAsync(Actor actor, Guid jobId, Guid versionId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
                await FindAsync(db, versionId, cancellationToken) is { } found && found.JobId == jobId && await DesignPaper.HeadAsync(db, jobId, cancellationToken) is { } head
                    ? new PresetPaper(head.Letterhead, head.JobReference, head.JobTitle, head.Vehicle, found.Design.Name, found.Design.Form, SheetOf(found.Design.Name, found.Design.Form))
                    : null,
            cancellationToken);
    }

    /// <summary>Every setting that differs between two versions.</summary>
    public static IReadOnlyList<SettingChange> Between(LoadedDesign<PresetForm> before, LoadedDesign<PresetForm> after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        return PresetComparison.Between(before.Form.Settings(before.Name), after.Form.Settings(after.Name));
    }

    internal static async Task<IReadOnlyList<PresetLine>> ListAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken) =>
        [
            .. (await JobDesigns.ListAsync<PresetForm>(db, jobId, cancellationToken))
                .GroupBy(design => design.Form.PresetId)
                .Select(versions => versions.OrderByDescending(version => version.Form.Number).ToList())
                .Select(versions => new PresetLine(versions[0].Form.PresetId, versions[0].Name, versions)),
        ];

    internal static PresetSheet SheetOf(string name, PresetForm form) => PresetSheet.Of(form.Settings(PresetForm.Label(name, form.Number)), form.Profile, Air.At(20).SpeedMetersPerSecond);

    private static Problem Gone => new("", "That preset is no longer there; load the list again.");

    private static IQueryable<JobDesign> All(ShopDbContext db, Guid jobId) => db.JobDesigns.Where(design => design.Kind == DesignKind.TuningPreset && design.JobId == jobId);

    private static async Task<FoundVersion?> FindAsync(ShopDbContext db, Guid versionId, CancellationToken cancellationToken)
    {
        var jobId = await db.JobDesigns.Where(design => design.Id == versionId && design.Kind == DesignKind.TuningPreset).Select(design => (Guid?)design.JobId).FirstOrDefaultAsync(cancellationToken);
        if (jobId is not { } job || (await JobDesigns.ListAsync<PresetForm>(db, job, cancellationToken)) is not { } all || all.Find(design => design.Id == versionId) is not { } found)
        {
            return null;
        }

        return new FoundVersion(job, found, all.Where(design => design.Form.PresetId == found.Form.PresetId).Max(design => design.Form.Number));
    }

    private Task<Outcome<Done>> ChangeAsync(Actor actor, Guid versionId, Func<IReadOnlyList<JobDesign>, JobDesign, Problem?> change, CancellationToken cancellationToken)
    {
        actor.Demand(PresetForm.Needed);
        return store.WriteAsync<Done>(
            actor,
            async db =>
            {
                var design = await db.JobDesigns.FirstOrDefaultAsync(found => found.Id == versionId && found.Kind == DesignKind.TuningPreset, cancellationToken);
                if (design is null)
                {
                    return Gone;
                }

                if (await db.OpenJobProblemAsync(design.JobId, cancellationToken) is { } closed)
                {
                    return closed;
                }

                return change(await All(db, design.JobId).ToListAsync(cancellationToken), design) is { } refused ? refused : Done.Value;
            },
            cancellationToken);
    }

    private sealed record FoundVersion(Guid JobId, LoadedDesign<PresetForm> Design, int Latest);
}

/// <param name="Presets">In the order they were begun.</param>
/// <param name="Removed">Versions taken away, latest first.</param>
/// <param name="Profiles">Processors to choose from, the generic one first.</param>
public sealed record TuningPresetList(IReadOnlyList<PresetLine> Presets, IReadOnlyList<LoadedDesign<PresetForm>> Removed, IReadOnlyList<ProcessorProfile> Profiles)
{
    /// <summary>The version the processor in the car holds; null while nobody said.</summary>
    public LoadedDesign<PresetForm>? InCar => Presets.SelectMany(preset => preset.Versions).FirstOrDefault(version => version.Form.InCar is not null);
}

/// <param name="Versions">Latest first, at least one.</param>
public sealed record PresetLine(Guid PresetId, string Name, IReadOnlyList<LoadedDesign<PresetForm>> Versions)
{
    public LoadedDesign<PresetForm> Latest => Versions[0];
}

/// <param name="Rounded">What the processor's steps changed.</param>
/// <param name="Findings">What the processor could not keep.</param>
public sealed record KeptPreset(Guid VersionId, int Number, IReadOnlyList<SettingChange> Rounded, IReadOnlyList<Finding> Findings);

/// <summary>A version as a paper of the shop.</summary>
public sealed record PresetPaper(Letterhead Letterhead, string JobReference, string JobTitle, string Vehicle, string Name, PresetForm Form, PresetSheet Sheet);
