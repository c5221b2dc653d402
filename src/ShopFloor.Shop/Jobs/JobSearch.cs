using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Jobs;

/// <summary>Finds jobs, clients and vehicles by anything that is known of them.</summary>
public sealed class JobSearch(ShopStore store)
{
    /// <summary>Everything in which each word of the query occurs, open jobs first, then the newest; without words, all jobs.</summary>
    public Task<SearchFound> FindAsync(Actor actor, string query, int most, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        var words = SearchText.Words(query);
        return store.ReadAsync(
            async db =>
            {
                var jobs = db.Jobs.AsQueryable();
                foreach (var word in words)
                {
                    jobs = jobs.Where(job => job.SearchText.Contains(word));
                }

                var found = await jobs
                    .OrderBy(job => job.State)
                    .ThenByDescending(job => job.Number)
                    .Take(most)
                    .Select(job => new JobHit(
                        job.Id,
                        job.Number,
                        job.Title,
                        job.State,
                        job.Vehicle!.Make + " " + job.Vehicle.Model, // both foreign keys are required
                        job.Vehicle.Plate,
                        job.Client!.Name))
                    .ToListAsync(cancellationToken);

                if (words.Count == 0 || !actor.May(Permission.EditJobCards))
                {
                    return new SearchFound(found, []);
                }

                var clients = db.Clients.AsQueryable();
                foreach (var word in words)
                {
                    clients = clients.Where(client => client.SearchText.Contains(word));
                }

                var people = await clients
                    .OrderBy(client => client.Name)
                    .Take(most)
                    .Select(client => new ClientHit(client.Id, client.Name, client.Phone))
                    .ToListAsync(cancellationToken);
                return new SearchFound(found, people);
            },
            cancellationToken);
    }
}

public sealed record SearchFound(IReadOnlyList<JobHit> Jobs, IReadOnlyList<ClientHit> Clients)
{
    public bool IsEmpty => Jobs.Count == 0 && Clients.Count == 0;
}

public sealed record JobHit(Guid Id, int Number, string Title, JobState State, string Vehicle, string Plate, string ClientName)
{
    public string Reference => Job.ReferenceOf(Number);
}

public sealed record ClientHit(Guid Id, string Name, string Phone);
