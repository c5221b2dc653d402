using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>
/// The supply network of a vehicle: nodes and what lies between them, in any shape – trees, loops, several sources, returns with a
/// resistance of their own.
/// </summary>
public sealed record FeedNetwork
{
    /// <summary>Most nodes that are solved.</summary>
    public const int MaxNodes = 100_000;

    /// <summary>Most elements that are solved.</summary>
    public const int MaxElements = 200_000;

    /// <summary>Most loads that are solved.</summary>
    public const int MaxLoads = 10_000;

    /// <summary>The nodes.</summary>
    public required IReadOnlyList<FeedNode> Nodes { get; init; }

    /// <summary>The elements between them.</summary>
    public required IReadOnlyList<FeedElement> Elements { get; init; }

    /// <summary>Identifier of the node that counts as 0 V; any node may be it.</summary>
    public required string ReferenceNodeId { get; init; }

    /// <summary>What is wrong with the network, element by element; empty when it can be solved.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null) => FeedNetworkChecks.Check(this, text ?? UnitText.Invariant);
}
