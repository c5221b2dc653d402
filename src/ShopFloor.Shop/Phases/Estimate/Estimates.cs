using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Estimate;

/// <summary>Makes estimates from the job itself, freezes what is shown to the client, and keeps the client's answer.</summary>
public sealed class Estimates(ShopStore store)
{
    public async Task<EstimateSheet> SheetAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeePrices);
        return await store.ReadAsync(
            async db =>
            {
                var draft = await DraftAsync(db, jobId, cancellationToken);
                var versions = await VersionsAsync(db, jobId, cancellationToken);
                var approved = versions.FirstOrDefault(version => version.State == EstimateState.Approved);
                return new EstimateSheet(draft, versions, approved is null ? null : EstimateDifference.Between(approved, draft));
            },
            cancellationToken);
    }

    /// <summary>The shop's price of an hour, net.</summary>
    public async Task<decimal> PricePerHourAsync(Actor actor, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeePrices);
        return await store.ReadAsync(async db => (await db.SettingsAsync(cancellationToken)).PricePerHour, cancellationToken);
    }

    /// <summary>Freezes the draft as a new version. Versions the client has not answered are replaced by it.</summary>
    /// <param name="draftHash">Fingerprint of the draft the user saw.</param>
    public async Task<Outcome<Guid>> IssueAsync(Actor actor, Guid jobId, string draftHash, string note, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeePrices);
        actor.Demand(Permission.EditJobCards);
        var check = new Check().Longest(note, nameof(note), "The note", Limits.Note);
        if (check.Failed)
        {
            return check.Problems;
        }

        return await store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                if (await db.Jobs.Where(job => job.Id == jobId).Select(job => job.State).SingleAsync(cancellationToken) != JobState.Open)
                {
                    return new Problem("", "The job is not open any more; an estimate is issued for open jobs only.");
                }

                var draft = await DraftAsync(db, jobId, cancellationToken);
                if (draft.Gaps.Count > 0)
                {
                    return draft.Gaps.Select(gap => new Problem("", gap.Message)).ToList();
                }

                if (draft.Lines.Count == 0)
                {
                    return new Problem("", "There is nothing to estimate: the job has neither parts nor planned stages.");
                }

                if (draft.ContentHash != draftHash)
                {
                    return new Problem("", "Parts, stages or prices changed since this page was loaded. Look at the new numbers, then issue.");
                }

                var earlier = await db.Estimates.Where(version => version.JobId == jobId).ToListAsync(cancellationToken);
                earlier.ForEach(version => version.Replace());
                var number = 1 + (earlier.Count == 0 ? 0 : earlier.Max(version => version.Number));
                var issued = new EstimateVersion(jobId, number, draft.Currency, draft.Lines, draft.TaxPercent, note.Trim(), actor.Name, store.Time.GetUtcNow());
                issued.SetTotals(draft.Net, draft.Tax, draft.Gross);
                db.Estimates.Add(issued);
                return issued.Id;
            },
            cancellationToken);
    }

    /// <summary>Writes down the answer the client gave the front desk.</summary>
    public async Task<Outcome<Done>> AnswerAsync(Actor actor, Guid versionId, bool approved, string who, AnswerWay how, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeePrices);
        actor.Demand(Permission.EditJobCards);
        var check = new Check()
            .Required(who, nameof(who), "The name of who answered")
            .That(how is AnswerWay.Phone or AnswerWay.InPerson or AnswerWay.Mail, nameof(how), "Say how the client answered: by phone, in person or by mail.");
        if (check.Failed)
        {
            return check.Problems;
        }

        return await store.WriteAsync<Done>(actor, db => AnswerAsync(db, version => version.Id == versionId, expectedHash: null, approved, who, how, cancellationToken), cancellationToken);
    }

    /// <summary>Takes the answer the client gave behind their link, if it is about what they were shown.</summary>
    public async Task<Outcome<Done>> AnswerAsClientAsync(ClientAccess access, ClientAnswer answer, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(access);
        ArgumentNullException.ThrowIfNull(answer);
        var check = new Check()
            .Required(answer.TypedName, nameof(ClientAnswer.TypedName), "Your name")
            .That(answer.ContentHash.Length == 64, nameof(ClientAnswer.ContentHash), "The answer does not say which estimate it is about. Load the page again.");
        if (check.Failed)
        {
            return check.Problems;
        }

        return await store.WriteAsync<Done>(
            Actor.Client(answer.TypedName.Trim()),
            db => AnswerAsync(
                db,
                version => version.JobId == access.JobId && version.Id == answer.VersionId,
                answer.ContentHash,
                answer.Approved,
                answer.TypedName,
                AnswerWay.ClientLink,
                cancellationToken),
            cancellationToken);
    }

    /// <summary>One version with what its paper needs besides.</summary>
    /// <returns>Null when there is none.</returns>
    public async Task<EstimatePaper?> PaperAsync(Actor actor, Guid jobId, int? number, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeePrices);
        return await store.ReadAsync(db => PaperAsync(db, jobId, number, cancellationToken), cancellationToken);
    }

    /// <summary>The version the client is to see: the newest that was issued and not replaced.</summary>
    public async Task<EstimatePaper?> PaperForClientAsync(ClientAccess access, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(access);
        return await store.ReadAsync(db => PaperAsync(db, access.JobId, number: null, cancellationToken), cancellationToken);
    }

    internal static async Task<EstimateDraft> DraftAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var parts = await db.JobParts
            .Where(part => part.JobId == jobId && part.Direction == PartDirection.Installed)
            .Select(part => new PricedPart(part.Id, part.Order, part.Kind, part.Name, part.Quantity, part.Unit, part.UnitPrice))
            .ToListAsync(cancellationToken);
        var stages = await db.PlannedStagesAsync(jobId, cancellationToken);
        return EstimateDraft.Compose(parts, stages, await db.SettingsAsync(cancellationToken));
    }

    private static Task<List<EstimateVersion>> VersionsAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken) =>
        db.Estimates.Where(version => version.JobId == jobId).OrderByDescending(version => version.Number).ToListAsync(cancellationToken);

    private static async Task<EstimatePaper?> PaperAsync(ShopDbContext db, Guid jobId, int? number, CancellationToken cancellationToken)
    {
        var version = await db.Estimates
            .Where(found => found.JobId == jobId && (number == null ? found.State != EstimateState.Replaced : found.Number == number))
            .OrderByDescending(found => found.Number)
            .FirstOrDefaultAsync(cancellationToken);
        if (version is null)
        {
            return null;
        }

        var job = await db.WholeJobAsync(jobId, cancellationToken);
        return new EstimatePaper(
            Letterhead.From(await db.SettingsAsync(cancellationToken)),
            job.Reference,
            job.Title,
            job.Client!.Name, // included above; the foreign key is required
            job.Client.Address,
            job.Vehicle!.Title, // included above; the foreign key is required
            job.Vehicle.Plate,
            version.Id,
            version.Number,
            version.Currency,
            version.Lines,
            version.TaxPercent,
            version.NetTotal,
            version.TaxTotal,
            version.GrossTotal,
            version.Note,
            version.State,
            version.IssuedAt,
            version.AnsweredBy,
            version.AnsweredAt,
            version.ContentHash);
    }

    private async Task<Outcome<Done>> AnswerAsync(
        ShopDbContext db,
        System.Linq.Expressions.Expression<Func<EstimateVersion, bool>> which,
        string? expectedHash,
        bool approved,
        string who,
        AnswerWay how,
        CancellationToken cancellationToken)
    {
        var version = await db.Estimates.SingleOrDefaultAsync(which, cancellationToken);
        if (version is null || (expectedHash is not null && version.ContentHash != expectedHash))
        {
            return new Problem("", "This is not the estimate that was shown. Load the page again.");
        }

        if (version.State != EstimateState.Issued)
        {
            return new Problem("", version.State switch
            {
                EstimateState.Replaced => string.Create(CultureInfo.CurrentCulture, $"Estimate {version.Number} was replaced by a newer one. Look at that one."),
                _ => string.Create(CultureInfo.CurrentCulture, $"Estimate {version.Number} was already {(version.State == EstimateState.Approved ? "approved" : "declined")} by {version.AnsweredBy}."),
            });
        }

        version.Answer(approved, who.Trim(), how.Text(), store.Time.GetUtcNow());
        db.RecordAct(approved ? "Approved" : "Declined", version, version.Id, $"{who.Trim()}, {how.Text()}");
        return Done.Value;
    }
}
