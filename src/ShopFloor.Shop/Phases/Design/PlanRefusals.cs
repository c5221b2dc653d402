using System.Globalization;
using System.Text.RegularExpressions;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What the calculation will not take, told in terms of the run it is about.</summary>
internal static partial class PlanRefusals
{
    public static IReadOnlyList<PlanRefusal> Of(PlanBasis basis, UnitText text) =>
        basis.Input is not { } input ? [] : [.. input.Validate(text).Select(problem => Of(problem, input))];

    private static PlanRefusal Of(InputProblem problem, ElectricalPlanInput input)
    {
        var field = problem.Field[(problem.Field.LastIndexOf('.') + 1)..] switch
        {
            nameof(RunData.LengthMeters) => nameof(RunChoiceForm.LengthMeters),
            nameof(RunData.SourceToFuseMeters) => nameof(RunChoiceForm.FuseDistanceMeters),
            nameof(RunData.ForcedFuseAmperes) => nameof(RunChoiceForm.FuseAmperes),
            nameof(RunData.ForcedSize) => nameof(RunChoiceForm.Awg),
            nameof(RunData.InsulationCelsius) => nameof(RunChoiceForm.InsulationCelsius),
            nameof(RunData.AmbientCelsius) => nameof(RunChoiceForm.AmbientCelsius),
            nameof(ElectricalLoad.MaxDropPercent) => nameof(RunChoiceForm.MaxDropPercent),
            nameof(RunData.BundledConductors) => nameof(RunChoiceForm.BundledConductors),
            nameof(RunData.TerminationOhms) => nameof(RunChoiceForm.TerminationMilliohms),
            nameof(ElectricalLoad.FedFrom) => nameof(RunChoiceForm.From),
            _ => "",
        };
        if (Index().Match(problem.Field) is { Success: true } match)
        {
            var at = int.Parse(match.Groups[2].Value, CultureInfo.InvariantCulture);
            var (id, name) = match.Groups[1].Value == nameof(ElectricalPlanInput.Loads) ? (input.Loads[at].Id, input.Loads[at].Name) : (input.Points[at].Id, input.Points[at].Name);
            return new PlanRefusal(id, name, field, problem.Message);
        }

        return new PlanRefusal("electrical-plan", "Electrical plan", field, problem.Message);
    }

    [GeneratedRegex(@"^(Loads|Points)\[(\d+)\]")]
    private static partial Regex Index();
}

/// <param name="RunId">The run or load it is about.</param>
/// <param name="ChoiceField">Property of <see cref="RunChoiceForm"/>, or empty.</param>
internal sealed record PlanRefusal(string RunId, string Subject, string ChoiceField, string Message)
{
    public Finding AsFinding() => new(
        "plan-input-refused", Severity.Stop, RunId, Subject, Message, "Correct it; until then the plan is not computed.", "limits of the calculation");
}
