using System.Globalization;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>A line the parts list shall have.</summary>
/// <param name="Is">Whether a line of the list is this one.</param>
/// <param name="Fits">Whether such a line is still the same thing, so that what somebody typed on it stays.</param>
/// <param name="AskedBy">What asks for it, as a sentence begins: "the plan".</param>
internal sealed record PlannedLine(JobPartDetails Wanted, Guid? CatalogueId, Func<JobPart, bool> Is, Func<JobPart, bool> Fits, string AskedBy);

/// <summary>What bringing planned lines up to date did.</summary>
/// <param name="Kept">Lines ordered or further that no longer match, told one by one.</param>
internal sealed record PlannedLinesResult(int Added, int Updated, int Removed, List<string> Kept);

/// <summary>Brings lines of the parts list that a plan wrote up to date. Lines that are ordered or further are left alone and told.</summary>
internal static class PlannedLines
{
    /// <param name="own">The lines the plan wrote before; those not wanted any more go.</param>
    /// <param name="gone">What is told about one on its way that nothing asks for: "the plan no longer asks for it".</param>
    public static async Task<Outcome<PlannedLinesResult>> BringAsync(
        ShopDbContext db, Guid jobId, List<JobPart> own, IEnumerable<PlannedLine> lines, string gone, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var (added, updated, removed) = (0, 0, 0);
        List<string> kept = [];
        foreach (var planned in lines)
        {
            var wanted = planned.Wanted;
            if (own.Find(part => planned.Is(part)) is not { } line)
            {
                var outcome = await PartsList.AddAsync(db, jobId, wanted, planned.CatalogueId, cancellationToken);
                if (!outcome.Succeeded)
                {
                    return outcome.As<PlannedLinesResult>();
                }

                added++;
                continue;
            }

            own.Remove(line);
            var fits = planned.Fits(line);
            if (line.State != PartState.Needed)
            {
                if (!fits || line.Quantity < wanted.Quantity)
                {
                    kept.Add($"{On(line)}; {planned.AskedBy} asks for {wanted.Name}, {wanted.Quantity.ToString(CultureInfo.CurrentCulture)} {wanted.Unit.Symbol()}.");
                }
            }
            else if (!fits)
            {
                line.Replace(wanted, planned.CatalogueId);
                updated++;
            }
            else if (line.Quantity != wanted.Quantity)
            {
                // Still the same thing: price, supplier and notes somebody typed stay.
                var details = JobPartDetails.Of(line);
                details.Quantity = wanted.Quantity;
                line.Apply(details);
                updated++;
            }
        }

        foreach (var line in own)
        {
            if (line.State == PartState.Needed)
            {
                line.Remove(now);
                removed++;
            }
            else
            {
                kept.Add($"{On(line)}; {gone}.");
            }
        }

        return new PlannedLinesResult(added, updated, removed, kept);
    }

    private static string On(JobPart line) => $"{line.Name} is {line.State.Text().ToLowerInvariant()}";
}
