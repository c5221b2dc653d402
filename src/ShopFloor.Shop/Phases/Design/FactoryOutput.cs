using System.Text.Json.Serialization;
using ShopFloor.Engineering.Signal.Chain;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>An output of the factory radio or amplifier that is measured at its wires.</summary>
public sealed record FactoryOutputRef
{
    /// <summary>Its line on the parts list; null where the list has none for it and its name was typed.</summary>
    public Guid? PartId { get; init; }

    /// <summary>Output of the part from 0, counted over the units of its line.</summary>
    public int Output { get; init; }

    public string Name { get; init; } = "";

    /// <summary>Which side it plays. Only outputs of one side are added up.</summary>
    public ImageSide Side { get; init; }

    /// <summary>The same for all measurements of one output.</summary>
    [JsonIgnore]
    public string Key => PartId is { } part ? FormattableString.Invariant($"{part}:{Output}") : $"{Side}:{Name.Trim().ToLowerInvariant()}";
}

/// <summary>An output of the car's own sound as the signal path has it.</summary>
/// <param name="Feeds">Input its cable ends at; empty while none does.</param>
public sealed record FactoryOutputRow(FactoryOutputRef Output, string Feeds);
