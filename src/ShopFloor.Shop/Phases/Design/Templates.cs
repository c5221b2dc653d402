using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Fabrication.Templates;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>A loudspeaker of the job a template can be made for.</summary>
public sealed record TemplateDriver(Guid PartId, string Name, LoudspeakerData Data);

/// <summary>The templates of a job and the loudspeakers they take sizes from.</summary>
public sealed record JobTemplates(Guid JobId, IReadOnlyList<TemplateDriver> Loudspeakers, IReadOnlyList<LoadedDesign<TemplateForm>> Designs, IReadOnlyList<LoadedDesign<TemplateForm>> Removed)
{
    public LoudspeakerData? DataOf(Guid? partId) => Loudspeakers.FirstOrDefault(driver => driver.PartId == partId)?.Data;
}

/// <summary>A template worked out, or why it is not.</summary>
public sealed record TemplateView(TemplateResult? Result, IReadOnlyList<string> Problems)
{
    public static TemplateView Of(string name, TemplateForm form, LoudspeakerData? driver, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(form);
        var (input, missing) = form.InputOf(name, driver);
        if (input is null)
        {
            return new TemplateView(null, [$"Still needed: {string.Join(", ", missing)}. Type it here, or enter it with the loudspeaker."]);
        }

        var problems = input.Validate(text);
        return problems.Count > 0 ? new TemplateView(null, [.. problems.Select(problem => problem.Message)]) : new TemplateView(RingTemplate.Compute(input, text), []);
    }
}

/// <summary>The templates of a job as papers of the shop.</summary>
public sealed record TemplateSheet(Letterhead Letterhead, string JobReference, IReadOnlyList<(Guid Id, string Name, TemplateView View)> Templates);

/// <summary>Templates for drilling and cutting. Adding, changing and taking away is <see cref="JobDesigns"/>.</summary>
public sealed class Templates(ShopStore store, JobDesigns designs)
{
    public async Task<JobTemplates> GetAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        var removed = await designs.RemovedAsync<TemplateForm>(actor, jobId, cancellationToken);
        return await store.ReadAsync(db => PageAsync(db, jobId, removed, cancellationToken), cancellationToken);
    }

    /// <summary>The templates with the heads of a paper; null when there is no such job. Texts are in the shop's units.</summary>
    public async Task<TemplateSheet?> SheetAsync(Actor actor, Guid jobId, IFormatProvider culture, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return await store.ReadAsync(
            async db =>
            {
                if (await DesignPaper.HeadAsync(db, jobId, cancellationToken) is not { } head)
                {
                    return null;
                }

                var page = await PageAsync(db, jobId, [], cancellationToken);
                var text = new UnitText(head.Letterhead.Units, culture);
                return new TemplateSheet(head.Letterhead, head.JobReference, [.. page.Designs.Select(design => (design.Id, design.Name, TemplateView.Of(design.Name, design.Form, page.DataOf(design.Form.LoudspeakerPartId), text)))]);
            },
            cancellationToken);
    }

    private static async Task<JobTemplates> PageAsync(ShopDbContext db, Guid jobId, IReadOnlyList<LoadedDesign<TemplateForm>> removed, CancellationToken cancellationToken)
    {
        var parts = await PartsList.InOrder(db, jobId).AsNoTracking().Where(part => part.Kind == PartKind.Loudspeaker && part.Direction == PartDirection.Installed).ToListAsync(cancellationToken);
        return new JobTemplates(
            jobId,
            [.. parts.Where(part => part.Data is LoudspeakerData).Select(part => new TemplateDriver(part.Id, part.Name, (LoudspeakerData)part.Data))], // filtered
            await JobDesigns.ListAsync<TemplateForm>(db, jobId, cancellationToken),
            removed);
    }
}
