using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>How long a fuse carries a current before it opens, s; null when it does not open at it.</summary>
/// <param name="fuse">The fuse.</param>
/// <param name="amperes">Steady current through it, A.</param>
public delegate double? FuseClearing(FuseElement fuse, double amperes);

/// <summary>A fuse that carries part of a fault current.</summary>
/// <param name="FuseId">The fuse.</param>
/// <param name="Name">Its name.</param>
/// <param name="Amperes">Current through it, A.</param>
/// <param name="RatingAmperes">Its rating, A.</param>
/// <param name="IsWithinInterruptRating">Whether it can interrupt that current; null when its interrupting rating is not known.</param>
/// <param name="Opens">Whether it opens: above its rating, not above what it is stated to interrupt (a figure from memory does not count) and, where a time is known, within a time.</param>
/// <param name="Seconds">Time until it opens, s, or null when not known or it does not open.</param>
public sealed record FuseInFault(
    string FuseId, string Name, double Amperes, double RatingAmperes, bool? IsWithinInterruptRating, bool Opens, double? Seconds);

/// <summary>A single fault from one node to ground.</summary>
public sealed record NodeFault
{
    /// <summary>The node.</summary>
    public required string NodeId { get; init; }

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Current into the fault before any fuse opens, A; null when nothing limits it.</summary>
    public required double? ProspectiveAmperes { get; init; }

    /// <summary>Fuses that carry part of it, largest share first.</summary>
    public required IReadOnlyList<FuseInFault> Fuses { get; init; }

    /// <summary>Whether the fuses that open, one after the other if need be, cut the node off from every source; true when no current flows.</summary>
    public required bool IsCleared { get; init; }

    /// <summary>Fuses that opened, in the order of rounds.</summary>
    public required IReadOnlyList<string> OpenedFuseIds { get; init; }
}

/// <summary>A fault at every node, one at a time.</summary>
public sealed record FaultSweepResult
{
    /// <summary>The scenario; loads are left out and conductors are at ambient temperature, which gives the largest current.</summary>
    public required Scenario Scenario { get; init; }

    /// <summary>Node the faults go to.</summary>
    public required string GroundNodeId { get; init; }

    /// <summary>Resistance of the fault, Ω.</summary>
    public required double FaultOhms { get; init; }

    /// <summary>One for each node but the ground, in the order entered.</summary>
    public required IReadOnlyList<NodeFault> Faults { get; init; }

    /// <summary>Nodes a fault at which no fuse clears, and fuses that cannot interrupt.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
