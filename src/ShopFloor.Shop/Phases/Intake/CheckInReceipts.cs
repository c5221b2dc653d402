using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Intake;

/// <summary>Gathers the paper the client takes home when the car stays.</summary>
public sealed class CheckInReceipts(ShopStore store)
{
    public async Task<CheckInFacts> ReadAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return await store.ReadAsync(
            async db =>
            {
                var settings = await db.SettingsAsync(cancellationToken);
                var job = await db.WholeJobAsync(jobId, cancellationToken);
                var (client, vehicle) = (job.Client!, job.Vehicle!); // included above; the foreign keys are required
                var checkIn = await db.CheckIns.SingleAsync(found => found.JobId == jobId, cancellationToken);
                var marks = await db.ConditionMarks.Where(mark => mark.JobId == jobId).OrderBy(mark => mark.Number).ToListAsync(cancellationToken);
                var functions = await db.FactoryFunctions.Where(function => function.JobId == jobId).OrderBy(function => function.Order).ToListAsync(cancellationToken);
                var photos = await db.Photos
                    .Where(photo => photo.JobId == jobId && (photo.Subject == PhotoSubject.CheckIn || photo.Subject == PhotoSubject.ConditionMark))
                    .OrderBy(photo => photo.TakenAt)
                    .ThenBy(photo => photo.Id)
                    .ToListAsync(cancellationToken);
                var numbers = marks.ToDictionary(mark => mark.Id, mark => mark.Number);
                return new CheckInFacts(
                    Letterhead.From(settings),
                    job.Reference,
                    job.Title,
                    job.OpenedAt,
                    client.Name,
                    client.Phone,
                    client.Email,
                    vehicle.Title,
                    vehicle.Plate,
                    vehicle.Vin,
                    vehicle.Colour,
                    vehicle.BodyStyle,
                    job.OdometerKilometers,
                    job.KeyCount,
                    checkIn.BatteryVolts,
                    checkIn.EnergyPercent,
                    checkIn.NoWarningLights,
                    checkIn.WarningLights,
                    checkIn.Belongings,
                    checkIn.Notes,
                    job.Wish,
                    [.. marks.Select(mark => new CheckInMark(mark.Number, mark.Kind, mark.X, mark.Y, mark.Area, mark.Note))],
                    [.. functions.Select(function => new CheckInFunction(function.Group, function.Name, function.Before, function.BeforeNote))],
                    [.. photos.Select(photo => new CheckInPhoto(photo.Id, photo.Hash, photo.Caption, photo.SubjectId is { } id && numbers.TryGetValue(id, out var number) ? number : null))],
                    settings.CheckInConditions,
                    checkIn.SignerName,
                    checkIn.SignaturePath,
                    checkIn.SignedAt,
                    checkIn.SignedBefore);
            },
            cancellationToken);
    }
}

/// <summary>Everything on the check-in receipt.</summary>
public sealed record CheckInFacts(
    Letterhead Letterhead,
    string JobReference,
    string JobTitle,
    DateTimeOffset OpenedAt,
    string ClientName,
    string ClientPhone,
    string ClientEmail,
    string Vehicle,
    string Plate,
    string Vin,
    string Colour,
    BodyStyle BodyStyle,
    double? OdometerKilometers,
    int? KeyCount,
    double? BatteryVolts,
    int? EnergyPercent,
    bool NoWarningLights,
    IReadOnlyList<string> WarningLights,
    string Belongings,
    string Notes,
    string Wish,
    IReadOnlyList<CheckInMark> Marks,
    IReadOnlyList<CheckInFunction> Functions,
    IReadOnlyList<CheckInPhoto> Photos,
    string Conditions,
    string SignerName,
    string SignaturePath,
    DateTimeOffset? SignedAt,
    string SignedBefore);

public sealed record CheckInMark(int Number, ConditionKind Kind, double X, double Y, string Area, string Note);

public sealed record CheckInFunction(string Group, string Name, FunctionResult Result, string Note);

/// <param name="MarkNumber">The condition mark it shows; null for the car as a whole.</param>
public sealed record CheckInPhoto(Guid Id, string Hash, string Caption, int? MarkNumber);
