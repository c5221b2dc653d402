using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Runs;

/// <summary>One piece to cut.</summary>
/// <param name="Id">Identifier of the run.</param>
/// <param name="Cable">What is cut.</param>
/// <param name="CutMeters">Length of each piece with the service loop, m.</param>
/// <param name="Pieces">How many.</param>
public sealed record CablePiece(string Id, string Cable, double CutMeters, int Pieces);

/// <summary>Sum of one cable.</summary>
/// <param name="Cable">What is cut.</param>
/// <param name="TotalMeters">All its pieces, m.</param>
public sealed record CableTotal(string Cable, double TotalMeters);

/// <summary>The cut list with its sums.</summary>
public sealed record CableCutListResult
{
    /// <summary>Pieces, by cable, longest first.</summary>
    public required IReadOnlyList<CablePiece> Pieces { get; init; }

    /// <summary>Sum by cable.</summary>
    public required IReadOnlyList<CableTotal> Totals { get; init; }

    /// <summary>Runs without a length.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }
}
