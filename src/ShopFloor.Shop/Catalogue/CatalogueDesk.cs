using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Catalogue;

/// <summary>The parts the shop uses again and again: finding, adding, editing, taking out and bringing back.</summary>
public sealed class CatalogueDesk(ShopStore store)
{
    /// <summary>Finds parts by words of name, supplier, number and kind, in the order of their names.</summary>
    /// <param name="after">Where the page before ended, or null for the first.</param>
    public Task<CatalogueRows> PageAsync(
        Actor actor, string? query, PartKind? kind, CatalogueCursor? after, int size, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        ArgumentOutOfRangeException.ThrowIfLessThan(size, 1);
        size = Math.Min(size, Limits.Page);
        return store.ReadAsync(
            async db =>
            {
                var parts = Found(db, query, kind);
                if (after is not null)
                {
#pragma warning disable CA1309 // the database compares, byte by byte
                    parts = parts.Where(part =>
                        string.Compare(part.SearchText, after.SearchText) > 0
                        || (part.SearchText == after.SearchText && part.Id > after.Id));
#pragma warning restore CA1309
                }

                var page = await parts.OrderBy(part => part.SearchText).ThenBy(part => part.Id).Take(size + 1).ToListAsync(cancellationToken);
                var shown = page.Take(size).ToList();
                return new CatalogueRows(
                    shown.ConvertAll(part => new CatalogueRow(
                        part.Id, part.Kind, part.Name, part.Supplier, part.PartNumber, part.Unit, part.UnitMassKilograms, part.Data)),
                    page.Count > size ? new CatalogueCursor(shown[^1].SearchText, shown[^1].Id) : null);
            },
            cancellationToken);
    }

    public Task<int> CountAsync(Actor actor, string? query, PartKind? kind, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => Found(db, query, kind).CountAsync(cancellationToken), cancellationToken);
    }

    public Task<List<CatalogueMoneyRow>> PricesAsync(Actor actor, IReadOnlyCollection<Guid> partIds, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeePrices);
        return store.ReadAsync(
            db => db.CatalogueParts.Where(part => partIds.Contains(part.Id))
                .Select(part => new CatalogueMoneyRow(part.Id, part.UnitPrice)).ToListAsync(cancellationToken),
            cancellationToken);
    }

    public Task<List<CatalogueCostRow>> CostsAsync(Actor actor, IReadOnlyCollection<Guid> partIds, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeCosts);
        return store.ReadAsync(
            db => db.CatalogueParts.Where(part => partIds.Contains(part.Id))
                .Select(part => new CatalogueCostRow(part.Id, part.UnitCost)).ToListAsync(cancellationToken),
            cancellationToken);
    }

    public Task<CatalogueForm?> ForEditAsync(Actor actor, Guid partId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.ReadAsync<CatalogueForm?>(
            async db => await db.CatalogueParts.SingleOrDefaultAsync(part => part.Id == partId, cancellationToken) is { } part
                ? new CatalogueForm(part.Id, part.Version, PartFacts.CopyOf(part).Veil(actor))
                : null,
            cancellationToken);
    }

    public Task<Outcome<Guid>> AddAsync(Actor actor, PartFacts facts, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        facts.Veil(actor);
        return store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                var problems = facts.Problems();
                return problems.Count > 0 ? problems
                    : await TwinAsync(db, facts, null, cancellationToken) is { } twin ? twin
                    : db.CatalogueParts.Add(new CataloguePart(facts)).Entity.Id;
            },
            cancellationToken);
    }

    public Task<Outcome<Guid>> EditAsync(Actor actor, Guid partId, Guid expectedVersion, PartFacts facts, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                var part = await db.CatalogueParts.SingleOrDefaultAsync(found => found.Id == partId, cancellationToken);
                if (part is null)
                {
                    return new Problem("", "That part was taken out of the catalogue.");
                }

                facts.KeepMoneyOf(part, actor);
                var problems = facts.Problems();
                if (problems.Count > 0)
                {
                    return problems;
                }

                if (await TwinAsync(db, facts, partId, cancellationToken) is { } twin)
                {
                    return twin;
                }

                if (await db.ConflictAsync(part, expectedVersion, facts, PartFacts.CopyOf(part), cancellationToken) is { } conflict)
                {
                    return conflict;
                }

                part.Apply(facts);
                return part.Id;
            },
            cancellationToken);
    }

    /// <summary>Takes a part out of the catalogue; jobs that use it keep theirs.</summary>
    public Task<Outcome<Done>> RemoveAsync(Actor actor, Guid partId, CancellationToken cancellationToken) =>
        ChangeAsync(actor, partId, part => part.Remove(store.Time.GetUtcNow()), cancellationToken);

    public Task<Outcome<Done>> BringBackAsync(Actor actor, Guid partId, CancellationToken cancellationToken) =>
        ChangeAsync(actor, partId, part => part.BringBack(), cancellationToken);

    private static IQueryable<CataloguePart> Found(ShopDbContext db, string? query, PartKind? kind)
    {
        var parts = db.CatalogueParts.Where(part => kind == null || part.Kind == kind);
        foreach (var word in SearchText.Words(query))
        {
            parts = parts.Where(part => part.SearchText.Contains(word));
        }

        return parts;
    }

    /// <summary>The same number of the same supplier is one part; files are brought in by it.</summary>
    private static async Task<Problem?> TwinAsync(ShopDbContext db, PartFacts facts, Guid? except, CancellationToken cancellationToken)
    {
        var (supplier, number) = (facts.Supplier.Trim(), facts.PartNumber.Trim());
        if (supplier.Length == 0 || number.Length == 0)
        {
            return null;
        }

        var sameNumber = await db.CatalogueParts.Where(part => part.PartNumber == number && part.Id != except).ToListAsync(cancellationToken);
        return sameNumber.Find(part => string.Equals(part.Supplier, supplier, StringComparison.OrdinalIgnoreCase)) is { } twin
            ? new Problem(nameof(PartFacts.PartNumber), $"{supplier} {number} is in the catalogue already: {twin.Name}.")
            : null;
    }

    private Task<Outcome<Done>> ChangeAsync(Actor actor, Guid partId, Action<CataloguePart> change, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.WriteAsync<Done>(
            actor,
            async db =>
            {
                var part = await db.CatalogueParts.IgnoreQueryFilters().SingleOrDefaultAsync(found => found.Id == partId, cancellationToken);
                if (part is null)
                {
                    return new Problem("", "That part is no longer on file.");
                }

                change(part);
                return Done.Value;
            },
            cancellationToken);
    }
}
