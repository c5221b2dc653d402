namespace ShopFloor.Engineering.Fabrication.Nesting;

/// <summary>A kind of part with the kerf added on one side each way, µm.</summary>
/// <param name="Index">Its place among the kinds.</param>
/// <param name="Length">Length and kerf.</param>
/// <param name="Width">Width and kerf.</param>
/// <param name="Count">How many.</param>
internal sealed record Piece(int Index, long Length, long Width, int Count);

/// <summary>A kind of sheet, trimmed, with the kerf added on one side each way, µm.</summary>
/// <param name="Length">Usable length and kerf.</param>
/// <param name="Width">Usable width and kerf.</param>
/// <param name="Available">How many there are.</param>
/// <param name="IsOffcut">Whether it is free and goes first.</param>
/// <param name="Weight">What one counts for.</param>
/// <param name="Ways">For every piece whether it may lie as it is and turned.</param>
internal sealed record Board(long Length, long Width, int Available, bool IsOffcut, double Weight, IReadOnlyList<(bool AsIs, bool Turned)> Ways)
{
    public bool Takes(Piece piece) => Fits(piece, false) || Fits(piece, true);

    public bool Fits(Piece piece, bool turned)
    {
        var (asIs, turn) = Ways[piece.Index];
        return turned ? turn && piece.Width <= Length && piece.Length <= Width : asIs && piece.Length <= Length && piece.Width <= Width;
    }
}

/// <summary>
/// One material in whole numbers. A cut of width k between pieces a and b of a board L means a + k + b = L, which is (a + k) + (b + k) = L + k:
/// with the kerf added to every piece and to the board, cuts have no width.
/// </summary>
internal sealed record NestingProblem(IReadOnlyList<Piece> Pieces, IReadOnlyList<Board> Boards, long Kerf)
{
    public int PieceCount { get; } = Pieces.Sum(piece => piece.Count);

    public IReadOnlyList<Board> Offcuts { get; } = [.. Boards.Where(board => board.IsOffcut)];

    public IReadOnlyList<Board> Whole { get; } = [.. Boards.Where(board => !board.IsOffcut)];
}
