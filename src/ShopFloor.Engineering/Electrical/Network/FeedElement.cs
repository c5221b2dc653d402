using System.Text.Json.Serialization;

namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>
/// Something between two nodes of the supply network. Its current counts positive from <see cref="From"/> to <see cref="To"/>.
/// A source has its negative terminal at From and its positive terminal at To, so that it delivers a positive current;
/// a load has its positive terminal at From.
/// </summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(Battery), "battery")]
[JsonDerivedType(typeof(Alternator), "alternator")]
[JsonDerivedType(typeof(Conductor), "conductor")]
[JsonDerivedType(typeof(LumpedResistance), "resistance")]
[JsonDerivedType(typeof(FuseElement), "fuse")]
[JsonDerivedType(typeof(FeedSwitch), "switch")]
[JsonDerivedType(typeof(FeedCapacitor), "capacitor")]
[JsonDerivedType(typeof(ConstantPowerLoad), "constantPower")]
[JsonDerivedType(typeof(ConstantCurrentLoad), "constantCurrent")]
[JsonDerivedType(typeof(ResistiveLoad), "resistive")]
[JsonDerivedType(typeof(VehicleBaseLoad), "vehicleBase")]
public abstract record FeedElement
{
    /// <summary>Identifier, unique among the elements.</summary>
    public required string Id { get; init; }

    /// <summary>Name shown in texts.</summary>
    public required string Name { get; init; }

    /// <summary>Identifier of the node it starts at.</summary>
    public required string From { get; init; }

    /// <summary>Identifier of the node it ends at.</summary>
    public required string To { get; init; }

    /// <summary>Largest continuous current it is made for, A (above 0, up to 100 000), or null when not known.</summary>
    public double? RatedAmperes { get; init; }
}
