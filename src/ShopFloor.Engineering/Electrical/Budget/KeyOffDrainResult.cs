using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>One known draw and its part in the sum.</summary>
/// <param name="Id">Identifier of the part; <see cref="KeyOffDrain.VehicleId"/> for the vehicle itself.</param>
/// <param name="Name">Name.</param>
/// <param name="Amperes">Current with the key off, A.</param>
/// <param name="SharePercent">Share of the known sum, percent.</param>
public sealed record DrainShare(string Id, string Name, double Amperes, double SharePercent);

/// <summary>What is drawn with the key off, and how long the battery stands it.</summary>
public sealed record KeyOffDrainResult
{
    /// <summary>Sum of what is known, vehicle included when known, A.</summary>
    public required double KnownAmperes { get; init; }

    /// <summary>Added parts whose current is known, A.</summary>
    public required double AddedAmperes { get; init; }

    /// <summary>Whether every part and the vehicle are known; otherwise the sum is a lower and the days an upper bound.</summary>
    public required bool IsComplete { get; init; }

    /// <summary>Identifiers of parts whose current is not known.</summary>
    public required IReadOnlyList<string> MissingDrawIds { get; init; }

    /// <summary>Known draws, largest first.</summary>
    public required IReadOnlyList<DrainShare> Shares { get; init; }

    /// <summary>The largest known draw, or null when nothing known draws.</summary>
    public required DrainShare? Dominant { get; init; }

    /// <summary>Largest key-off current, A, or null when neither the maker's limit nor the reserve capacity is known.</summary>
    public required double? LimitAmperes { get; init; }

    /// <summary>Where the limit comes from, or null.</summary>
    public required string? LimitOrigin { get; init; }

    /// <summary>Days until the car may not start, or null when no capacity is known or nothing draws.</summary>
    public required double? DaysToNoStart { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
