using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Explained;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Jobs;

/// <summary>The one way a finding is signed off, whichever gate it stands before.</summary>
internal static class SignOffs
{
    public const int ShortestReason = 10;

    /// <summary>Puts beside each finding who goes on in spite of it; the gravest first.</summary>
    public static async Task<IReadOnlyList<GatedFinding>> GateAsync(ShopDbContext db, Guid jobId, IEnumerable<Finding> findings, CancellationToken cancellationToken)
    {
        var signOffs = await db.SignOffs.AsNoTracking().Where(signOff => signOff.JobId == jobId && signOff.WithdrawnAt == null).OrderByDescending(signOff => signOff.At).ToListAsync(cancellationToken);
        return
        [
            .. findings
                .OrderByDescending(finding => finding.Severity)
                .Select(finding => new GatedFinding(finding, signOffs.FirstOrDefault(signOff => signOff.Covers(finding)) is { } covering
                    ? new SignOffLine(covering.Id, covering.By, covering.At, covering.Reason)
                    : null)),
        ];
    }

    /// <summary>Signs off findings of one kind: all of them or none, each with a sign-off and a line of the trail of its own.</summary>
    /// <param name="findings">The findings as the owner read them.</param>
    /// <param name="standing">What the gate finds now.</param>
    public static async Task<Outcome<IReadOnlyList<Guid>>> SignAsync(
        ShopStore store,
        Actor actor,
        Guid jobId,
        string code,
        IReadOnlyCollection<ReadFinding> findings,
        string reason,
        Func<ShopDbContext, Task<IReadOnlyList<GatedFinding>>> standing,
        CancellationToken cancellationToken)
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
                if (await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                var now = await standing(db);
                var signed = new List<Guid>();
                foreach (var read in findings.Distinct())
                {
                    var gated = now.FirstOrDefault(found => found.Finding.Code == code && found.Finding.SubjectId == read.SubjectId);
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

    private static Problem? Refusal(GatedFinding? gated, ReadFinding read) =>
        gated is null ? new Problem("", "This finding is gone; nothing is left to sign off.")
        : gated.Finding.Text != read.Text ? new Problem("", $"The finding reads differently now: {gated.Finding.Text}")
        : gated.SignOff is { } signOff ? new Problem("", $"{signOff.By} signed this off already: {gated.Finding.Subject}.")
        : null;
}

/// <param name="Finding">What was found.</param>
/// <param name="SignOff">Who goes on in spite of it; null when nobody.</param>
public sealed record GatedFinding(Finding Finding, SignOffLine? SignOff)
{
    /// <summary>Whether it holds the work: a stop nobody has signed off.</summary>
    public bool Stands => Finding.Severity == Severity.Stop && SignOff is null;
}

/// <param name="SubjectId">What the finding is about.</param>
/// <param name="Text">How it read on the screen of whoever signs it off.</param>
public sealed record ReadFinding(string SubjectId, string Text);

public sealed record SignOffLine(Guid Id, string By, DateTimeOffset At, string Reason);
