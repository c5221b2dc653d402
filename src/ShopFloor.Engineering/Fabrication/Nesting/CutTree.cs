namespace ShopFloor.Engineering.Fabrication.Nesting;

/// <summary>A rectangle of a board that is cut in two, is a part, or is left over. µm, kerf added on one side each way.</summary>
internal sealed class CutTree(long x, long y, long length, long width)
{
    public long X { get; } = x;

    public long Y { get; } = y;

    public long Length { get; } = length;

    public long Width { get; } = width;

    /// <summary>Whether the cut runs across the length, so that the pieces lie side by side along x.</summary>
    public bool Crosscut { get; private set; }

    public CutTree? First { get; private set; }

    public CutTree? Second { get; private set; }

    /// <summary>Index of the piece that lies here, or −1.</summary>
    public int Piece { get; private set; } = -1;

    public bool Turned { get; private set; }

    /// <summary>Cuts the rectangle so that the first part measures <paramref name="at"/> from its left or lower edge.</summary>
    public (CutTree First, CutTree Second) Cut(bool crosscut, long at)
    {
        Crosscut = crosscut;
        First = crosscut ? new CutTree(X, Y, at, Width) : new CutTree(X, Y, Length, at);
        Second = crosscut ? new CutTree(X + at, Y, Length - at, Width) : new CutTree(X, Y + at, Length, Width - at);
        return (First, Second);
    }

    /// <summary>Puts a piece in the lower left corner; what is left over is handed out.</summary>
    public void Put(int piece, long length, long width, bool turned, bool crosscutFirst, List<CutTree> left)
    {
        var here = this;
        foreach (var crosscut in crosscutFirst ? (ReadOnlySpan<bool>)[true, false] : [false, true])
        {
            var (size, room) = crosscut ? (length, here.Length) : (width, here.Width);
            if (size == room)
                continue;
            var (first, second) = here.Cut(crosscut, size);
            left.Add(second);
            here = first;
        }

        here.Piece = piece;
        here.Turned = turned;
    }

    /// <summary>All rectangles that are not cut further.</summary>
    public IEnumerable<CutTree> Leaves()
    {
        var open = new Stack<CutTree>();
        open.Push(this);
        while (open.TryPop(out var at))
        {
            if (at.First is null)
            {
                yield return at;
                continue;
            }

            open.Push(at.Second!);
            open.Push(at.First);
        }
    }
}

/// <summary>A board with its cuts.</summary>
/// <param name="Board">Which kind.</param>
/// <param name="Tree">Its cuts.</param>
internal sealed record CutBoard(Board Board, CutTree Tree);

/// <summary>Boards with all pieces, or as many as found room.</summary>
/// <param name="Boards">Boards that hold at least one piece.</param>
/// <param name="Unplaced">Pieces without room, by kind.</param>
internal sealed record CutLayout(IReadOnlyList<CutBoard> Boards, IReadOnlyList<int> Unplaced)
{
    public int Whole { get; } = Boards.Count(board => !board.Board.IsOffcut);

    public double Weight { get; } = Boards.Sum(board => board.Board.Weight);
}
