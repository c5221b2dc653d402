using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Jobs;

/// <summary>Reads the head of a job: what every page of it shows.</summary>
public sealed class JobCards(ShopStore store)
{
    /// <returns>The head, or null when there is no such job.</returns>
    public Task<JobHead?> HeadAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            db => db.Jobs
                .Where(job => job.Id == jobId)
                .Select(job => new JobHead(
                    job.Id,
                    job.Number,
                    job.Title,
                    job.State,
                    job.ClientId,
                    job.Client!.Name, // both foreign keys are required
                    job.VehicleId,
                    (job.Vehicle!.ModelYear == null ? "" : job.Vehicle.ModelYear + " ") + job.Vehicle.Make + " " + job.Vehicle.Model,
                    job.Vehicle.Plate,
                    job.Vehicle.DriveType,
                    job.PromisedOn,
                    job.NothingCut,
                    job.KeepSpareWheel,
                    job.LeasedVehicle,
                    job.RestrictionNotes,
                    job.Progress))
                .SingleOrDefaultAsync(cancellationToken),
            cancellationToken);
    }
}

public sealed record JobHead(
    Guid Id,
    int Number,
    string Title,
    JobState State,
    Guid ClientId,
    string ClientName,
    Guid VehicleId,
    string VehicleTitle,
    string Plate,
    Drivetrain DriveType,
    DateOnly? PromisedOn,
    bool NothingCut,
    bool KeepSpareWheel,
    bool LeasedVehicle,
    string RestrictionNotes,
    JobProgress Progress)
{
    public string Reference => Job.ReferenceOf(Number);
}
