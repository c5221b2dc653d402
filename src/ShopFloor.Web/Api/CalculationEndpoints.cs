using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Mass;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Api;

/// <summary>The calculations of the screens, as they are: the same functions over the same records.</summary>
internal static class CalculationEndpoints
{
    public static void MapCalculations(this IEndpointRouteBuilder api)
    {
        var calculations = api.MapGroup("/calculations").WithTags("Calculations").Needs(Permission.SeeJobs);
        Map<AmplifierCurrentInput, AmplifierCurrentResult>(
            calculations, "amplifier-current", "Supply current and heat of an amplifier at rated output, on music and at idle.", input => input.Validate(), input => AmplifierCurrent.Compute(input));
        Map<RunSizingInput, RunSizingResult>(
            calculations, "run-sizing", "Conductor and fuse of one run by published ampacity, voltage drop and fuse rules.", input => input.Validate(), input => RunSizing.Size(input));
        Map<ElectricalPlanInput, ElectricalPlanResult>(
            calculations, "electrical-plan", "The whole supply network: main run, branches, fuses, drops, battery and alternator.", input => input.Validate(), input => ElectricalPlan.Compute(input));
        Map<AddedMassInput, AddedMassResult>(
            calculations, "added-mass", "Mass put in and taken out, by place, against the vehicle's labels.", input => input.Validate(), input => AddedMass.Compute(input));
        Map<VinCheckInput, VinCheckResult>(
            calculations, "vin-check", "A vehicle identification number by 49 CFR 565.15: alphabet, check digit, model year.", input => input.Validate(), VinCheckResult.Of);
    }

    private static void Map<TInput, TResult>(
        IEndpointRouteBuilder calculations, string name, string summary, Func<TInput, IReadOnlyList<InputProblem>> validate, Func<TInput, TResult> compute)
        where TInput : notnull =>
        calculations
            .MapPost("/" + name, (Delegate)((HttpContext context) => ApiJson.WithBodyAsync<TInput>(context, (input, body) =>
            {
                var problems = validate(input);
                return Task.FromResult(problems.Count > 0
                    ? ApiJson.Refused(problems.Select(problem => new Problem(problem.Field, problem.Message)), body)
                    : Results.Ok(compute(input)));
            })))
            .WithName(name)
            .WithSummary(summary)
            .Accepts<TInput>("application/json")
            .Produces<TResult>()
            .ProducesProblem(StatusCodes.Status413PayloadTooLarge)
            .ProducesProblem(StatusCodes.Status422UnprocessableEntity);
}

/// <summary>A vehicle identification number to check.</summary>
public sealed record VinCheckInput
{
    /// <summary>The number; spaces and dashes are left out.</summary>
    public required string Vin { get; init; }

    /// <summary>Whether the vehicle was built for a market that demands the check digit.</summary>
    public bool CheckDigitApplies { get; init; } = true;

    /// <summary>Whether it is a passenger car, or weighs 4,536 kg or less: position 7 then tells the cycle of the year code.</summary>
    public bool LightVehicle { get; init; } = true;

    internal IReadOnlyList<InputProblem> Validate() =>
        ShopFloor.Shop.Vehicles.Identification.Vin.TryCreate(Vin, CheckDigitApplies, out _, out var problem) ? [] : [new InputProblem(nameof(Vin), problem)];
}

/// <summary>What the number says.</summary>
/// <param name="Vin">The number in capitals.</param>
/// <param name="CheckDigitMatches">Whether position 9 carries the computed digit.</param>
/// <param name="ModelYearCandidates">Years position 10 may stand for.</param>
public sealed record VinCheckResult(string Vin, bool CheckDigitMatches, IReadOnlyList<int> ModelYearCandidates)
{
    internal static VinCheckResult Of(VinCheckInput input) =>
        ShopFloor.Shop.Vehicles.Identification.Vin.TryCreate(input.Vin, input.CheckDigitApplies, out var vin, out var problem)
            ? new VinCheckResult(vin.Value, vin.CheckDigitMatches, vin.ModelYearCandidates(input.LightVehicle))
            : throw new ArgumentException(problem, nameof(input));
}
