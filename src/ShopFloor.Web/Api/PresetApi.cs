using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Account;

namespace ShopFloor.Web.Api;

/// <summary>Presets of a job's processor.</summary>
internal static class PresetApi
{
    public static void MapTuningPresets(this IEndpointRouteBuilder api)
    {
        var presets = api.MapGroup("/jobs/{jobId:guid}/tuning-presets").WithTags("Tuning");
        presets.MapGet("/", ListAsync).WithName("list-tuning-presets").WithSummary("Presets of the job's processor with all versions, latest first; one of them is in the car.")
            .Produces<ApiPresets>().Needs(Permission.SeeJobs);
        presets.MapPut("/", SaveAsync).WithName("put-tuning-preset")
            .WithSummary("Keeps a preset as a new version, on the steps of its processor. Without presetId it begins a new preset; else basedOn is the version it was made from, and a later one is refused.")
            .Accepts<PresetDraft>("application/json").Produces<KeptPreset>().ProducesProblem(StatusCodes.Status422UnprocessableEntity).Needs(Permission.WorkOnJobs);
    }

    private static async Task<IResult> ListAsync(HttpContext context, TuningPresets presets, Guid jobId)
    {
        var list = await presets.GetAsync(context.User.ToActor(), jobId, context.RequestAborted);
        return Results.Ok(new ApiPresets([.. list.Presets.Select(preset => new ApiPreset(preset.PresetId, preset.Name, [.. preset.Versions.Select(version => new ApiPresetVersion(version.Id, version.Form))]))], list.Profiles));
    }

    private static Task<IResult> SaveAsync(HttpContext context, TuningPresets presets, Guid jobId) =>
        ApiJson.WithBodyAsync<PresetDraft>(context, async (draft, body) =>
            (await presets.SaveAsync(context.User.ToActor(), jobId, draft, UnitText.Invariant, context.RequestAborted)).Answer(body, Results.Ok));
}

/// <param name="Presets">Presets in the order they were begun.</param>
/// <param name="Processors">Processors the shop knows.</param>
public sealed record ApiPresets(IReadOnlyList<ApiPreset> Presets, IReadOnlyList<ProcessorProfile> Processors);

/// <param name="Versions">Latest first.</param>
public sealed record ApiPreset(Guid PresetId, string Name, IReadOnlyList<ApiPresetVersion> Versions);

/// <param name="VersionId">The version.</param>
/// <param name="Preset">Its settings, who kept it and what was heard.</param>
public sealed record ApiPresetVersion(Guid VersionId, PresetForm Preset);
