using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Mass;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>The added mass of a job for programs, in SI; coordinates behind the front axle, left of the middle, above the cabin floor.</summary>
public sealed record MassTable(
    double InstalledKilograms,
    double RemovedKilograms,
    double NetKilograms,
    bool IsComplete,
    double? RemainingPayloadKilograms,
    double? TargetKilograms,
    AddedCenter? Center,
    double UnplacedKilograms,
    MassTableAxles? Axles,
    CornerReadings? CornerChange,
    MassTableScales? Scales,
    IReadOnlyList<MassTableItem> Items,
    IReadOnlyList<string> Missing,
    IReadOnlyList<Finding> Findings)
{
    public static MassTable Of(WeightPlanView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        var balance = view.Balance;
        return new MassTable(
            view.Result.InstalledKilograms,
            view.Result.RemovedKilograms,
            view.Result.NetKilograms,
            view.Result.IsComplete,
            view.Result.RemainingPayloadKilograms,
            view.Budget?.Form.TargetKilograms,
            balance.Center,
            balance.UnplacedKilograms,
            balance.Axles is { } axles ? new MassTableAxles(axles.FrontChangeKilograms, axles.RearChangeKilograms, axles.LeftChangeKilograms, axles.FrontKilograms, axles.RearKilograms, axles.CenterBeforeMeters, axles.CenterAfterMeters) : null,
            balance.CornerChange,
            balance.Corners is { } corners ? new MassTableScales(corners.Before.Corners, corners.Predicted.Corners, corners.After?.Corners, corners.Reconciled) : null,
            [.. view.Placed.Select(part => new MassTableItem(part.PartId, part.Name, part.Zone, part.Kilograms, part.RearwardMeters, part.LeftMeters, part.UpMeters, part.Origin))],
            [.. balance.Missing.Select(fact => fact.Name)],
            view.Findings);
    }
}

public sealed record MassTableAxles(
    double FrontChangeKilograms, double RearChangeKilograms, double? LeftChangeKilograms, double? FrontKilograms, double? RearKilograms, double? CenterBeforeMeters, double? CenterAfterMeters);

/// <param name="Predicted">The readings before with the masses added.</param>
/// <param name="After">Null before the car was weighed again.</param>
public sealed record MassTableScales(CornerReadings Before, CornerReadings Predicted, CornerReadings? After, IReadOnlyList<CornerReconciliation> Reconciled);

/// <param name="Kilograms">Of the line, negative for what is taken out; null when it is not known.</param>
public sealed record MassTableItem(Guid PartId, string Name, string Zone, double? Kilograms, double? RearwardMeters, double? LeftMeters, double? UpMeters, PlaceOrigin PlaceOrigin);
