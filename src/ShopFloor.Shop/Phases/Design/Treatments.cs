using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What panels of a car get against ringing and noise. Adding, changing and taking away is <see cref="JobDesigns"/>.</summary>
public sealed class Treatments(ShopStore store, JobDesigns designs)
{
    public async Task<TreatmentPage> GetAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        var removed = await designs.RemovedAsync<TreatmentForm>(actor, jobId, cancellationToken);
        return await store.ReadAsync(
            async db => new TreatmentPage(
                jobId,
                Products(await PanelShelf.ReadAsync(db, jobId, PartKind.Treatment, cancellationToken)),
                await JobDesigns.ListAsync<TreatmentForm>(db, jobId, cancellationToken),
                removed),
            cancellationToken);
    }

    /// <summary>Puts what the panels get on the parts list, or brings the lines it put there before up to date.</summary>
    public Task<Outcome<MadeLinesResult>> PutOnListAsync(Actor actor, Guid jobId, Guid designId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.WriteAsync<MadeLinesResult>(
            actor,
            async db =>
            {
                if (await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                if ((await JobDesigns.ListAsync<TreatmentForm>(db, jobId, cancellationToken)).Find(each => each.Id == designId) is not { } design)
                {
                    return new Problem("", "That treatment is no longer there; load the list again.");
                }

                var shelf = await PanelShelf.ReadAsync(db, jobId, PartKind.Treatment, cancellationToken);
                var view = TreatmentView.Of(design.Form, Products(shelf), UnitText.Invariant);
                if (view.Result is null)
                {
                    return view.Problems.ToList();
                }

                var fresh = new JobPartDetails { Zone = design.Form.Zone, Place = design.Name, Notes = "From the treatment: what is lost by cutting is bought too, the mass is that on the panels." };
                var lines = view.Rows.Select(row => new MadeLine(row.Product.Id.ToString("N"), shelf.Find(row.Product.Id), fresh, row.Quantity, row.Kilograms)).ToList();
                return await MadeLines.BringAsync(db, jobId, MadeLines.RunOf("treatment", designId), $"the treatment '{design.Name}'", lines, store.Time.GetUtcNow(), cancellationToken);
            },
            cancellationToken);
    }

    /// <summary>The treatments and rattles with the heads of a paper; null when there is no such job. Texts are in the shop's units.</summary>
    public Task<TreatmentSheet?> SheetAsync(Actor actor, Guid jobId, IFormatProvider culture, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                if (await DesignPaper.HeadAsync(db, jobId, cancellationToken) is not { } head)
                {
                    return null;
                }

                var text = new UnitText(head.Letterhead.Units, culture);
                var products = Products(await PanelShelf.ReadAsync(db, jobId, PartKind.Treatment, cancellationToken));
                var found = await JobDesigns.ListAsync<TreatmentForm>(db, jobId, cancellationToken);
                var rattles = await JobDesigns.ListAsync<RattleForm>(db, jobId, cancellationToken);
                return new TreatmentSheet(
                    head.Letterhead, head.JobReference, head.JobTitle, head.Vehicle, products, [.. found.Select(design => (design.Name, design.Form, TreatmentView.Of(design.Form, products, text)))], [.. rattles.SelectMany(list => list.Form.InOrder())]);
            },
            cancellationToken);
    }

    internal static List<TreatmentProduct> Products(PanelShelf shelf)
    {
        var names = shelf.Materials().ToDictionary(material => material.Id, material => material.Name);
        return
        [
            .. from part in shelf.Parts
               let data = part.Facts.Data as TreatmentData ?? new TreatmentData()
               select new TreatmentProduct(part.Key, names[part.Key], TreatmentProduct.KindOf(data.Purpose), part.KilogramsPerSquareMeter, data.SheetLengthMillimeters / 1000, data.SheetWidthMillimeters / 1000, part.Facts.Unit),
        ];
    }
}
