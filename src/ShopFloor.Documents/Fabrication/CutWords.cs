using System.Globalization;
using ShopFloor.Engineering.Fabrication.Nesting;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Documents.Fabrication;

/// <summary>A cut as one says it at the saw.</summary>
public static class CutWords
{
    public static string Of(SawCut cut, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(cut);
        ArgumentNullException.ThrowIfNull(text);
        var piece = cut.Piece == 1 ? "the sheet" : string.Create(CultureInfo.CurrentCulture, $"piece {cut.Piece}");
        return $"Cut {piece} {(cut.Crosscut ? "across" : "along")} at {text.Of(cut.FenceMeters, QuantityKind.SmallLength, 5)}: {string.Join("; ", cut.Pieces.Select(given => Piece(given, text)))}";
    }

    private static string Piece(CutPiece piece, UnitText text)
    {
        var size = $"{text.Of(piece.LengthMeters, QuantityKind.SmallLength, 5)} × {text.Of(piece.WidthMeters, QuantityKind.SmallLength, 5)}";
        return piece.Kind switch
        {
            CutPieceKind.Part => $"part {piece.Name}",
            CutPieceKind.Offcut => $"offcut to keep, {size}",
            CutPieceKind.Waste => "waste",
            _ => string.Create(CultureInfo.CurrentCulture, $"piece {piece.Number}, {size}"),
        };
    }
}
