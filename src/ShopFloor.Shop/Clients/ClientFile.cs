using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Clients;

/// <summary>Who the shop's clients are, what they drive and what was done for them.</summary>
public sealed class ClientFile(ShopStore store)
{
    /// <summary>One page of clients by name, those after <paramref name="after"/>.</summary>
    public Task<List<ClientRow>> ListAsync(Actor actor, string query, ClientRow? after, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        return store.ReadAsync(
            db =>
            {
                var clients = db.Clients.AsQueryable();
                foreach (var word in SearchText.Words(query))
                {
                    clients = clients.Where(client => client.SearchText.Contains(word));
                }

                if (after is not null)
                {
                    clients = clients.Where(client => client.Name.CompareTo(after.Name) > 0 || (client.Name == after.Name && client.Id > after.Id));
                }

                return clients
                    .OrderBy(client => client.Name)
                    .ThenBy(client => client.Id)
                    .Take(Limits.Page)
                    .Select(client => new ClientRow(
                        client.Id,
                        client.Name,
                        client.Phone,
                        client.Email,
                        db.Vehicles.Count(vehicle => vehicle.ClientId == client.Id),
                        db.Jobs.Count(job => job.ClientId == client.Id)))
                    .ToListAsync(cancellationToken);
            },
            cancellationToken);
    }

    public Task<ClientCard?> FindAsync(Actor actor, Guid clientId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.EditJobCards);
        return store.ReadAsync(
            async db =>
            {
                var client = await db.Clients.SingleOrDefaultAsync(found => found.Id == clientId, cancellationToken);
                if (client is null)
                {
                    return null;
                }

                var vehicles = await db.Vehicles
                    .Where(vehicle => vehicle.ClientId == clientId)
                    .OrderBy(vehicle => vehicle.Plate)
                    .Select(vehicle => new ClientVehicle(vehicle.Id, vehicle.Make + " " + vehicle.Model, vehicle.Plate))
                    .ToListAsync(cancellationToken);
                var jobs = await db.Jobs
                    .Where(job => job.ClientId == clientId)
                    .OrderByDescending(job => job.Number)
                    .Select(job => new ClientJob(job.Id, job.Number, job.Title, job.State, job.OpenedAt))
                    .ToListAsync(cancellationToken);
                return new ClientCard(client.Id, client.Version, ClientDetails.Of(client), vehicles, jobs);
            },
            cancellationToken);
    }
}

public sealed record ClientRow(Guid Id, string Name, string Phone, string Email, int Vehicles, int Jobs);

public sealed record ClientVehicle(Guid Id, string Title, string Plate);

public sealed record ClientJob(Guid Id, int Number, string Title, JobState State, DateTimeOffset OpenedAt)
{
    public string Reference => Job.ReferenceOf(Number);
}

public sealed record ClientCard(Guid Id, Guid Version, ClientDetails Details, IReadOnlyList<ClientVehicle> Vehicles, IReadOnlyList<ClientJob> Jobs);
