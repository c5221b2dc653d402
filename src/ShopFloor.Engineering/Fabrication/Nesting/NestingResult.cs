using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Fabrication.Nesting;

/// <summary>A part on a sheet. Lengths in m, from the lower left corner of the untrimmed sheet; x along its length.</summary>
/// <param name="PartId">Line of the cut list.</param>
/// <param name="Name">Name.</param>
/// <param name="Copy">Which of its quantity, from 1.</param>
/// <param name="XMeters">Left edge, m.</param>
/// <param name="YMeters">Lower edge, m.</param>
/// <param name="LengthMeters">Extent along x, m.</param>
/// <param name="WidthMeters">Extent along y, m.</param>
/// <param name="Turned">Whether it lies turned by a quarter.</param>
public sealed record PlacedPart(string PartId, string Name, int Copy, double XMeters, double YMeters, double LengthMeters, double WidthMeters, bool Turned);

/// <summary>A rectangle left over.</summary>
/// <param name="XMeters">Left edge, m.</param>
/// <param name="YMeters">Lower edge, m.</param>
/// <param name="LengthMeters">Extent along x, m.</param>
/// <param name="WidthMeters">Extent along y, m.</param>
/// <param name="Kept">Whether it is large enough to keep.</param>
public sealed record LeftOver(double XMeters, double YMeters, double LengthMeters, double WidthMeters, bool Kept);

/// <summary>What a piece is once it is cut off.</summary>
public enum CutPieceKind
{
    /// <summary>It is cut further.</summary>
    Piece,

    /// <summary>A finished part.</summary>
    Part,

    /// <summary>An offcut to keep.</summary>
    Offcut,

    /// <summary>Waste.</summary>
    Waste,
}

/// <summary>A piece a cut gives.</summary>
/// <param name="Number">Its number on this sheet; 1 is the sheet.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Name">Name of the part; else empty.</param>
/// <param name="LengthMeters">Extent along x, m.</param>
/// <param name="WidthMeters">Extent along y, m.</param>
public sealed record CutPiece(int Number, CutPieceKind Kind, string Name, double LengthMeters, double WidthMeters);

/// <summary>One cut from edge to edge of a piece.</summary>
/// <param name="Step">Order, from 1.</param>
/// <param name="Piece">Number of the piece that is cut.</param>
/// <param name="Crosscut">Whether the cut runs across the sheet's length; else along it.</param>
/// <param name="FenceMeters">Distance of the cut's near side from the piece's left (crosscut) or lower edge, m: what the fence is set to. Where a first edge is trimmed, the width taken off.</param>
/// <param name="Pieces">What it gives: the piece within the fence first. One where the saw takes the rest, or where the edge is trimmed.</param>
public sealed record SawCut(int Step, int Piece, bool Crosscut, double FenceMeters, IReadOnlyList<CutPiece> Pieces);

/// <summary>One sheet or offcut with its parts.</summary>
public sealed record NestedSheet
{
    /// <summary>Line of the stock.</summary>
    public required string StockId { get; init; }

    /// <summary>Name.</summary>
    public required string Name { get; init; }

    /// <summary>Which of its line, from 1.</summary>
    public required int Copy { get; init; }

    /// <summary>Whether it is an offcut from stock.</summary>
    public required bool IsOffcut { get; init; }

    /// <summary>Length, m.</summary>
    public required double LengthMeters { get; init; }

    /// <summary>Width, m.</summary>
    public required double WidthMeters { get; init; }

    /// <summary>Trimmed off each edge, m.</summary>
    public required double TrimMeters { get; init; }

    /// <summary>Parts.</summary>
    public required IReadOnlyList<PlacedPart> Parts { get; init; }

    /// <summary>What is left over, largest first.</summary>
    public required IReadOnlyList<LeftOver> LeftOver { get; init; }

    /// <summary>Cuts in their order.</summary>
    public required IReadOnlyList<SawCut> Cuts { get; init; }

    /// <summary>Neither part nor kept offcut, as a share of the sheet, 0 to 1; parts by their real shape.</summary>
    public required double WasteShare { get; init; }
}

/// <summary>Parts that found no sheet.</summary>
/// <param name="PartId">Line of the cut list.</param>
/// <param name="Name">Name.</param>
/// <param name="Count">How many.</param>
public sealed record UnplacedPart(string PartId, string Name, int Count);

/// <summary>One material and thickness.</summary>
public sealed record MaterialNesting
{
    /// <summary>Material.</summary>
    public required string MaterialId { get; init; }

    /// <summary>Thickness, m.</summary>
    public required double ThicknessMeters { get; init; }

    /// <summary>Sheets and offcuts used, offcuts first.</summary>
    public required IReadOnlyList<NestedSheet> Sheets { get; init; }

    /// <summary>Whole sheets used.</summary>
    public required int WholeSheets { get; init; }

    /// <summary>Whole sheets that are needed in any case.</summary>
    public required int LeastSheets { get; init; }

    /// <summary>Whether no layout takes less: fewer sheets, or of several kinds those that count less.</summary>
    public required bool Proved { get; init; }

    /// <summary>What the whole sheets count for together.</summary>
    public required double Weight { get; init; }

    /// <summary>Area of the parts by their real shape, m².</summary>
    public required double PartsSquareMeters { get; init; }

    /// <summary>Neither part nor kept offcut, as a share of all sheets used, 0 to 1.</summary>
    public required double WasteShare { get; init; }

    /// <summary>Parts that found no sheet since the stock ran out.</summary>
    public required IReadOnlyList<UnplacedPart> Unplaced { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}

/// <summary>A cut list laid out.</summary>
/// <param name="Materials">One entry for each material and thickness, in the order of the cut list.</param>
/// <param name="Findings">What was found, gravest first.</param>
public sealed record NestingResult(IReadOnlyList<MaterialNesting> Materials, IReadOnlyList<Finding> Findings);
