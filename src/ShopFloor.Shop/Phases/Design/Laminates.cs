using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Fabrication.Laminates;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>The composite parts of a job.</summary>
public sealed record LaminatePage(Guid JobId, IReadOnlyList<LoadedDesign<LaminateForm>> Designs, IReadOnlyList<LoadedDesign<LaminateForm>> Removed);

/// <summary>A composite part worked out, or why it is not.</summary>
public sealed record LaminateView(LaminateResult? Result, IReadOnlyList<InputProblem> Problems)
{
    public static LaminateView Of(LaminateForm form, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(form);
        var input = form.Input();
        var problems = input.Validate(text);
        return problems.Count > 0 ? new LaminateView(null, problems) : new LaminateView(Laminate.Compute(input, text), []);
    }
}

/// <summary>The composite parts of a job as a paper of the shop.</summary>
public sealed record LaminateSheet(Letterhead Letterhead, string JobReference, string JobTitle, string Vehicle, IReadOnlyList<(string Name, LaminateForm Form, LaminateView View)> Parts);

/// <summary>Composite parts and their finish. Adding, changing and taking away is <see cref="JobDesigns"/>.</summary>
public sealed class Laminates(ShopStore store, JobDesigns designs)
{
    public async Task<LaminatePage> GetAsync(Actor actor, Guid jobId, CancellationToken cancellationToken) => new(
        jobId,
        await designs.ListAsync<LaminateForm>(actor, jobId, cancellationToken),
        await designs.RemovedAsync<LaminateForm>(actor, jobId, cancellationToken));

    /// <summary>Puts what a part takes on the parts list, or brings the lines it put there before up to date.</summary>
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

                if ((await JobDesigns.ListAsync<LaminateForm>(db, jobId, cancellationToken)).Find(each => each.Id == designId) is not { } design)
                {
                    return new Problem("", "That composite part is no longer there; load the list again.");
                }

                var view = LaminateView.Of(design.Form, UnitText.Invariant);
                if (view.Result is not { } result)
                {
                    return view.Problems.Select(problem => new Problem(problem.Field, problem.Message)).ToList();
                }

                var shelf = await PanelShelf.ReadAsync(db, jobId, PartKind.Material, cancellationToken);
                return await MadeLines.BringAsync(db, jobId, MadeLines.RunOf("laminate", designId), $"the composite part '{design.Name}'", Lines(result, shelf, design), store.Time.GetUtcNow(), cancellationToken);
            },
            cancellationToken);
    }

    /// <summary>The composite parts with the heads of a paper; null when there is no such job. Texts are in the shop's units.</summary>
    public Task<LaminateSheet?> SheetAsync(Actor actor, Guid jobId, IFormatProvider culture, CancellationToken cancellationToken)
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
                var found = await JobDesigns.ListAsync<LaminateForm>(db, jobId, cancellationToken);
                return new LaminateSheet(head.Letterhead, head.JobReference, head.JobTitle, head.Vehicle, [.. found.Select(design => (design.Name, design.Form, LaminateView.Of(design.Form, text)))]);
            },
            cancellationToken);
    }

    // A material of the catalogue with the same name and unit gives supplier and price. Rows of one name become one line.
    private static List<MadeLine> Lines(LaminateResult result, PanelShelf shelf, LoadedDesign<LaminateForm> design) =>
    [
        .. from row in result.Materials
           group row by (row.Name, row.Unit) into rows
           let unit = rows.Key.Unit switch { "kg" => PartUnit.Kilogram, "m" => PartUnit.Meter, _ => PartUnit.SquareMeter }
           let source = shelf.Parts.FirstOrDefault(part => part.Facts.Name == rows.Key.Name && part.Facts.Unit == unit)
           select new MadeLine(
               $"{rows.Key.Name}:{rows.Key.Unit}",
               source,
               new JobPartDetails { Kind = PartKind.Material, Data = new MaterialData(), Name = rows.Key.Name, Unit = unit, Zone = design.Form.Zone, Place = design.Name, Notes = "From the composite part: what is lost is bought too, the mass is that of what stays." },
               Math.Max(0.01m, Math.Ceiling((decimal)rows.Sum(row => row.Quantity) * 100) / 100),
               rows.Sum(row => row.StayingKilograms)),
    ];
}
