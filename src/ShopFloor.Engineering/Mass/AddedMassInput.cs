using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Mass;

/// <summary>Everything put in and taken out, and the vehicle's labels.</summary>
public sealed record AddedMassInput
{
    /// <summary>The items; may be empty.</summary>
    public required IReadOnlyList<AddedMassItem> Items { get; init; }

    /// <summary>What the labels say.</summary>
    public PayloadLabel Label { get; init; } = new();

    /// <summary>What is wrong with the input, field by field; empty when it can be computed. A missing mass becomes a finding instead.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        for (var i = 0; i < Items.Count; i++)
        {
            var item = Items[i];
            var at = $"{nameof(Items)}[{i}].";
            checks.Named(at + nameof(item.Id), "Item identifier", item.Id);
            checks.Named(at + nameof(item.Name), "Item name", item.Name);
            checks.Named(at + nameof(item.Zone), $"{item.Name}, place", item.Zone);
            checks.Known(at + nameof(item.Change), $"{item.Name}, put in or taken out", item.Change);
            checks.InRange(at + nameof(item.Quantity), $"{item.Name}, quantity", item.Quantity, 0.001, 10_000);
            checks.InRange(at + nameof(item.UnitMassKilograms), $"{item.Name}, mass of one", item.UnitMassKilograms, 0, 2000, QuantityKind.Mass);
        }

        foreach (var id in Items.GroupBy(x => x.Id).Where(g => g.Count() > 1).Select(g => g.Key))
            checks.Add(nameof(Items), $"Items: the identifier \u201c{id}\u201d is used more than once; each must be its own.");
        const string Of = nameof(Label) + ".";
        checks.InRange(Of + nameof(Label.PayloadKilograms), "Payload on the placard", Label.PayloadKilograms, 50, 10_000, QuantityKind.Mass);
        checks.InRange(Of + nameof(Label.GrossVehicleWeightRatingKilograms), "Gross vehicle weight rating", Label.GrossVehicleWeightRatingKilograms, 300, 40_000, QuantityKind.Mass);
        checks.InRange(Of + nameof(Label.SeatingPositions), "Seating positions", Label.SeatingPositions, 1, 60);
        return checks.Problems;
    }
}
