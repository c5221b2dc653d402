using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>Values measured on the car, against those its plan predicts. Every command may be sent again; it counts once.</summary>
public sealed class MeasuredValues(ShopStore store)
{
    /// <param name="text">Units and culture of the reader, for explanations; findings stay invariant.</param>
    public Task<MeasuredSheet> SheetAsync(Actor actor, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => CommissioningGate.SheetAsync(db, jobId, text, cancellationToken), cancellationToken);
    }

    /// <summary>The levels of the gain sheet and what was measured of them; no rows while nothing is linked.</summary>
    /// <param name="text">Units and culture of the reader, for explanations; findings stay invariant.</param>
    public Task<MeasuredSheet> LevelsAsync(Actor actor, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => LevelGate.SheetAsync(db, jobId, text, cancellationToken), cancellationToken);
    }

    /// <summary>Keeps a value, within its limits or not: what was measured is never lost.</summary>
    public Task<Outcome<Done>> EnterAsync(Actor actor, Guid commandId, EnterMeasured command, DateTimeOffset? pressedAt, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        return store.WriteOnceAsync(
            actor,
            commandId,
            async db =>
            {
                if (await JobLock.ProblemAsync(db, command.JobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                var rows = command.PointId.StartsWith(LevelFindings.Prefix, StringComparison.Ordinal)
                    ? await LevelFindings.RowsAsync(db, command.JobId, UnitText.Invariant, cancellationToken)
                    : await MeasuredFindings.RowsAsync(db, command.JobId, await SupplyPlan.ReadAsync(db, command.JobId, UnitText.Invariant, cancellationToken), UnitText.Invariant, cancellationToken);
                var row = rows.FirstOrDefault(found => found.Point.Id == command.PointId);
                if (row is null)
                {
                    return new Problem(nameof(EnterMeasured.PointId), "That is no longer to be measured; the plan was changed. The page shows what is.");
                }

                var point = row.Point;
                if (command.Value is not { } value || !double.IsFinite(value) || value < 0 || value > point.LargestReadable)
                {
                    return new Problem(
                        nameof(EnterMeasured.Value),
                        string.Create(CultureInfo.CurrentCulture, $"{point.Name}: {(command.Value is { } typed ? $"{typed} {point.Unit}" : "nothing")} was entered; a meter shows 0 to {point.LargestReadable} {point.Unit}."));
                }

                db.MeasuredValues.Add(new MeasuredValue(command.JobId, point, value, actor.Id, actor.Name, PressTime.Of(pressedAt, store.Time.GetUtcNow()).At));
                return Done.Value;
            },
            cancellationToken);
    }

    /// <summary>Takes a value back; it stays on file, and the one before it counts again.</summary>
    public Task<Outcome<Done>> UndoAsync(Actor actor, Guid commandId, Guid valueId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        return store.WriteOnceAsync(
            actor,
            commandId,
            async db =>
            {
                if (await db.MeasuredValues.FirstOrDefaultAsync(found => found.Id == valueId, cancellationToken) is not { } value)
                {
                    return new Problem("ValueId", "That value is not on file.");
                }

                if (await JobLock.ProblemAsync(db, value.JobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                value.Withdraw(actor.Name, store.Time.GetUtcNow());
                return Done.Value;
            },
            cancellationToken);
    }

    /// <summary>The owner lets commissioning or tuning go on in spite of findings of one kind, in writing.</summary>
    /// <param name="findings">The findings as the owner read them.</param>
    public Task<Outcome<IReadOnlyList<Guid>>> SignOffAsync(
        Actor actor, Guid jobId, string code, IReadOnlyCollection<ReadFinding> findings, string reason, CancellationToken cancellationToken) =>
        SignOffs.SignAsync(
            store,
            actor,
            jobId,
            code,
            findings,
            reason,
            async db =>
            {
                var sheet = await CommissioningGate.SheetAsync(db, jobId, UnitText.Invariant, cancellationToken);
                var levels = await LevelGate.SheetAsync(db, jobId, UnitText.Invariant, cancellationToken);
                return [.. sheet.Design, .. sheet.Values, .. levels.Values];
            },
            cancellationToken);
}

/// <param name="JobId">The job.</param>
/// <param name="PointId">What was measured.</param>
/// <param name="Value">The value, in the unit of the point.</param>
public sealed record EnterMeasured(Guid JobId, string PointId, double? Value);
