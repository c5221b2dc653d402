namespace ShopFloor.Engineering.Tests.Fabrication;

/// <summary>
/// The least number of sheets by trying everything from the sheet down: every cut at every whole millimetre, every way to deal the parts out over both pieces.
/// Shares nothing with the solver, which joins parts from below.
/// </summary>
internal sealed class EveryGuillotine(IReadOnlyList<(int Length, int Width, bool MayTurn)> parts, int kerf)
{
    private readonly Dictionary<(int Set, int Length, int Width), bool> _known = [];

    public int LeastSheets(int length, int width)
    {
        var full = (1 << parts.Count) - 1;
        var least = new int[full + 1];
        for (var set = 1; set <= full; set++)
        {
            least[set] = int.MaxValue;
            for (var part = set; part > 0; part = (part - 1) & set)
            {
                if (least[set ^ part] < int.MaxValue && Fits(part, length, width))
                    least[set] = Math.Min(least[set], 1 + least[set ^ part]);
            }
        }

        return least[full];
    }

    private bool Fits(int set, int length, int width)
    {
        if (set == 0)
            return true;
        if (length <= 0 || width <= 0)
            return false;
        if (_known.TryGetValue((set, length, width), out var known))
            return known;
        return _known[(set, length, width)] = Search(set, length, width);
    }

    private bool Search(int set, int length, int width)
    {
        if ((set & (set - 1)) == 0)
        {
            var (partLength, partWidth, turns) = parts[System.Numerics.BitOperations.TrailingZeroCount(set)];
            // A single part is cut off two edges; kerf falls into the waste.
            if ((partLength <= length && partWidth <= width) || (turns && partWidth <= length && partLength <= width))
                return true;
        }

        for (var one = (set - 1) & set; one > 0; one = (one - 1) & set)
        {
            for (var at = 1; at < length; at++)
            {
                if (Fits(one, at, width) && Fits(set ^ one, length - at - kerf, width))
                    return true;
            }

            for (var at = 1; at < width; at++)
            {
                if (Fits(one, length, at) && Fits(set ^ one, length, width - at - kerf))
                    return true;
            }
        }

        return false;
    }
}
