namespace ShopFloor.Documents.Drawing;

/// <summary>Shaped text between two line feeds, wrapped by character position.</summary>
internal sealed class ShapedParagraph
{
    private readonly IReadOnlyList<ShapedStretch> _stretches;
    private readonly TextStyle _style;
    private readonly string _text;

    // Width of everything that belongs to the character, on the first character of its cluster; zero on the others.
    private readonly float[] _widths;
    private readonly bool[] _startsCluster;

    public ShapedParagraph(IReadOnlyList<ShapedStretch> stretches, TextStyle style)
    {
        _stretches = stretches;
        _style = style;
        _text = string.Concat(stretches.Select(stretch => stretch.Text));
        _widths = new float[_text.Length];
        _startsCluster = new bool[_text.Length];
        var offset = 0;
        foreach (var stretch in stretches)
        {
            foreach (var glyph in stretch.Glyphs)
            {
                _widths[offset + glyph.Cluster] += glyph.Advance;
                _startsCluster[offset + glyph.Cluster] = true;
            }
            offset += stretch.Text.Length;
        }
    }

    public float NaturalWidth => _widths.Sum();

    public float LongestWord
    {
        get
        {
            var longest = 0f;
            var start = 0;
            for (var i = 0; i < _text.Length; i++)
            {
                if (!CanBreakAfter(i) && i < _text.Length - 1)
                    continue;
                longest = Math.Max(longest, WidthWithoutTrailingSpaces(start, i + 1));
                start = i + 1;
            }
            return longest;
        }
    }

    public IEnumerable<TextLine> Wrap(float width)
    {
        if (_text.Length == 0)
        {
            yield return new TextLine(_style, 0, []);
            yield break;
        }
        var start = 0;
        while (start < _text.Length)
        {
            var end = LineEnd(start, width);
            yield return new TextLine(_style, WidthWithoutTrailingSpaces(start, end), Slices(start, end));
            start = end;
        }
    }

    private int LineEnd(int start, float width)
    {
        // A hair of tolerance keeps text measured at its natural width on one line in spite of rounding.
        var room = width + 0.01f;
        var used = 0f;
        var lastBreak = -1;
        for (var i = start; i < _text.Length; i++)
        {
            var overflows = used + _widths[i] > room && _text[i] != ' ';
            if (overflows && _startsCluster[i] && i > start)
                return lastBreak > start ? lastBreak : i;
            used += _widths[i];
            if (CanBreakAfter(i))
                lastBreak = i + 1;
        }
        return _text.Length;
    }

    private bool CanBreakAfter(int i)
    {
        if (i + 1 >= _text.Length || !_startsCluster[i + 1])
            return false;
        var (character, next) = (_text[i], _text[i + 1]);
        // A dot between two facts stays with the one before it.
        if (character == ' ')
            return next is not (' ' or '\u00B7');
        var betweenWords = i > 0 && char.IsLetterOrDigit(_text[i - 1]) && char.IsLetter(next);
        return character switch
        {
            '-' or '\u2010' or '/' => betweenWords,
            '\u2013' or '\u2014' => char.IsLetter(next),
            Face.Replacement => next == Face.Replacement,
            _ => false,
        };
    }

    private float WidthWithoutTrailingSpaces(int start, int end)
    {
        while (end > start && _text[end - 1] == ' ')
            end--;
        var width = 0f;
        for (var i = start; i < end; i++)
            width += _widths[i];
        return width;
    }

    private List<TextSlice> Slices(int start, int end)
    {
        var slices = new List<TextSlice>();
        var offset = 0;
        foreach (var stretch in _stretches)
        {
            var from = Math.Max(start - offset, 0);
            var to = Math.Min(end - offset, stretch.Text.Length);
            if (from < to)
            {
                var glyphs = stretch.Glyphs.Where(glyph => glyph.Cluster >= from && glyph.Cluster < to)
                    .Select(glyph => glyph with { Cluster = glyph.Cluster - from });
                slices.Add(new TextSlice(stretch.Face, stretch.Text[from..to], [.. glyphs]));
            }
            offset += stretch.Text.Length;
        }
        return slices;
    }
}
