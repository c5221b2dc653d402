using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Tuning.Factory;

/// <summary>Measurements at the wires of factory outputs: taken in, listed and read. Tuned channels know nothing of them.</summary>
public sealed class FactoryMeasurements(ShopStore store, JobDesigns designs, TuningMeasurements measurements)
{
    /// <summary>Outputs the signal path offers, and measurements in the order they were taken.</summary>
    public Task<FactoryMeasurementList> ListAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                var offered = await FactoryOutputs.ListAsync(db, jobId, cancellationToken);
                var files = await db.JobFiles.IgnoreQueryFilters().Where(file => file.JobId == jobId).ToDictionaryAsync(file => file.Id, file => file.FileName, cancellationToken);
                var found = await JobDesigns.ListAsync<FactoryMeasurementForm>(db, jobId, cancellationToken);
                return new FactoryMeasurementList(offered, [.. found.Select(design => new FactoryMeasurementRow(design.Id, Now(design.Form.Output, offered), design.Form, files.GetValueOrDefault(design.Form.FileId, "")))]);
            },
            cancellationToken);
    }

    /// <summary>Takes in a measurement; one that has no phase or no clock to share is refused.</summary>
    /// <returns>Its id.</returns>
    public async Task<Outcome<Guid>> AddAsync(Actor actor, Guid jobId, FactoryMeasurementForm form, CancellationToken cancellationToken)
    {
        actor.Demand(FactoryMeasurementForm.Needed);
        ArgumentNullException.ThrowIfNull(form);
        var offered = await store.ReadAsync(db => FactoryOutputs.ListAsync(db, jobId, cancellationToken), cancellationToken);
        if (form.Output.PartId is { } part && offered.TrueForAll(row => row.Output.Key != form.Output.Key))
        {
            return new Problem(nameof(form.Output), $"'{part}', output {form.Output.Output + 1}, is not among the factory outputs of this job; choose one of the list.");
        }

        var kept = form with
        {
            Output = Now(form.Output with { Name = form.Output.Name.Trim() }, offered),
            MeasuredBy = form.MeasuredBy.Length > 0 ? form.MeasuredBy : actor.Name,
            MeasuredAt = form.MeasuredAt == default ? store.Time.GetUtcNow() : form.MeasuredAt,
        };
        var problems = kept.Problems();
        if (problems.Count > 0)
        {
            return problems;
        }

        var (reading, refused) = await store.ReadAsync(db => measurements.ReadAsync(db, jobId, kept.AsRead(), cancellationToken), cancellationToken);
        return reading is null ? new Problem(nameof(form.FileId), refused ?? "The file cannot be read.")
            : reading.Response.PhaseRadians is null || reading.ArrivalSeconds is null ? new Problem(nameof(form.FileId), "The file has no phase; measure a factory output with a sweep and a reference, or bring a table with phase.")
            : await designs.AddAsync(actor, jobId, $"{kept.Output.Name}, {(kept.Output.Side == ImageSide.Left ? "left" : "right")}", kept, cancellationToken);
    }

    /// <summary>Name and side as the signal path says them now; what was typed stands where it does not.</summary>
    internal static FactoryOutputRef Now(FactoryOutputRef output, IReadOnlyList<FactoryOutputRow> offered) => offered.FirstOrDefault(row => row.Output.Key == output.Key) is { } known
        ? output with { Name = known.Output.Name, Side = known.Output.Side == ImageSide.Both ? output.Side : known.Output.Side }
        : output;
}

/// <param name="Offered">Outputs of factory amplifiers, radios and interfaces on the parts list.</param>
public sealed record FactoryMeasurementList(IReadOnlyList<FactoryOutputRow> Offered, IReadOnlyList<FactoryMeasurementRow> Rows);

/// <param name="Output">As the signal path names it now.</param>
public sealed record FactoryMeasurementRow(Guid Id, FactoryOutputRef Output, FactoryMeasurementForm Form, string FileName);
