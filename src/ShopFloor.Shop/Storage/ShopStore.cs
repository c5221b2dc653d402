using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Storage;

/// <summary>
/// The one way to the database: a context for each read, and for each command one transaction behind the write gate
/// that is audited, committed whole or not at all, and told to open screens afterwards.
/// </summary>
public sealed class ShopStore(IDbContextFactory<ShopDbContext> contexts, WriteGate gate, JobChangeFeed feed, TimeProvider time)
{
    public TimeProvider Time => time;

    public async Task<TResult> ReadAsync<TResult>(Func<ShopDbContext, Task<TResult>> read, CancellationToken cancellationToken)
    {
        await using var db = await contexts.CreateDbContextAsync(cancellationToken);
        db.ChangeTracker.QueryTrackingBehavior = QueryTrackingBehavior.NoTracking;
        return await read(db);
    }

    public async Task<Outcome<TResult>> WriteAsync<TResult>(
        Actor actor,
        Func<ShopDbContext, Task<Outcome<TResult>>> work,
        CancellationToken cancellationToken,
        string reason = "")
    {
        Outcome<TResult> outcome;
        IReadOnlySet<Guid> touched;
        using (await gate.EnterAsync(cancellationToken))
        {
            await using var db = await contexts.CreateDbContextAsync(cancellationToken);
            db.WriteAs(actor, reason);
            await using var transaction = await db.Database.BeginTransactionAsync(cancellationToken);
            outcome = await work(db);
            if (!outcome.Succeeded)
            {
                return outcome;
            }

            await db.SaveChangesAsync(cancellationToken);
            await transaction.CommitAsync(cancellationToken);
            touched = db.TouchedJobs;
        }

        feed.Publish(new JobsChanged(touched, actor.Name));
        return outcome;
    }

    /// <summary>Carries a command out once, however often it is sent.</summary>
    public Task<Outcome<Done>> WriteOnceAsync(
        Actor actor,
        Guid commandId,
        Func<ShopDbContext, Task<Outcome<Done>>> work,
        CancellationToken cancellationToken) =>
        WriteAsync<Done>(
            actor,
            async db =>
            {
                if (await db.CommandReceipts.FindAsync([commandId], cancellationToken) is { } receipt)
                {
                    return receipt.ActorId == actor.Id
                        ? Done.Value
                        : new Problem("", "This entry was already sent by somebody else.");
                }

                db.CommandReceipts.Add(new CommandReceipt(commandId, actor.Id, time.GetUtcNow()));
                return await work(db);
            },
            cancellationToken);
}
