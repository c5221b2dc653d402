using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Handover;

/// <summary>The handover document: its notes, its facts as they stand now, and its released versions.</summary>
public sealed class Handovers(ShopStore store, TuningBench bench)
{
    public async Task<HandoverNotesView> NotesAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return await store.ReadAsync(
            async db =>
            {
                var job = await db.Jobs.IgnoreQueryFilters().SingleAsync(found => found.Id == jobId, cancellationToken);
                var sources = await JobSources.ListAsync(db, jobId, UnitText.Invariant, cancellationToken);
                var usual = HandoverGathering.DefaultNotes(job, sources, await db.SettingsAsync(cancellationToken));
                var saved = await db.HandoverNotes.SingleOrDefaultAsync(found => found.JobId == jobId, cancellationToken);
                return new HandoverNotesView(saved?.Version, saved?.Form.Copy() ?? usual.Copy()) { Suggested = usual.Sources };
            },
            cancellationToken);
    }

    /// <param name="expectedVersion">Version the user started from; null when nothing was saved then.</param>
    public async Task<Outcome<Guid>> SaveNotesAsync(Actor actor, Guid jobId, Guid? expectedVersion, HandoverNotesForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        form.Sources = [.. form.Sources.Where(source => source.Name.Trim().Length > 0 || source.HowTo.Trim().Length > 0)];
        var problems = form.Problems();
        if (form.Sources.Any(source => source.Name.Trim().Length == 0))
        {
            problems.Add(new Problem(nameof(HandoverNotesForm.Sources), "Every source needs a name."));
        }

        if (problems.Count > 0)
        {
            return problems;
        }

        return await store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                if (await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                var saved = await db.HandoverNotes.SingleOrDefaultAsync(found => found.JobId == jobId, cancellationToken);
                if (saved is null)
                {
                    saved = db.HandoverNotes.Add(new HandoverNotes(jobId, form.Copy())).Entity;
                    return saved.Id;
                }

                if (await db.ConflictAsync(saved, expectedVersion ?? Guid.Empty, form, saved.Form, cancellationToken) is { } conflict)
                {
                    return conflict;
                }

                saved.Apply(form.Copy());
                return saved.Id;
            },
            cancellationToken);
    }

    /// <summary>What the document would say if the car were handed over now.</summary>
    public async Task<HandoverFacts> FactsAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return await store.ReadAsync(db => HandoverGathering.GatherAsync(db, bench, jobId, cancellationToken), cancellationToken);
    }

    public async Task<IReadOnlyList<HandoverReleaseLine>> ReleasesAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return await store.ReadAsync(
            db => db.HandoverReleases
                .Where(release => release.JobId == jobId)
                .OrderByDescending(release => release.Number)
                .Select(release => new HandoverReleaseLine(release.Number, release.ReleasedBy, release.ReleasedAt, release.PdfHash))
                .ToListAsync(cancellationToken),
            cancellationToken);
    }

    /// <returns>The PDF exactly as it was released; null when there is no such release.</returns>
    public async Task<ReleasedHandover?> ReleasedAsync(Actor actor, Guid jobId, int? number, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return await store.ReadAsync(db => ReleasedAsync(db, jobId, number, cancellationToken), cancellationToken);
    }

    internal static async Task<ReleasedHandover?> ReleasedAsync(ShopDbContext db, Guid jobId, int? number, CancellationToken cancellationToken)
    {
        var release = await db.HandoverReleases
            .Where(found => found.JobId == jobId && (number == null || found.Number == number))
            .OrderByDescending(found => found.Number)
            .FirstOrDefaultAsync(cancellationToken);
        return release is null
            ? null
            : new ReleasedHandover(
                release.Number,
                JsonSerializer.Deserialize<HandoverFacts>(release.FactsJson, StoredJson.Options) ?? throw new InvalidOperationException($"Release {release.Number} of the job has no facts."),
                release.Pdf,
                release.PdfHash);
    }
}

/// <param name="Version">Version to save against; null when nothing was saved yet and the form holds the suggestions.</param>
public sealed record HandoverNotesView(Guid? Version, HandoverNotesForm Form)
{
    public bool IsSaved => Version is not null;

    /// <summary>The sources as the signal path and the parts list would tell them now.</summary>
    public IReadOnlyList<SourceGuide> Suggested { get; init; } = [];
}

public sealed record HandoverReleaseLine(int Number, string ReleasedBy, DateTimeOffset ReleasedAt, string PdfHash);

/// <summary>A handover as the client got it.</summary>
public sealed record ReleasedHandover(int Number, HandoverFacts Facts, ReadOnlyMemory<byte> Pdf, string PdfHash);
