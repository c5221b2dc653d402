using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Handover;

/// <summary>The gate before the car goes back: asks every phase, takes sign-offs, freezes the handover.</summary>
public sealed class DeliveryGate(ShopStore store, IHandoverPrint print, TuningBench bench)
{
    public const int ShortestReason = SignOffs.ShortestReason;

    public async Task<GateReport> ReportAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return await store.ReadAsync(db => ReportAsync(db, jobId, cancellationToken), cancellationToken);
    }

    /// <summary>The owner goes on in spite of a finding, in writing. Covers the finding as it reads now and nothing else.</summary>
    /// <param name="findingText">The finding as the owner read it.</param>
    public async Task<Outcome<Guid>> SignOffAsync(
        Actor actor, Guid jobId, string code, string subjectId, string findingText, string reason, CancellationToken cancellationToken)
    {
        var outcome = await SignOffAlikeAsync(actor, jobId, code, [new ReadFinding(subjectId, findingText)], reason, cancellationToken);
        return outcome.Succeeded ? outcome.Value[0] : outcome.As<Guid>();
    }

    /// <summary>The same for several findings of one kind at once: all of them or none, each with a sign-off and a line of the trail of its own.</summary>
    /// <param name="findings">The findings as the owner read them.</param>
    public Task<Outcome<IReadOnlyList<Guid>>> SignOffAlikeAsync(
        Actor actor, Guid jobId, string code, IReadOnlyCollection<ReadFinding> findings, string reason, CancellationToken cancellationToken) =>
        SignOffs.SignAsync(store, actor, jobId, code, findings, reason, async db => (await ReportAsync(db, jobId, cancellationToken)).Findings, cancellationToken);

    public async Task<Outcome<Done>> WithdrawSignOffAsync(Actor actor, Guid signOffId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SignOffFindings);
        return await store.WriteAsync<Done>(
            actor,
            async db =>
            {
                var signOff = await db.SignOffs.SingleAsync(found => found.Id == signOffId, cancellationToken);
                if (await JobLock.ProblemAsync(db, signOff.JobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                signOff.Withdraw(store.Time.GetUtcNow());
                return Done.Value;
            },
            cancellationToken);
    }

    /// <summary>Hands the car back: refused while a stop stands that nobody signed off. Freezes the handover document.</summary>
    public async Task<Outcome<int>> DeliverAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        var now = store.Time.GetUtcNow();

        // Drawn before the write gate is entered: nobody waits for a drawing. What it was drawn from is compared again inside.
        var (refusal, facts) = await store.ReadAsync(
            async db => (await RefusalAsync(db, jobId, cancellationToken), await FactsAsync(db, jobId, now, cancellationToken)),
            cancellationToken);
        if (refusal is not null)
        {
            return refusal;
        }

        var factsJson = JsonSerializer.Serialize(facts, StoredJson.Options);
        var pdf = await print.PrintAsync(facts, cancellationToken);
        return await store.WriteAsync<int>(
            actor,
            async db =>
            {
                if (await RefusalAsync(db, jobId, cancellationToken) is { } problem)
                {
                    return problem;
                }

                if (JsonSerializer.Serialize(await FactsAsync(db, jobId, now, cancellationToken), StoredJson.Options) != factsJson)
                {
                    return new Problem("", "Somebody changed the job while the handover was being made. Look at it again, then deliver.");
                }

                var job = await db.Jobs.SingleAsync(found => found.Id == jobId, cancellationToken);
                job.Deliver(now);
                var release = new HandoverRelease(jobId, facts.ReleaseNumber!.Value, factsJson, pdf, Convert.ToHexStringLower(SHA256.HashData(pdf)), actor.Name, now); // FactsAsync numbers it
                db.HandoverReleases.Add(release);
                db.RecordAct("Delivered", job, job.Id, "");
                return release.Number;
            },
            cancellationToken);
    }

    /// <summary>Takes a delivered car back into the shop. What was released stays as it was.</summary>
    public async Task<Outcome<Done>> ReopenAsync(Actor actor, Guid jobId, string reason, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SignOffFindings);
        var written = reason.Trim();
        if (written.Length < ShortestReason || written.Length > Limits.Note)
        {
            return new Problem(nameof(reason), $"The reason has {written.Length} characters; accepted is {ShortestReason} to {Limits.Note}.");
        }

        return await store.WriteAsync<Done>(
            actor,
            async db =>
            {
                var job = await db.Jobs.SingleAsync(found => found.Id == jobId, cancellationToken);
                if (job.State == JobState.Open)
                {
                    return new Problem("", "The job is open already.");
                }

                job.Reopen();
                db.RecordAct("Reopened", job, job.Id, written);
                return Done.Value;
            },
            cancellationToken,
            written);
    }

    private async Task<HandoverFacts> FactsAsync(ShopDbContext db, Guid jobId, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var number = 1 + await db.HandoverReleases.CountAsync(release => release.JobId == jobId, cancellationToken);
        return await HandoverGathering.GatherAsync(db, bench, jobId, cancellationToken) with
        {
            DeliveredOn = SettingsReading.DayIn(await db.SettingsAsync(cancellationToken), now),
            ReleaseNumber = number,
        };
    }

    private async Task<Problem?> RefusalAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var report = await ReportAsync(db, jobId, cancellationToken);
        if (report.State != JobState.Open)
        {
            return new Problem("", report.State == JobState.Delivered ? "The car was delivered already." : "The job was cancelled; open it again first.");
        }

        return report.CanDeliver
            ? null
            : new Problem("", $"{report.Standing.Count()} findings stand against delivery: {string.Join(" ", report.Standing.Take(5).Select(gated => $"{gated.Finding.Subject}: {gated.Finding.Text}"))}");
    }

    private async Task<GateReport> ReportAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var state = await db.Jobs.Where(job => job.Id == jobId).Select(job => job.State).SingleAsync(cancellationToken);
        var findings = await GateFindings.CollectAsync(db, bench, jobId, cancellationToken);
        return new GateReport(state, await SignOffs.GateAsync(db, jobId, findings, cancellationToken));
    }
}

/// <summary>How a job stands before the gate.</summary>
/// <param name="State">State of the job.</param>
/// <param name="Findings">All findings, the gravest first.</param>
public sealed record GateReport(JobState State, IReadOnlyList<GatedFinding> Findings)
{
    /// <summary>Stops nobody has signed off.</summary>
    public IEnumerable<GatedFinding> Standing => Findings.Where(gated => gated.Stands);

    public bool CanDeliver => State == JobState.Open && !Standing.Any();
}
