using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Intake;

/// <summary>The check-in record: condition, battery, warning lights, belongings, and the client's signature under it.</summary>
public sealed class CheckInDesk(ShopStore store)
{
    public Task<CheckInView> LoadAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => ViewAsync(db, jobId, cancellationToken), cancellationToken);
    }

    public Task<Outcome<Guid>> SaveAsync(Actor actor, Guid jobId, Guid expectedVersion, CheckInDetails details, CancellationToken cancellationToken) =>
        ChangeAsync<Guid>(
            actor,
            jobId,
            details.Problems(),
            async (db, checkIn) =>
            {
                if (await db.ConflictAsync(checkIn, expectedVersion, details, CheckInDetails.Of(checkIn), cancellationToken) is { } conflict)
                {
                    return conflict;
                }

                checkIn.Apply(details);
                return checkIn.Id;
            },
            cancellationToken);

    public Task<Outcome<Guid>> AddMarkAsync(Actor actor, Guid jobId, NewConditionMark mark, CancellationToken cancellationToken) =>
        ChangeAsync<Guid>(
            actor,
            jobId,
            mark.Problems(),
            async (db, _) =>
            {
                // Numbers are never used twice: a mark that was taken away may come back.
                var number = 1 + (await db.ConditionMarks.IgnoreQueryFilters().Where(known => known.JobId == jobId).MaxAsync(known => (int?)known.Number, cancellationToken) ?? 0);
                var added = new ConditionMark(jobId, number, mark.Kind, mark.X, mark.Y, mark.Area.Trim(), mark.Note.Trim());
                db.ConditionMarks.Add(added);
                return added.Id;
            },
            cancellationToken);

    public Task<Outcome<Done>> RemoveMarkAsync(Actor actor, Guid jobId, Guid markId, CancellationToken cancellationToken) =>
        WithMarkAsync(actor, jobId, markId, mark => mark.Remove(store.Time.GetUtcNow()), cancellationToken);

    public Task<Outcome<Done>> BringBackMarkAsync(Actor actor, Guid jobId, Guid markId, CancellationToken cancellationToken) =>
        WithMarkAsync(actor, jobId, markId, mark => mark.BringBack(), cancellationToken);

    /// <summary>The client signs what is on the screen. From then on the record is closed until it is opened again on purpose.</summary>
    public Task<Outcome<Done>> SignAsync(Actor actor, Guid jobId, CheckInSignature signature, CancellationToken cancellationToken) =>
        ChangeAsync<Done>(
            actor,
            jobId,
            signature.Problems(),
            async (db, checkIn) =>
            {
                var view = await ViewAsync(db, jobId, cancellationToken);
                var missing = view.Details.ProblemsBeforeSigning();
                if (missing.Count > 0)
                {
                    return missing;
                }

                if (view.ContentHash != signature.ContentHash)
                {
                    return new Problem("", "The record was changed while the client was reading it. Show it again before signing.");
                }

                checkIn.Sign(signature.SignerName.Trim(), signature.Path, view.ContentHash, actor.Name, store.Time.GetUtcNow());
                db.RecordAct("Signed", checkIn, checkIn.Id, $"Signed by {signature.SignerName.Trim()} before {actor.Name}.");
                return Done.Value;
            },
            cancellationToken);

    /// <summary>Opens a signed record for a correction; the client has to sign it anew.</summary>
    public async Task<Outcome<Done>> OpenAgainAsync(Actor actor, Guid jobId, string reason, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        if (reason.Trim().Length < 5)
        {
            return new Problem("Reason", "Write why the signed record is opened again.");
        }

        return await store.WriteAsync<Done>(
            actor,
            async db =>
            {
                var checkIn = await db.CheckIns.SingleAsync(found => found.JobId == jobId, cancellationToken);
                if (checkIn.IsSigned)
                {
                    db.RecordAct("SignatureWithdrawn", checkIn, checkIn.Id, reason.Trim());
                    checkIn.OpenAgain();
                }

                return Done.Value;
            },
            cancellationToken,
            reason.Trim());
    }

    private async Task<Outcome<Done>> WithMarkAsync(Actor actor, Guid jobId, Guid markId, Action<ConditionMark> change, CancellationToken cancellationToken) =>
        await ChangeAsync<Done>(
            actor,
            jobId,
            [],
            async (db, _) =>
            {
                change(await db.ConditionMarks.IgnoreQueryFilters().SingleAsync(mark => mark.Id == markId && mark.JobId == jobId, cancellationToken));
                return Done.Value;
            },
            cancellationToken);

    private async Task<Outcome<TResult>> ChangeAsync<TResult>(
        Actor actor,
        Guid jobId,
        List<Problem> problems,
        Func<ShopDbContext, CheckIn, Task<Outcome<TResult>>> change,
        CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        if (problems.Count > 0)
        {
            return problems;
        }

        return await store.WriteAsync(
            actor,
            async db =>
            {
                var checkIn = await db.CheckIns.SingleAsync(found => found.JobId == jobId, cancellationToken);
                return checkIn.IsSigned
                    ? new Problem("", $"{checkIn.SignerName} has signed this record. Open it again with a reason before changing it.")
                    : await change(db, checkIn);
            },
            cancellationToken);
    }

    private static async Task<CheckInView> ViewAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var checkIn = await db.CheckIns.AsNoTracking().SingleAsync(found => found.JobId == jobId, cancellationToken);
        var marks = await db.ConditionMarks.AsNoTracking()
            .Where(mark => mark.JobId == jobId)
            .OrderBy(mark => mark.Number)
            .Select(mark => new ConditionMarkRow(mark.Id, mark.Number, mark.Kind, mark.X, mark.Y, mark.Area, mark.Note))
            .ToListAsync(cancellationToken);
        var functions = await db.FactoryFunctions.AsNoTracking()
            .Where(function => function.JobId == jobId)
            .OrderBy(function => function.Order)
            .Select(function => new { function.Name, function.Before, function.BeforeNote })
            .ToListAsync(cancellationToken);
        var details = CheckInDetails.Of(checkIn);
        var content = JsonSerializer.SerializeToUtf8Bytes(new { details, marks, functions }, StoredJson.Options);
        return new CheckInView(
            checkIn.Version,
            details,
            marks,
            checkIn.SignedAt is { } at ? new SignedCheckIn(checkIn.SignerName, checkIn.SignaturePath, checkIn.SignedBefore, at) : null,
            Convert.ToHexStringLower(SHA256.HashData(content)));
    }
}

/// <param name="Version">Version the editor passes back when saving.</param>
/// <param name="Details">What is written down.</param>
/// <param name="Marks">Condition marks in their order.</param>
/// <param name="Signed">The signature, or null while the record is open.</param>
/// <param name="ContentHash">SHA-256 of everything the client signs for.</param>
public sealed record CheckInView(Guid Version, CheckInDetails Details, IReadOnlyList<ConditionMarkRow> Marks, SignedCheckIn? Signed, string ContentHash);

public sealed record SignedCheckIn(string SignerName, string SignaturePath, string Before, DateTimeOffset At);

public sealed record ConditionMarkRow(Guid Id, int Number, ConditionKind Kind, double X, double Y, string Area, string Note);

public sealed record NewConditionMark(ConditionKind Kind, double X, double Y, string Area, string Note)
{
    public List<Problem> Problems() => new Check()
        .That(double.IsFinite(X) && X is >= 0 and <= 1, nameof(X), $"The mark lies at {X} across; accepted is 0 to 1.")
        .That(double.IsFinite(Y) && Y is >= 0 and <= 1, nameof(Y), $"The mark lies at {Y} down; accepted is 0 to 1.")
        .Longest(Area, nameof(Area), "The area", Limits.Name)
        .Longest(Note, nameof(Note), "The note", Limits.Line)
        .Problems;
}

/// <param name="SignerName">Name as typed by the signer.</param>
/// <param name="Path">Strokes as an SVG path; empty when the signer typed the name and ticked the box instead.</param>
/// <param name="ContentHash">Hash of the record that was on the screen.</param>
public sealed partial record CheckInSignature(string SignerName, string Path, string ContentHash)
{
    public List<Problem> Problems() => new Check()
        .Required(SignerName, nameof(SignerName), "The signer's name")
        .That(Path.Length <= 200_000, nameof(Path), "The signature has too many strokes; clear it and sign again.")
        .That(PathForm().IsMatch(Path), nameof(Path), "The signature could not be read; clear it and sign again.")
        .Problems;

    // Only moves and lines: nothing else can come from the pad, and nothing else is put into a page.
    [System.Text.RegularExpressions.GeneratedRegex(@"^(?:[ML][\d.\s,-]*)*$")]
    private static partial System.Text.RegularExpressions.Regex PathForm();
}
