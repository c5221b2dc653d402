namespace ShopFloor.Engineering.Signal.Loads;

/// <summary>What an amplifier channel, or a bridged pair, drives.</summary>
public sealed record ChannelLoad
{
    /// <summary>Identifier, unique in the path.</summary>
    public required string Id { get; init; }

    /// <summary>The amplifier.</summary>
    public required string AmplifierId { get; init; }

    /// <summary>Identifiers of its outputs: one, or two for a bridged pair.</summary>
    public required IReadOnlyList<string> Outputs { get; init; }

    /// <summary>The coils and how they are joined.</summary>
    public required CoilWiring Wiring { get; init; }

    /// <summary>Loop resistance of the cable, Ω (0 to 10).</summary>
    public double CableOhms { get; init; }

    /// <summary>Power wanted into the load, W; null: what the amplifier gives, or what the drivers bear when that is less.</summary>
    public double? WantedWatts { get; init; }
}
