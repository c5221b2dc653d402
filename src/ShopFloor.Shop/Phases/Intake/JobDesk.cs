using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Intake;

/// <summary>What the front desk does with job cards: opens them, edits them, finds the client or the car that is already known.</summary>
public sealed class JobDesk(ShopStore store)
{
    public async Task<Outcome<Guid>> OpenAsync(Actor actor, OpenJob command, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        var problems = command.Problems(store.Time.GetUtcNow().Year);
        if (problems.Count > 0)
        {
            return problems;
        }

        return await store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                var now = store.Time.GetUtcNow();
                var client = command.ClientId is { } clientId
                    ? await db.Clients.FirstOrDefaultAsync(known => known.Id == clientId, cancellationToken)
                    : db.Clients.Add(new Client(command.NewClient, now)).Entity;
                if (client is null)
                {
                    return new Problem(nameof(OpenJob.ClientId), "That client is no longer on file; choose or add another.");
                }

                var vehicle = command.VehicleId is { } vehicleId
                    ? await db.Vehicles.FirstOrDefaultAsync(known => known.Id == vehicleId, cancellationToken)
                    : db.Vehicles.Add(new Vehicle(client.Id, command.NewVehicle, now)).Entity;
                if (vehicle is null || vehicle.ClientId != client.Id)
                {
                    return new Problem(nameof(OpenJob.VehicleId), $"That vehicle does not belong to {client.Name}; choose or add another.");
                }

                var number = 1 + (await db.Jobs.MaxAsync(job => (int?)job.Number, cancellationToken) ?? 0);
                var opened = new Job(number, client.Id, vehicle.Id, command.Card, now);
                opened.RefreshSearchText(client, vehicle);
                db.Jobs.Add(opened);
                db.CheckIns.Add(new CheckIn(opened.Id));
                foreach (var (group, name) in FactoryFunctionList.Usual)
                {
                    db.FactoryFunctions.Add(new FactoryFunction(opened.Id, group, name, db.FactoryFunctions.Local.Count));
                }

                return opened.Id;
            },
            cancellationToken);
    }

    public async Task<Outcome<Guid>> EditCardAsync(Actor actor, Guid jobId, Guid expectedVersion, JobCardDetails card, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        var problems = card.Problems();
        if (problems.Count > 0)
        {
            return problems;
        }

        return await store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                var job = await db.Jobs.Include(found => found.Client).Include(found => found.Vehicle).SingleAsync(found => found.Id == jobId, cancellationToken);
                if (await db.ConflictAsync(job, expectedVersion, card, JobCardDetails.Of(job), cancellationToken) is { } conflict)
                {
                    return conflict;
                }

                job.ApplyCard(card);
                job.RefreshSearchText(job.Client!, job.Vehicle!); // both are included above
                return job.Id;
            },
            cancellationToken);
    }

    public async Task<Outcome<Guid>> EditClientAsync(Actor actor, Guid clientId, Guid expectedVersion, ClientDetails details, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        var problems = details.Problems();
        if (problems.Count > 0)
        {
            return problems;
        }

        return await store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                var client = await db.Clients.SingleAsync(found => found.Id == clientId, cancellationToken);
                if (await db.ConflictAsync(client, expectedVersion, details, ClientDetails.Of(client), cancellationToken) is { } conflict)
                {
                    return conflict;
                }

                client.Apply(details);
                await RefreshJobsAsync(db, job => job.ClientId == clientId, cancellationToken);
                return client.Id;
            },
            cancellationToken);
    }

    public async Task<Outcome<Guid>> EditVehicleAsync(Actor actor, Guid vehicleId, Guid expectedVersion, VehicleDetails details, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        var problems = details.Problems(store.Time.GetUtcNow().Year);
        if (problems.Count > 0)
        {
            return problems;
        }

        return await store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                var vehicle = await db.Vehicles.SingleAsync(found => found.Id == vehicleId, cancellationToken);
                if (await db.ConflictAsync(vehicle, expectedVersion, details, VehicleDetails.Of(vehicle), cancellationToken) is { } conflict)
                {
                    return conflict;
                }

                vehicle.Apply(details);
                await RefreshJobsAsync(db, job => job.VehicleId == vehicleId, cancellationToken);
                return vehicle.Id;
            },
            cancellationToken);
    }

    public Task<JobCardView?> CardAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                var job = await db.Jobs.Include(found => found.Client).Include(found => found.Vehicle).SingleOrDefaultAsync(found => found.Id == jobId, cancellationToken);
                return job is null
                    ? null
                    : new JobCardView(
                        new Versioned<JobCardDetails>(job.Id, job.Version, JobCardDetails.Of(job)),
                        new Versioned<ClientDetails>(job.ClientId, job.Client!.Version, ClientDetails.Of(job.Client)), // both are included above
                        new Versioned<VehicleDetails>(job.VehicleId, job.Vehicle!.Version, VehicleDetails.Of(job.Vehicle)));
            },
            cancellationToken);
    }

    public Task<List<KnownVehicle>> VehiclesOfAsync(Actor actor, Guid clientId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        return store.ReadAsync(
            db => db.Vehicles
                .Where(vehicle => vehicle.ClientId == clientId)
                .OrderBy(vehicle => vehicle.Plate)
                .Select(vehicle => new KnownVehicle(vehicle.Id, vehicle.Make + " " + vehicle.Model, vehicle.Plate))
                .ToListAsync(cancellationToken),
            cancellationToken);
    }

    /// <summary>Clients that may be the one being typed: same phone, same e-mail, or a name that contains the words.</summary>
    public Task<List<SimilarClient>> SimilarClientsAsync(Actor actor, ClientDetails typed, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        var words = SearchText.Words(typed.Name);
        var phone = Client.DigitsOf(typed.Phone);
        var email = typed.Email.Trim();
        return store.ReadAsync(
            db =>
            {
                var byName = db.Clients.Where(client => words.Count > 0);
                foreach (var word in words)
                {
                    byName = byName.Where(client => client.SearchText.Contains(word));
                }

                var byPhone = db.Clients.Where(client => phone.Length >= 6 && client.SearchText.Contains(phone));
                var byEmail = db.Clients.Where(client => email.Length >= 5 && client.Email == email);
                return byName.Union(byPhone).Union(byEmail)
                    .OrderBy(client => client.Name)
                    .Take(5)
                    .Select(client => new SimilarClient(client.Id, client.Name, client.Phone, client.Email))
                    .ToListAsync(cancellationToken);
            },
            cancellationToken);
    }

    /// <summary>Vehicles that may be the one being typed: same identification number or same plate.</summary>
    public Task<List<SimilarVehicle>> SimilarVehiclesAsync(Actor actor, VehicleDetails typed, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        var vin = VehicleDetails.NormalisedVin(typed.Vin);
        var plate = typed.Plate.Trim().ToUpperInvariant();
        return store.ReadAsync(
            db => db.Vehicles
                .Where(vehicle => (vin.Length >= 5 && vehicle.Vin == vin) || (plate.Length >= 2 && vehicle.Plate == plate))
                .OrderBy(vehicle => vehicle.Plate)
                .Take(5)
                .Select(vehicle => new SimilarVehicle(
                    vehicle.Id, vehicle.ClientId, vehicle.Client!.Name, vehicle.Make + " " + vehicle.Model, vehicle.Plate, vehicle.Vin)) // the foreign key is required
                .ToListAsync(cancellationToken),
            cancellationToken);
    }

    private static async Task RefreshJobsAsync(ShopDbContext db, System.Linq.Expressions.Expression<Func<Job, bool>> which, CancellationToken cancellationToken)
    {
        foreach (var job in await db.Jobs.Include(found => found.Client).Include(found => found.Vehicle).Where(which).ToListAsync(cancellationToken))
        {
            job.RefreshSearchText(job.Client!, job.Vehicle!); // both are included above
        }
    }
}

/// <summary>Opens a job for a client and vehicle that are known (by id) or new (by details).</summary>
public sealed class OpenJob
{
    public Guid? ClientId { get; set; }

    public ClientDetails NewClient { get; set; } = new();

    public Guid? VehicleId { get; set; }

    public VehicleDetails NewVehicle { get; set; } = new();

    public JobCardDetails Card { get; set; } = new();

    public List<Problem> Problems(int thisYear) =>
    [
        .. ClientId is null ? NewClient.Problems().Select(problem => problem with { Field = $"{nameof(NewClient)}.{problem.Field}" }) : [],
        .. VehicleId is null ? NewVehicle.Problems(thisYear).Select(problem => problem with { Field = $"{nameof(NewVehicle)}.{problem.Field}" }) : [],
        .. Card.Problems().Select(problem => problem with { Field = $"{nameof(Card)}.{problem.Field}" }),
    ];
}

public sealed record SimilarClient(Guid Id, string Name, string Phone, string Email);

public sealed record SimilarVehicle(Guid Id, Guid ClientId, string ClientName, string Title, string Plate, string Vin);

public sealed record KnownVehicle(Guid Id, string Title, string Plate);

/// <summary>A filled-in form with the version it was read at, to be passed back when saving.</summary>
public sealed record Versioned<TDetails>(Guid Id, Guid Version, TDetails Details);

public sealed record JobCardView(Versioned<JobCardDetails> Job, Versioned<ClientDetails> Client, Versioned<VehicleDetails> Vehicle);
