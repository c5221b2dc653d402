namespace ShopFloor.Shop.Catalogue;

/// <summary>
/// Describes one technical datum of a part kind once, for the form, the CSV column, the rule that checks it,
/// the API and the document row.
/// </summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class PartFieldAttribute(string label, string unit = "") : Attribute
{
    public string Label { get; } = label;

    public string Unit { get; } = unit;

    public double Min { get; init; }

    public double Max { get; init; } = 1_000_000;

    public string Help { get; init; } = "";

    /// <summary>Whether only levels, turn-on and drain need it: folded in forms, left out of what the client reads.</summary>
    public bool Fine { get; init; }
}
