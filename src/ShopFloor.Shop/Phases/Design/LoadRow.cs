using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Load of an axle, a wheel or the vehicle, kg.</summary>
/// <param name="Before">As it came; null when it was not weighed.</param>
/// <param name="Change">By the masses and moments.</param>
/// <param name="After">Before and change; null without a load before.</param>
/// <param name="Weighed">On the scales after the build; null before that.</param>
/// <param name="Rating">Of the label; null when not known or, for a wheel, not given.</param>
public sealed record LoadRow(string Name, double? Before, double Change, double? After, double? Weighed, double? Rating)
{
    public bool IsOver => (Weighed ?? After) > Rating;

    /// <summary>Vehicle, axles, then wheels, as far as they can be said; empty without a wheelbase.</summary>
    public static IReadOnlyList<LoadRow> Of(WeightPlanView view, VehicleMeasures measures, double? grossRatingKilograms)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(measures);
        if (view.Balance.Axles is not { } axles)
        {
            return [];
        }

        var (corners, change) = (view.Balance.Corners, view.Balance.CornerChange);
        var (before, after) = (view.Scales?.Form.Before, view.Scales?.Form.After);
        var (front, rear) = (axles.FrontKilograms - axles.FrontChangeKilograms, axles.RearKilograms - axles.RearChangeKilograms);
        List<LoadRow> rows =
        [
            new("Vehicle", front + rear, axles.AddedKilograms, axles.FrontKilograms + axles.RearKilograms, after?.TotalKilograms, grossRatingKilograms),
            new("Front axle", front, axles.FrontChangeKilograms, axles.FrontKilograms, after?.Front(), measures.FrontAxleRatingKilograms),
            new("Rear axle", rear, axles.RearChangeKilograms, axles.RearKilograms, after?.Rear(), measures.RearAxleRatingKilograms),
        ];
        if (change is not null)
        {
            var predicted = corners?.Predicted.Corners;
            rows.Add(new("Front left", before?.FrontLeft, change.FrontLeft, predicted?.FrontLeft, after?.FrontLeft, null));
            rows.Add(new("Front right", before?.FrontRight, change.FrontRight, predicted?.FrontRight, after?.FrontRight, null));
            rows.Add(new("Rear left", before?.RearLeft, change.RearLeft, predicted?.RearLeft, after?.RearLeft, null));
            rows.Add(new("Rear right", before?.RearRight, change.RearRight, predicted?.RearRight, after?.RearRight, null));
        }

        return rows;
    }

    /// <summary>A load to the half kilogram scales show.</summary>
    public static string Load(double kilograms, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Of(kilograms, QuantityKind.Mass, 4);
    }

    /// <summary>A change with its sign; a minus is a minus, not a hyphen.</summary>
    public static string Signed(double kilograms, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return kilograms < 0 ? "\u2212" + text.Kilograms(-kilograms) : "+" + text.Kilograms(kilograms);
    }
}
