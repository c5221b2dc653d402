using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Explained;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Intake;

/// <summary>The factory function list: tried before the work, tried again before delivery, every difference explained.</summary>
public sealed class FactoryFunctions(ShopStore store)
{
    public Task<List<FactoryFunctionRow>> ListAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => RowsAsync(db, jobId, cancellationToken), cancellationToken);
    }

    public async Task<Outcome<Done>> TryBeforeAsync(Actor actor, Guid jobId, Guid functionId, FunctionResult result, string note, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        if (note.Length > Limits.Line)
        {
            return new Problem("Note", $"The note has {note.Length} characters; at most {Limits.Line} are kept.");
        }

        return await store.WriteAsync<Done>(
            actor,
            async db =>
            {
                if (await db.CheckIns.AnyAsync(checkIn => checkIn.JobId == jobId && checkIn.SignedAt != null, cancellationToken))
                {
                    return new Problem("", "The client has signed the check-in with this list. Open the check-in again with a reason before changing it.");
                }

                var function = await FindAsync(db, jobId, functionId, cancellationToken);
                function.TryBefore(result, note.Trim(), actor.Name, store.Time.GetUtcNow());
                return Done.Value;
            },
            cancellationToken);
    }

    public async Task<Outcome<Done>> TryAfterAsync(Actor actor, Guid jobId, Guid functionId, FunctionResult result, string explanation, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        if (explanation.Length > Limits.Line)
        {
            return new Problem("Explanation", $"The explanation has {explanation.Length} characters; at most {Limits.Line} are kept.");
        }

        return await store.WriteAsync<Done>(
            actor,
            async db =>
            {
                var function = await FindAsync(db, jobId, functionId, cancellationToken);
                function.TryAfter(result, explanation.Trim(), actor.Name, store.Time.GetUtcNow());
                return Done.Value;
            },
            cancellationToken);
    }

    public async Task<Outcome<Guid>> AddAsync(Actor actor, Guid jobId, string group, string name, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        var check = new Check()
            .Required(group, "Group", "The group", 60)
            .Required(name, "Name", "The feature's name");
        if (check.Failed)
        {
            return check.Problems;
        }

        return await store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                var last = await db.FactoryFunctions.IgnoreQueryFilters().Where(function => function.JobId == jobId).MaxAsync(function => (int?)function.Order, cancellationToken) ?? -1;
                var added = new FactoryFunction(jobId, group.Trim(), name.Trim(), last + 1);
                db.FactoryFunctions.Add(added);
                return added.Id;
            },
            cancellationToken);
    }

    public Task<Outcome<Done>> RemoveAsync(Actor actor, Guid jobId, Guid functionId, CancellationToken cancellationToken) =>
        WithAsync(actor, jobId, functionId, function => function.Remove(store.Time.GetUtcNow()), cancellationToken);

    public Task<Outcome<Done>> BringBackAsync(Actor actor, Guid jobId, Guid functionId, CancellationToken cancellationToken) =>
        WithAsync(actor, jobId, functionId, function => function.BringBack(), cancellationToken);

    /// <summary>What the delivery gate asks: every feature tried twice, every difference explained.</summary>
    public Task<List<Finding>> FindingsAsync(Guid jobId, CancellationToken cancellationToken) =>
        store.ReadAsync(db => FindingsAsync(db, jobId, cancellationToken), cancellationToken);

    internal static async Task<List<Finding>> FindingsAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken) =>
        (await RowsAsync(db, jobId, cancellationToken)).SelectMany(FindingsIn).ToList();

    private static IEnumerable<Finding> FindingsIn(FactoryFunctionRow row)
    {
        const string Source = Unsourced.CommonPractice;
        var id = row.Id.ToString();
        if (row.Before == FunctionResult.NotTried)
        {
            yield return new Finding("function-not-tried-before", Severity.Warn, id, row.Name, $"'{row.Name}' was not tried when the car came in, so a fault cannot be told from one the work made.", "Ask the client whether it worked, and note it.", Source);
        }

        if (row.After == FunctionResult.NotTried && row.Before != FunctionResult.NotFitted)
        {
            yield return new Finding("function-not-tried-after", Severity.Stop, id, row.Name, $"'{row.Name}' has not been tried after the work.", "Try it and note the result.", Source);
        }

        if (row.IsUnexplained)
        {
            yield return new Finding("function-difference-unexplained", Severity.Stop, id, row.Name, $"'{row.Name}' was '{Text(row.Before)}' before and is '{Text(row.After)}' now, without an explanation.", "Put it right, or write for the client why it differs.", Source);
        }
    }

    public static string Text(FunctionResult result) => result switch
    {
        FunctionResult.NotTried => "not tried",
        FunctionResult.Works => "works",
        FunctionResult.Faulty => "faulty",
        FunctionResult.NotFitted => "not fitted",
        _ => throw new ArgumentOutOfRangeException(nameof(result), result, null),
    };

    private async Task<Outcome<Done>> WithAsync(Actor actor, Guid jobId, Guid functionId, Action<FactoryFunction> change, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        return await store.WriteAsync<Done>(
            actor,
            async db =>
            {
                change(await FindAsync(db, jobId, functionId, cancellationToken));
                return Done.Value;
            },
            cancellationToken);
    }

    private static Task<FactoryFunction> FindAsync(ShopDbContext db, Guid jobId, Guid functionId, CancellationToken cancellationToken) =>
        db.FactoryFunctions.IgnoreQueryFilters().SingleAsync(function => function.Id == functionId && function.JobId == jobId, cancellationToken);

    private static Task<List<FactoryFunctionRow>> RowsAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken) =>
        db.FactoryFunctions.AsNoTracking()
            .Where(function => function.JobId == jobId)
            .OrderBy(function => function.Order)
            .Select(function => new FactoryFunctionRow(
                function.Id,
                function.Group,
                function.Name,
                function.Before,
                function.BeforeNote,
                function.BeforeBy,
                function.BeforeAt,
                function.After,
                function.AfterBy,
                function.AfterAt,
                function.Explanation))
            .ToListAsync(cancellationToken);
}

public sealed record FactoryFunctionRow(
    Guid Id,
    string Group,
    string Name,
    FunctionResult Before,
    string BeforeNote,
    string BeforeBy,
    DateTimeOffset? BeforeAt,
    FunctionResult After,
    string AfterBy,
    DateTimeOffset? AfterAt,
    string Explanation)
{
    public bool Differs => After != FunctionResult.NotTried && Before != FunctionResult.NotTried && After != Before;

    public bool IsUnexplained => Differs && Explanation.Length == 0;
}
