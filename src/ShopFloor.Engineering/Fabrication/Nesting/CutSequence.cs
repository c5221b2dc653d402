namespace ShopFloor.Engineering.Fabrication.Nesting;

/// <summary>A board's cuts, parts and left-over rectangles in metres, read from its tree.</summary>
internal sealed class CutSequence
{
    private readonly long _kerf;
    private readonly long _trim;
    private readonly Func<CutTree, string> _nameOf;
    private readonly Func<long, long, bool> _isKept;
    private readonly List<SawCut> _cuts = [];
    private int _pieces = 1;

    private CutSequence(long kerf, long trim, Func<CutTree, string> nameOf, Func<long, long, bool> isKept) =>
        (_kerf, _trim, _nameOf, _isKept) = (kerf, trim, nameOf, isKept);

    /// <summary>Cuts in an order a panel saw can follow: trimming, then every piece cut on in its own direction before it is turned.</summary>
    public static IReadOnlyList<SawCut> Of(CutTree root, long kerf, long trim, Func<CutTree, string> nameOf, Func<long, long, bool> isKept)
    {
        var sequence = new CutSequence(kerf, trim, nameOf, isKept);
        sequence.Trim(root);
        sequence.Cut(root);
        return sequence._cuts;
    }

    private void Trim(CutTree root)
    {
        if (_trim == 0)
            return;
        // Fence positions from the left or lower edge of the piece as it then is; near edges first.
        var (length, width) = (Real(root.Length), Real(root.Width));
        var (wholeLength, wholeWidth) = (length + 2 * _trim, width + 2 * _trim);
        Edge(true, _trim, wholeLength - _trim, wholeWidth);
        Edge(true, length, length, wholeWidth);
        Edge(false, _trim, length, wholeWidth - _trim);
        Edge(false, width, length, width, done: true);

        void Edge(bool crosscut, long fence, long restLength, long restWidth, bool done = false)
        {
            var piece = _pieces++;
            _cuts.Add(new SawCut(_cuts.Count + 1, piece, crosscut, Microns.Meters(fence),
                [new CutPiece(_pieces, done ? KindOf(root) : CutPieceKind.Piece, done && root.Piece >= 0 ? _nameOf(root) : "", Microns.Meters(restLength), Microns.Meters(restWidth))]));
        }
    }

    private void Cut(CutTree root)
    {
        var open = new Stack<(CutTree Tree, int Number)>();
        open.Push((root, _pieces));
        while (open.TryPop(out var at))
        {
            if (at.Tree is not { First: { } first, Second: { } second })
                continue;
            var given = new List<CutPiece>();
            var (one, other) = (Give(first, given), Give(second, given));
            _cuts.Add(new SawCut(_cuts.Count + 1, at.Number, at.Tree.Crosscut, Microns.Meters(Real(at.Tree.Crosscut ? first.Length : first.Width)), given));
            // What is cut the same way again comes next, so that the board is turned less often.
            var secondNext = second.First is not null && second.Crosscut == at.Tree.Crosscut;
            open.Push(secondNext ? (first, one) : (second, other));
            open.Push(secondNext ? (second, other) : (first, one));
        }
    }

    private int Give(CutTree tree, List<CutPiece> given)
    {
        var (length, width) = (Real(tree.Length), Real(tree.Width));
        if (length <= 0 || width <= 0)
            return 0;
        given.Add(new CutPiece(++_pieces, KindOf(tree), tree.Piece >= 0 ? _nameOf(tree) : "", Microns.Meters(length), Microns.Meters(width)));
        return _pieces;
    }

    private CutPieceKind KindOf(CutTree tree) => tree.First is not null ? CutPieceKind.Piece
        : tree.Piece >= 0 ? CutPieceKind.Part
        : _isKept(Real(tree.Length), Real(tree.Width)) ? CutPieceKind.Offcut : CutPieceKind.Waste;

    private long Real(long withKerf) => withKerf - _kerf;
}
