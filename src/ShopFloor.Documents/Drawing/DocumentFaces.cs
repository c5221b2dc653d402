using SkiaSharp;

namespace ShopFloor.Documents.Drawing;

/// <summary>The faces of one document, cut down to what it uses. First everything is told to <see cref="Use"/>, then the typefaces are
/// taken.</summary>
internal sealed class DocumentFaces : IDisposable
{
    private readonly Dictionary<Face, Used> _used = [];
    private readonly Dictionary<Face, SKTypeface> _typefaces = [];

    public void Use(Face face, string text, IEnumerable<Glyph> glyphs)
    {
        if (!_used.TryGetValue(face, out var used))
            _used[face] = used = new Used();
        foreach (var rune in text.EnumerateRunes())
            used.Characters.Add(rune.Value);
        foreach (var glyph in glyphs)
            used.Glyphs.Add(glyph.Id);
    }

    /// <summary>Text whose face is not known yet: a figure chooses its own.</summary>
    public void UseInEveryFace(string text)
    {
        foreach (var face in Face.All)
            Use(face, text, []);
    }

    public SKTypeface Typeface(Face face)
    {
        if (!_typefaces.TryGetValue(face, out var typeface))
        {
            var used = _used.GetValueOrDefault(face) ?? new Used();
            _typefaces[face] = typeface = face.Cut(used.Characters, used.Glyphs);
        }
        return typeface;
    }

    public void Dispose()
    {
        foreach (var typeface in _typefaces.Values)
            typeface.Dispose();
    }

    private sealed class Used
    {
        // Sorted, so that the same document cuts the same font.
        public SortedSet<int> Characters { get; } = [];

        public SortedSet<ushort> Glyphs { get; } = [];
    }
}
