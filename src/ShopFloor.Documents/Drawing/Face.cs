using System.Runtime.InteropServices;
using System.Text;
using HarfBuzzSharp;
using SkiaSharp;

namespace ShopFloor.Documents.Drawing;

/// <summary>
/// One face that comes with the program, opened once for the life of the process.
/// </summary>
internal sealed class Face
{
    /// <summary>Drawn for a character the face does not have.</summary>
    public const char Replacement = '\u25A1';

    private static readonly Lazy<Face> _regular = new(() => new Face("SourceSans3-Regular.ttf"));
    private static readonly Lazy<Face> _italic = new(() => new Face("SourceSans3-It.ttf"));
    private static readonly Lazy<Face> _semibold = new(() => new Face("SourceSans3-Semibold.ttf"));
    private static readonly Lazy<Face> _bold = new(() => new Face("SourceSans3-Bold.ttf"));

    private readonly byte[] _bytes;
    private readonly Lock _shapingGate = new();

    private Face(string fileName)
    {
        using var file = typeof(Face).Assembly.GetManifestResourceStream("ShopFloor.Documents.Fonts." + fileName)
            ?? throw new InvalidOperationException($"The font {fileName} is not embedded.");
        // The shaping library keeps pointing into these bytes, so they must neither move nor go.
        _bytes = GC.AllocateUninitializedArray<byte>((int)file.Length, pinned: true);
        file.ReadExactly(_bytes);
        Typeface = SKTypeface.FromData(SKData.CreateCopy(_bytes))
            ?? throw new InvalidOperationException($"The font {fileName} cannot be read.");
        Bytes = new Blob(Marshal.UnsafeAddrOfPinnedArrayElement(_bytes, 0), _bytes.Length, MemoryMode.ReadOnly);
        Tables = new HarfBuzzSharp.Face(Bytes, 0);
        UnitsPerEm = Tables.UnitsPerEm;
        Shaping = new Font(Tables);
        Shaping.SetScale(UnitsPerEm, UnitsPerEm);
        using var font = new SKFont(Typeface, 1);
        Ascent = -font.Metrics.Ascent;
        Descent = font.Metrics.Descent;
    }

    public static Face Regular => _regular.Value;

    public static Face Italic => _italic.Value;

    public static Face Semibold => _semibold.Value;

    public static Face Bold => _bold.Value;

    public static IReadOnlyList<Face> All => [Regular, Italic, Semibold, Bold];

    public SKTypeface Typeface { get; }

    private Blob Bytes { get; }

    private HarfBuzzSharp.Face Tables { get; }

    private Font Shaping { get; }

    public int UnitsPerEm { get; }

    /// <summary>Above the baseline, in ems.</summary>
    public float Ascent { get; }

    /// <summary>Below the baseline, in ems.</summary>
    public float Descent { get; }

    public bool Has(Rune character)
    {
        lock (_shapingGate)
            return Shaping.TryGetNominalGlyph(character.Value, out _);
    }

    /// <summary>The part of the face that holds these characters and glyphs; its glyphs keep their numbers.</summary>
    public SKTypeface Cut(IEnumerable<int> characters, IEnumerable<ushort> glyphs)
    {
        lock (_shapingGate)
            return FontSubset.Cut(Tables.Handle, characters, glyphs);
    }

    /// <summary>Turns the characters of the buffer into glyphs, in units of the em square.</summary>
    public void Shape(HarfBuzzSharp.Buffer buffer, Feature[] features)
    {
        lock (_shapingGate)
            Shaping.Shape(buffer, features);
    }

    public static SKFont AtSize(SKTypeface typeface, float size) => new(typeface, size)
    {
        Edging = SKFontEdging.Antialias,
        Hinting = SKFontHinting.None,
        LinearMetrics = true,
        Subpixel = true,
    };
}
