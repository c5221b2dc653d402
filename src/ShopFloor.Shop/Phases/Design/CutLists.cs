using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Cut lists of a job. Adding, changing and taking away is <see cref="JobDesigns"/>.</summary>
public sealed class CutLists(ShopStore store, JobDesigns designs, CutLayouts layouts)
{
    public async Task<CutListPage> GetAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        var removed = await designs.RemovedAsync<CutListForm>(actor, jobId, cancellationToken);
        return await store.ReadAsync(
            async db => new CutListPage(
                jobId,
                (await PanelShelf.ReadAsync(db, jobId, PartKind.Material, cancellationToken)).Materials(),
                await JobDesigns.ListAsync<CutListForm>(db, jobId, cancellationToken),
                removed)
            {
                Offcuts = await OffcutRack.RowsAsync(db, cancellationToken),
            },
            cancellationToken);
    }

    /// <summary>Searches for the layout with the fewest sheets; ends with an exception when it is cancelled.</summary>
    /// <param name="basis">Without problems.</param>
    /// <param name="text">Units and culture of the reader.</param>
    public async Task<CutListView> LayOutAsync(Actor actor, CutListInput basis, UnitText text, IProgress<CutProgress>? progress, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        ArgumentNullException.ThrowIfNull(basis);
        return CutListMapping.ViewOf(basis, await layouts.FindAsync(basis.Input, text, progress, cancellationToken));
    }

    /// <summary>Price of the whole sheets, by material.</summary>
    public Task<IReadOnlyList<CutAmount>> PricesAsync(Actor actor, Guid jobId, CutListView view, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeePrices);
        return AmountsAsync(jobId, view, facts => facts.UnitPrice, cancellationToken);
    }

    /// <summary>Our cost of the whole sheets, by material.</summary>
    public Task<IReadOnlyList<CutAmount>> CostsAsync(Actor actor, Guid jobId, CutListView view, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeCosts);
        return AmountsAsync(jobId, view, facts => facts.UnitCost, cancellationToken);
    }

    /// <summary>Puts the sheets on the parts list, or brings the lines it put there before up to date.</summary>
    public async Task<Outcome<MadeLinesResult>> PutOnListAsync(Actor actor, Guid jobId, Guid designId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        if (await designs.FindAsync<CutListForm>(actor, designId, cancellationToken) is not { } design)
        {
            return new Problem("", "That cut list is no longer there; load the list again.");
        }

        // The search may take a while; it is done before the write, and the write looks whether the list is still the same.
        var page = await GetAsync(actor, jobId, cancellationToken);
        var basis = CutListMapping.Map(design.Form, page.Materials, UnitText.Invariant, page.KeptFor(designId));
        if (basis.Problems.Count > 0)
        {
            return basis.Problems.ToList();
        }

        var view = await LayOutAsync(actor, basis, UnitText.Invariant, null, cancellationToken);
        if (!view.IsWhole)
        {
            return new Problem("", "Some parts found no sheet; add sheets to the stock first.");
        }

        return await store.WriteAsync<MadeLinesResult>(
            actor,
            async db =>
            {
                if (await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                if (await db.JobDesigns.AsNoTracking().FirstOrDefaultAsync(found => found.Id == designId, cancellationToken) is not { } now || now.Version != design.Version || now.JobId != jobId)
                {
                    return new Problem("", "The cut list was changed meanwhile; look at it again.");
                }

                var shelf = await PanelShelf.ReadAsync(db, jobId, PartKind.Material, cancellationToken);
                var lines = view.Materials.Select(material => LineOf(material, shelf, design)).ToList();
                return await MadeLines.BringAsync(db, jobId, MadeLines.RunOf("cut", designId), $"the cut list '{design.Name}'", lines, store.Time.GetUtcNow(), cancellationToken);
            },
            cancellationToken);
    }

    /// <summary>The cut lists with the heads of a paper; null when there is no such job. Texts are in the shop's units.</summary>
    public async Task<CutListSheet?> SheetAsync(Actor actor, Guid jobId, IFormatProvider culture, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        var head = await store.ReadAsync(db => DesignPaper.HeadAsync(db, jobId, cancellationToken), cancellationToken);
        if (head is null)
        {
            return null;
        }

        var text = new UnitText(head.Letterhead.Units, culture);
        var page = await GetAsync(actor, jobId, cancellationToken);
        var lists = new List<(string, CutListForm, CutListInput, CutListView?)>();
        foreach (var design in page.Designs)
        {
            var basis = CutListMapping.Map(design.Form, page.Materials, text);
            lists.Add((design.Name, design.Form, basis, basis.Problems.Count > 0 ? null : await LayOutAsync(actor, basis, text, null, cancellationToken)));
        }

        return new CutListSheet(head.Letterhead, head.JobReference, head.JobTitle, head.Vehicle, lists);
    }

    private static MadeLine LineOf(CutMaterial material, PanelShelf shelf, LoadedDesign<CutListForm> design)
    {
        var source = shelf.Find(material.Material.Id);
        var bought = material.Nesting.WholeSheets > 0;
        var unit = source?.Facts.Unit ?? PartUnit.SquareMeter;
        var quantity = unit == PartUnit.SquareMeter ? Math.Ceiling((decimal)(bought ? material.SheetSquareMeters : material.Nesting.PartsSquareMeters) * 1000) / 1000 : Math.Max(1, material.Nesting.WholeSheets);
        var fresh = new JobPartDetails { Zone = design.Form.Zone, Place = design.Name.Length <= Limits.Line ? design.Name : design.Name[..Limits.Line], Notes = "From the cut list: whole sheets are bought, the mass is that of the parts cut from them." };
        return new MadeLine(material.Material.Id.ToString("N"), source, fresh, Math.Max(0.001m, quantity), material.PartsKilograms, !bought);
    }

    // By area where the material is sold by area, else by the sheet.
    private Task<IReadOnlyList<CutAmount>> AmountsAsync(Guid jobId, CutListView view, Func<PartFacts, decimal?> unit, CancellationToken cancellationToken) => store.ReadAsync<IReadOnlyList<CutAmount>>(
        async db =>
        {
            var shelf = await PanelShelf.ReadAsync(db, jobId, PartKind.Material, cancellationToken);
            return
            [
                .. from material in view.Materials
                   let facts = shelf.Find(material.Material.Id)?.Facts
                   let count = facts?.Unit == PartUnit.SquareMeter ? (decimal)material.SheetSquareMeters : material.Nesting.WholeSheets
                   select new CutAmount(material.Material.Id, material.Nesting.WholeSheets == 0 ? 0 : facts is null ? null : unit(facts) * count),
            ];
        },
        cancellationToken);
}
