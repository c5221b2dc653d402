using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Signal.Presets;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>One source of a job as the client will use it.</summary>
/// <param name="PartId">Its line on the parts list; empty for the car's own sound.</param>
/// <param name="Name">Name of the source.</param>
/// <param name="Preset">Reckoned from the path; null while nothing is linked or a figure is refused.</param>
/// <param name="Form">What was typed about it, once for its line.</param>
/// <param name="Version">Version of the form; null while nothing was typed.</param>
/// <param name="HowToUse">How it is switched to, from its part.</param>
/// <param name="Text">What the client is told; empty while nobody wrote how it is switched to.</param>
public sealed record JobSource(Guid PartId, string Name, SourcePreset? Preset, SourcePresetForm Form, Guid? Version, string HowToUse, string Text)
{
    /// <summary>The form's id among the designs of the job; null while nothing was typed.</summary>
    public Guid? DesignId { get; init; }
}

/// <param name="Sources">One for each source, the car's own last.</param>
/// <param name="FactorySounds">Chimes and warnings found at check-in: each is tried while a source plays.</param>
public sealed record JobSourcesView(Guid JobId, IReadOnlyList<JobSource> Sources, IReadOnlyList<string> FactorySounds);

/// <summary>The sources of a job: way, formats, volume and what stays audible, one preset each.</summary>
public sealed class JobSources(ShopStore store, JobDesigns designs)
{
    /// <param name="text">Units and culture of the reader.</param>
    public Task<JobSourcesView> GetAsync(Actor actor, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db => new JobSourcesView(
                jobId,
                await ListAsync(db, jobId, text, cancellationToken),
                await db.FactoryFunctions.AsNoTracking()
                    .Where(function => function.JobId == jobId && function.Group == FactoryFunctionList.Warnings && function.Before != FunctionResult.NotFitted)
                    .OrderBy(function => function.Order).Select(function => function.Name).ToListAsync(cancellationToken)),
            cancellationToken);
    }

    /// <summary>Keeps what was typed about a source.</summary>
    /// <param name="expectedVersion">Version the form was loaded with; null when there was none.</param>
    public async Task<Outcome<Guid>> SaveAsync(Actor actor, Guid jobId, Guid? expectedVersion, SourcePresetForm form, CancellationToken cancellationToken)
    {
        actor.Demand(SourcePresetForm.Needed);
        var (name, known) = await store.ReadAsync(
            async db => (
                form.SourcePartId == Guid.Empty ? CarName : await db.JobParts.Where(part => part.JobId == jobId && part.Id == form.SourcePartId && part.Kind == PartKind.Source).Select(part => part.Name).SingleOrDefaultAsync(cancellationToken),
                (await JobDesigns.ListAsync<SourcePresetForm>(db, jobId, cancellationToken)).LastOrDefault(design => design.Form.SourcePartId == form.SourcePartId)),
            cancellationToken);
        if (name is null)
        {
            return new Problem(nameof(SourcePresetForm.SourcePartId), "That source is no longer on the parts list.");
        }

        return known is null
            ? await designs.AddAsync(actor, jobId, name, form, cancellationToken)
            : await designs.EditAsync(actor, known.Id, expectedVersion ?? Guid.Empty, name, form, cancellationToken);
    }

    /// <summary>The sources inside a reading of the caller.</summary>
    internal static async Task<IReadOnlyList<JobSource>> ListAsync(ShopDbContext db, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        var parts = await PartsList.InOrder(db, jobId).AsNoTracking().Where(part => part.Direction == PartDirection.Installed && part.Kind == PartKind.Source).ToListAsync(cancellationToken);
        var view = await SignalPaths.ViewAsync(db, jobId, text, cancellationToken);
        var forms = await JobDesigns.ListAsync<SourcePresetForm>(db, jobId, cancellationToken);
        var presets = view is { Input: { } input, Result: { } result } ? SourcePresets.Of(input, result.Channels).ToDictionary(preset => preset.SourceId) : [];
        List<JobSource> found = [];
        foreach (var part in parts)
        {
            // Several alike on one line are used alike.
            found.Add(Of(part.Id, part.Name, presets.GetValueOrDefault(SignalDevices.IdOf(part, 0)), (part.Data as SourceData)?.HowToUse ?? ""));
        }

        if (presets.GetValueOrDefault(SignalDevices.CarId) is { } car)
        {
            found.Add(Of(Guid.Empty, CarName, car, "Use the car's radio as before."));
        }

        return found;

        JobSource Of(Guid partId, string name, SourcePreset? preset, string howToUse)
        {
            var design = forms.LastOrDefault(form => form.Form.SourcePartId == partId);
            var form = design?.Form ?? new SourcePresetForm { SourcePartId = partId };
            return new JobSource(partId, name, preset, form, design?.Version, howToUse, SourceText.Write(howToUse, form, preset)) { DesignId = design?.Id };
        }
    }

    private const string CarName = "The car's own sound";
}
