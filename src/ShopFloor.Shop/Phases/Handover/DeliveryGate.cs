using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Explained;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Handover;

/// <summary>The gate before the car goes back: asks every phase, takes sign-offs, freezes the handover.</summary>
public sealed class DeliveryGate(ShopStore store, IHandoverPrint print)
{
    public const int ShortestReason = 10;

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
    public async Task<Outcome<IReadOnlyList<Guid>>> SignOffAlikeAsync(
        Actor actor, Guid jobId, string code, IReadOnlyCollection<ReadFinding> findings, string reason, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SignOffFindings);
        var written = reason.Trim();
        var check = new Check()
            .That(findings.Count > 0, "", "No finding was chosen; nothing is signed off.")
            .That(written.Length >= ShortestReason, nameof(reason), $"The reason has {written.Length} characters; write at least {ShortestReason}, so that it can be understood later.")
            .Longest(written, nameof(reason), "The reason", Limits.Note);
        if (check.Failed)
        {
            return check.Problems;
        }

        return await store.WriteAsync<IReadOnlyList<Guid>>(
            actor,
            async db =>
            {
                var report = await ReportAsync(db, jobId, cancellationToken);
                var signed = new List<Guid>();
                foreach (var read in findings.Distinct())
                {
                    var gated = report.Findings.FirstOrDefault(found => found.Finding.Code == code && found.Finding.SubjectId == read.SubjectId);
                    if (Refusal(gated, read) is { } problem)
                    {
                        return problem;
                    }

                    var signOff = new SignOff(jobId, gated!.Finding, written, actor.Name, store.Time.GetUtcNow()); // refused above when there is none
                    db.SignOffs.Add(signOff);
                    db.RecordAct("SignedOff", signOff, signOff.Id, written);
                    signed.Add(signOff.Id);
                }

                return signed;
            },
            cancellationToken);
    }

    public async Task<Outcome<Done>> WithdrawSignOffAsync(Actor actor, Guid signOffId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SignOffFindings);
        return await store.WriteAsync<Done>(
            actor,
            async db =>
            {
                var signOff = await db.SignOffs.SingleAsync(found => found.Id == signOffId, cancellationToken);
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

    private static Problem? Refusal(GatedFinding? gated, ReadFinding read) =>
        gated is null ? new Problem("", "This finding is gone; nothing is left to sign off.")
        : gated.Finding.Text != read.Text ? new Problem("", $"The finding reads differently now: {gated.Finding.Text}")
        : gated.SignOff is { } signOff ? new Problem("", $"{signOff.By} signed this off already: {gated.Finding.Subject}.")
        : null;

    private static async Task<HandoverFacts> FactsAsync(ShopDbContext db, Guid jobId, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var number = 1 + await db.HandoverReleases.CountAsync(release => release.JobId == jobId, cancellationToken);
        return await HandoverGathering.GatherAsync(db, jobId, cancellationToken) with
        {
            DeliveredOn = SettingsReading.DayIn(await db.SettingsAsync(cancellationToken), now),
            ReleaseNumber = number,
        };
    }

    private static async Task<Problem?> RefusalAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
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

    private static async Task<GateReport> ReportAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var state = await db.Jobs.Where(job => job.Id == jobId).Select(job => job.State).SingleAsync(cancellationToken);
        var findings = await GateFindings.CollectAsync(db, jobId, cancellationToken);
        var signOffs = await db.SignOffs.AsNoTracking().Where(signOff => signOff.JobId == jobId && signOff.WithdrawnAt == null).OrderByDescending(signOff => signOff.At).ToListAsync(cancellationToken);
        return new GateReport(
            state,
            [.. findings
                .OrderByDescending(finding => finding.Severity)
                .Select(finding => new GatedFinding(finding, signOffs.FirstOrDefault(signOff => signOff.Covers(finding)) is { } covering
                    ? new SignOffLine(covering.Id, covering.By, covering.At, covering.Reason)
                    : null))]);
    }
}

/// <summary>How a job stands before the gate.</summary>
/// <param name="State">State of the job.</param>
/// <param name="Findings">All findings, the gravest first.</param>
public sealed record GateReport(JobState State, IReadOnlyList<GatedFinding> Findings)
{
    /// <summary>Stops nobody has signed off.</summary>
    public IEnumerable<GatedFinding> Standing => Findings.Where(gated => gated.Finding.Severity == Severity.Stop && gated.SignOff is null);

    public bool CanDeliver => State == JobState.Open && !Standing.Any();
}

/// <param name="Finding">What was found.</param>
/// <param name="SignOff">Who goes on in spite of it; null when nobody.</param>
public sealed record GatedFinding(Finding Finding, SignOffLine? SignOff);

/// <param name="SubjectId">What the finding is about.</param>
/// <param name="Text">How it read on the screen of whoever signs it off.</param>
public sealed record ReadFinding(string SubjectId, string Text);

public sealed record SignOffLine(Guid Id, string By, DateTimeOffset At, string Reason);
