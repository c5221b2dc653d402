using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What putting a design on the parts list did.</summary>
/// <param name="Kept">Lines ordered or further that no longer match, told one by one.</param>
public sealed record MadeLinesResult(int Added, int Updated, int Removed, IReadOnlyList<string> Kept)
{
    public string Words => this is { Added: 0, Updated: 0, Removed: 0 }
        ? "The parts list already has it"
        : string.Join(", ", new[] { (Added, "added"), (Updated, "changed"), (Removed, "taken off") }.Where(pair => pair.Item1 > 0).Select(pair => $"{pair.Item1} {pair.Item2}"));
}

/// <summary>A line a design asks for: what is bought, and what of it goes into the car.</summary>
/// <param name="Key">Tells the lines of one design apart.</param>
/// <param name="Source">The material of the list or the catalogue; null for one that is only in the design.</param>
/// <param name="Fresh">The line as it is written when the list does not have it yet, without money.</param>
/// <param name="Kilograms">Mass that goes into the car; null when it is not known.</param>
/// <param name="IsFree">Whether nothing is bought, as with offcuts.</param>
internal sealed record MadeLine(string Key, ShelfPart? Source, JobPartDetails Fresh, decimal Quantity, double? Kilograms, bool IsFree = false);

/// <summary>
/// Lines of the parts list that designs of making by hand write: cut lists, laminates, treatments. One line holds both facts: its quantity is
/// what is bought, so cost and price follow; its mass per unit is the mass in the car over that quantity, so the mass of the line is true.
/// </summary>
internal static class MadeLines
{
    /// <summary>Begins the run id of every such line, so that the electrical plan leaves them alone.</summary>
    public const string Prefix = "made:";

    public static string RunOf(string kind, Guid designId) => $"{Prefix}{kind}:{designId:N}:";

    /// <param name="run">Beginning of the run ids of one design.</param>
    /// <param name="asked">What asks for the lines, as a sentence begins.</param>
    public static async Task<Outcome<MadeLinesResult>> BringAsync(
        ShopDbContext db, Guid jobId, string run, string asked, IReadOnlyList<MadeLine> lines, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var own = await db.JobParts.Where(part => part.JobId == jobId && part.PlanRunId.StartsWith(run)).ToListAsync(cancellationToken);
        var planned = new List<PlannedLine>();
        foreach (var line in lines)
        {
            var id = run + line.Key;
            var there = own.Find(part => part.PlanRunId == id);
            if (there is null && line.Source?.Line is { PlanRunId: "" } typed)
            {
                // Somebody put this material on the list by hand: that line is it, or it would be bought twice.
                there = await db.JobParts.SingleAsync(part => part.Id == typed.Id, cancellationToken);
                own.Add(there);
            }

            var (wanted, catalogueId) = Wanted(line, there, id);
            planned.Add(new PlannedLine(wanted, catalogueId, part => part == there, part => Fits(part, wanted), asked));
        }

        var outcome = await PlannedLines.BringAsync(db, jobId, own, planned, $"{asked} no longer asks for it", now, cancellationToken);
        return outcome.Succeeded
            ? new MadeLinesResult(outcome.Value.Added, outcome.Value.Updated, outcome.Value.Removed, outcome.Value.Kept)
            : outcome.As<MadeLinesResult>();
    }

    // What somebody typed on the line stays: price, supplier, notes.
    private static (JobPartDetails Wanted, Guid? CatalogueId) Wanted(MadeLine line, JobPart? there, string id)
    {
        var details = there is not null ? JobPartDetails.Of(there)
            : line.Source is { } source ? JobPartDetails.FromCatalogue(source.Facts)
            : JobPartDetails.FromCatalogue(line.Fresh);
        details.Quantity = line.Quantity;
        details.UnitMassKilograms = line.Kilograms is { } mass ? Math.Round(mass / (double)line.Quantity, 6) : null;
        details.PlanRunId = id;
        details.Zone = line.Fresh.Zone.Length > 0 ? line.Fresh.Zone : details.Zone;
        details.Place = details.Place.Length > 0 ? details.Place : line.Fresh.Place;
        details.Notes = details.Notes.Length > 0 ? details.Notes : line.Fresh.Notes;
        if (line.IsFree)
        {
            details.UnitCost = 0;
        }

        return (details, there is not null ? there.CataloguePartId : line.Source?.Known?.Id);
    }

    private static bool Fits(JobPart part, JobPartDetails wanted) =>
        part.PlanRunId == wanted.PlanRunId && part.Unit == wanted.Unit && part.Name == wanted.Name && part.Zone == wanted.Zone && part.UnitCost == wanted.UnitCost
        && part.UnitMassKilograms is null == wanted.UnitMassKilograms is null && Math.Abs((part.UnitMassKilograms ?? 0) - (wanted.UnitMassKilograms ?? 0)) < 1e-9;
}
