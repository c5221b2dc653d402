using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Electrical plans as they were released to the bench: inputs and results frozen, so that bench and papers hold the same numbers.</summary>
public sealed class PlanReleases(ShopStore store)
{
    /// <summary>A frozen plan keeps its empty fields, so that it reads back whole.</summary>
    private static readonly JsonSerializerOptions Frozen = new(StoredJson.Options) { DefaultIgnoreCondition = JsonIgnoreCondition.Never };

    /// <summary>Freezes inputs and results under the next number. With a stop finding only the owner may, with a reason.</summary>
    public Task<Outcome<PlanReleaseRow>> ReleaseAsync(Actor actor, Guid jobId, string reason, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.WriteAsync<PlanReleaseRow>(
            actor,
            async db =>
            {
                if (await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                var view = await ElectricalPlans.ViewAsync(db, jobId, UnitText.Invariant, cancellationToken);
                if (view.Input is null || view.Result is null)
                {
                    return new Problem("", "There is no plan to release yet: no part takes current, or the plan cannot be computed.");
                }

                var stops = view.Findings.Where(finding => finding.Severity == Severity.Stop).ToList();
                if (stops.Count > 0 && (!actor.May(Permission.SignOffFindings) || string.IsNullOrWhiteSpace(reason)))
                {
                    return new Problem(
                        nameof(reason),
                        $"The plan has {stops.Count} stop findings. Mend them, or the owner releases it with a written reason. The first: {stops[0].Subject}: {stops[0].Text}");
                }

                var number = 1 + (await db.DesignReleases.Where(found => found.JobId == jobId).MaxAsync(found => (int?)found.Number, cancellationToken) ?? 0);
                var release = new DesignRelease(
                    jobId,
                    number,
                    JsonSerializer.Serialize(view.Input, Frozen),
                    JsonSerializer.Serialize(view.Result, Frozen),
                    actor.Name,
                    store.Time.GetUtcNow());
                db.DesignReleases.Add(release);
                if (stops.Count > 0)
                {
                    db.RecordAct("ReleasedWithStops", release, release.Id, reason.Trim());
                }

                return new PlanReleaseRow(release.Id, number, release.ReleasedBy, release.ReleasedAt);
            },
            cancellationToken,
            reason.Trim());
    }

    /// <summary>Releases of a job, newest first.</summary>
    public Task<List<PlanReleaseRow>> ReleasesAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            db => db.DesignReleases.Where(release => release.JobId == jobId)
                .OrderByDescending(release => release.Number)
                .Select(release => new PlanReleaseRow(release.Id, release.Number, release.ReleasedBy, release.ReleasedAt))
                .ToListAsync(cancellationToken),
            cancellationToken);
    }

    /// <summary>A released plan as it was then; null when there is none with that number.</summary>
    public Task<ReleasedPlan?> ReleasedAsync(Actor actor, Guid jobId, int number, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync<ReleasedPlan?>(
            async db => await db.DesignReleases.SingleOrDefaultAsync(found => found.JobId == jobId && found.Number == number, cancellationToken) is { } release
                ? new ReleasedPlan(
                    release.Number,
                    release.ReleasedBy,
                    release.ReleasedAt,
                    JsonSerializer.Deserialize<ElectricalPlanInput>(release.PlanInputJson, Frozen)!, // written by ReleaseAsync
                    JsonSerializer.Deserialize<ElectricalPlanResult>(release.PlanResultJson, Frozen)!) // written by ReleaseAsync
                : null,
            cancellationToken);
    }
}

/// <summary>A plan as it was released.</summary>
public sealed record ReleasedPlan(int Number, string ReleasedBy, DateTimeOffset ReleasedAt, ElectricalPlanInput Input, ElectricalPlanResult Result);
