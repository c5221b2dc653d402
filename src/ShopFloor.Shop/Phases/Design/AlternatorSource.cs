using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Electrical.Network;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What is known of the car's alternator, from its label and the job card: one answer for budget, plan and network.</summary>
internal static class AlternatorSource
{
    // A: less than this is rounding of a label.
    private const double Alike = 1;

    /// <summary>Without loads; null while nothing is known of it.</summary>
    public static AlternatorBudgetInput? InputOf(Vehicle vehicle, BudgetSettingsForm budget, ElectricalSettingsForm settings) =>
        vehicle.AlternatorAmperes is null && string.IsNullOrWhiteSpace(budget.AlternatorStamp) ? null : new AlternatorBudgetInput
        {
            StampedRating = string.IsNullOrWhiteSpace(budget.AlternatorStamp) ? null : budget.AlternatorStamp,
            RatedAmperes = vehicle.AlternatorAmperes,
            PulleyRatio = budget.PulleyRatio ?? AlternatorBudgetInput.DefaultPulleyRatio,
            IdleEngineRpm = budget.IdleRpm ?? AlternatorBudgetInput.DefaultIdleRpm,
            CruiseEngineRpm = budget.CruiseRpm ?? AlternatorBudgetInput.DefaultCruiseRpm,
            VehicleBaseAmperes = settings.BaseLoadAmperes,
            Loads = [],
        };

    /// <summary>As the plan takes it; null while nothing is known of it or what is known is refused, which the budget says.</summary>
    public static AlternatorData? DataOf(Vehicle vehicle, BudgetSettingsForm budget, ElectricalSettingsForm settings)
    {
        if (InputOf(vehicle, budget, settings) is not { } input || input.Validate().Count > 0)
        {
            return null;
        }

        return new AlternatorData
        {
            RatedAmperes = AlternatorRating.Parse(input.StampedRating)?.RatedAmperes ?? input.RatedAmperes!.Value, // Validate asks for one of the two
            Output = AlternatorBudget.Compute(input).Output,
            VehicleBaseAmperes = settings.BaseLoadAmperes,
        };
    }

    /// <summary>Null unless label and job card name different rated currents.</summary>
    public static Finding? Disagreement(Vehicle vehicle, BudgetSettingsForm budget, UnitText text) =>
        vehicle.AlternatorAmperes is { } card && AlternatorRating.Parse(budget.AlternatorStamp) is { RatedAmperes: var label } && Math.Abs(card - label) > Alike
            ? new Finding(
                "alternator-rating-differs", Severity.Warn, "alternator", "Alternator",
                $"The job card says {text.Amperes(card)}, the rating stamped on it {text.Amperes(label)}. The stamped rating is used.",
                "Look at the label and correct the one that is wrong.", "the job card and the budget's assumptions")
            : null;

    /// <summary>The nine states at the engine speeds of the plan.</summary>
    public static IReadOnlyList<Scenario> States(ElectricalPlanView plan) => [.. Scenario.All.Select(state => At(plan, state))];

    public static Scenario At(ElectricalPlanView plan, Scenario state) => plan.Input?.Alternator?.Output is { } output
        ? state with { IdleEngineRpm = output.IdleEngineRpm, CruiseEngineRpm = output.CruiseEngineRpm }
        : state;
}
