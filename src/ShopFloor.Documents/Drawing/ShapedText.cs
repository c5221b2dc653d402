using System.Globalization;
using System.Text;
using HarfBuzzSharp;
using ShopFloor.Documents.Composition;
using Buffer = HarfBuzzSharp.Buffer;

namespace ShopFloor.Documents.Drawing;

/// <summary>One glyph; distances in points.</summary>
internal readonly record struct Glyph(ushort Id, int Cluster, float Advance, float OffsetX, float OffsetY);

/// <summary>A stretch of text in one face with its glyphs in order; clusters count from the start of the stretch.</summary>
internal sealed record ShapedStretch(Face Face, string Text, IReadOnlyList<Glyph> Glyphs);

/// <summary>Text shaped once, to be measured and wrapped at any width.</summary>
internal sealed class ShapedText
{
    // Ligatures would tie one glyph to several letters, which some readers then cannot search.
    private static readonly Feature[] _prose = [Feature.Parse("-liga"), Feature.Parse("-clig"), Feature.Parse("-dlig")];
    private static readonly Feature[] _equalDigits = [.. _prose, Feature.Parse("-kern"), Feature.Parse("+tnum")];

    private readonly List<ShapedParagraph> _paragraphs = [];

    public ShapedText(FormattedText text, TextStyle style)
    {
        Style = style;
        foreach (var line in SplitLines(text))
        {
            var stretches = new List<ShapedStretch>();
            foreach (var run in line)
            {
                var face = style.FaceFor(run.Emphasis);
                var clean = Clean(run.Text, face);
                if (clean.Length > 0)
                    stretches.Add(new ShapedStretch(face, clean, Shape(clean, face, style)));
            }
            _paragraphs.Add(new ShapedParagraph(stretches, style));
        }
    }

    public TextStyle Style { get; }

    /// <summary>Width without any wrapping.</summary>
    public float NaturalWidth => _paragraphs.Max(paragraph => paragraph.NaturalWidth);

    /// <summary>Width of the longest piece that cannot be wrapped without cutting a word.</summary>
    public float LongestWord => _paragraphs.Max(paragraph => paragraph.LongestWord);

    public List<TextLine> Wrap(float width) => [.. _paragraphs.SelectMany(paragraph => paragraph.Wrap(width))];

    private static List<List<TextRun>> SplitLines(FormattedText text)
    {
        var lines = new List<List<TextRun>> { new() };
        foreach (var run in text.Runs)
        {
            var parts = run.Text.ReplaceLineEndings("\n").Split('\n');
            for (var i = 0; i < parts.Length; i++)
            {
                if (i > 0)
                    lines.Add([]);
                lines[^1].Add(run with { Text = parts[i] });
            }
        }
        return lines;
    }

    /// <summary>Composed form, no control or invisible characters, and a visible box for what the face does not have.</summary>
    private static string Clean(string text, Face face)
    {
        var clean = new StringBuilder(text.Length);
        var elements = StringInfo.GetTextElementEnumerator(Compose(text));
        while (elements.MoveNext())
        {
            var element = elements.GetTextElement();
            var kept = new StringBuilder();
            var missing = false;
            foreach (var rune in element.EnumerateRunes())
            {
                if (rune.Value == '\t')
                    kept.Append(' ');
                else if (Rune.GetUnicodeCategory(rune) is UnicodeCategory.Control or UnicodeCategory.Format)
                    continue;
                else if (face.Has(rune))
                    kept.Append(rune);
                else if (rune.Value is < 0xFE00 or > 0xFE0F)
                    missing = true;
            }
            // One box stands for one character as people count them, however many code points made it.
            if (missing)
                clean.Append(Face.Replacement);
            else
                clean.Append(kept);
        }
        return clean.ToString();
    }

    private static string Compose(string text)
    {
        try
        {
            return text.Normalize(NormalizationForm.FormC);
        }
        catch (ArgumentException)
        {
            // Half of a surrogate pair: keep the rest of the text and let the box stand for it.
            var whole = new StringBuilder(text.Length);
            foreach (var rune in text.EnumerateRunes())
                whole.Append(rune);
            return whole.ToString().Normalize(NormalizationForm.FormC);
        }
    }

    private static Glyph[] Shape(string text, Face face, TextStyle style)
    {
        using var buffer = new Buffer();
        buffer.AddUtf16(text);
        buffer.GuessSegmentProperties();
        buffer.Direction = Direction.LeftToRight;
        face.Shape(buffer, style.EqualDigits ? _equalDigits : _prose);
        var scale = style.Size / face.UnitsPerEm;
        var infos = buffer.GetGlyphInfoSpan();
        var positions = buffer.GetGlyphPositionSpan();
        var glyphs = new Glyph[infos.Length];
        for (var i = 0; i < glyphs.Length; i++)
        {
            glyphs[i] = new Glyph(
                (ushort)infos[i].Codepoint,
                (int)infos[i].Cluster,
                positions[i].XAdvance * scale,
                positions[i].XOffset * scale,
                positions[i].YOffset * scale);
        }
        return glyphs;
    }
}
