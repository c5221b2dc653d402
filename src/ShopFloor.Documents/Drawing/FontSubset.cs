using System.Runtime.InteropServices;
using SkiaSharp;

namespace ShopFloor.Documents.Drawing;

/// <summary>
/// Cuts a face down to the characters a document uses: a whole face is about 200 kB in every file, its used part a tenth of that.
/// The shaping library brings the cutter along, but its .NET wrapper does not offer it.
/// </summary>
internal static partial class FontSubset
{
    private const string Library = "libHarfBuzzSharp";

    // HB_SUBSET_FLAGS_RETAIN_GIDS: glyphs keep their numbers, so text shaped with the whole face can be drawn with its part.
    private const uint RetainGlyphNumbers = 0x2;

    // HB_SUBSET_FLAGS_NO_LAYOUT_CLOSURE: no alternates of the characters that nobody asked for.
    private const uint NoAlternates = 0x200;

    /// <exception cref="InvalidOperationException">The cutter refuses the face.</exception>
    public static SKTypeface Cut(nint face, IEnumerable<int> characters, IEnumerable<ushort> glyphs)
    {
        var input = hb_subset_input_create_or_fail();
        if (input == 0)
            throw new InvalidOperationException("The font cutter cannot start.");
        try
        {
            hb_subset_input_set_flags(input, RetainGlyphNumbers | NoAlternates);
            var characterSet = hb_subset_input_unicode_set(input);
            foreach (var character in characters)
                hb_set_add(characterSet, (uint)character);
            var glyphSet = hb_subset_input_glyph_set(input);
            foreach (var glyph in glyphs)
                hb_set_add(glyphSet, glyph);
            return Read(hb_subset_or_fail(face, input));
        }
        finally
        {
            hb_subset_input_destroy(input);
        }
    }

    private static SKTypeface Read(nint part)
    {
        if (part == 0)
            throw new InvalidOperationException("The font cutter refuses the face.");
        var blob = hb_face_reference_blob(part);
        try
        {
            var bytes = hb_blob_get_data(blob, out var length);
            using var copy = SKData.CreateCopy(bytes, (ulong)length);
            return SKTypeface.FromData(copy) ?? throw new InvalidOperationException("The cut font cannot be read.");
        }
        finally
        {
            hb_blob_destroy(blob);
            hb_face_destroy(part);
        }
    }

#pragma warning disable IDE1006, SYSLIB1054 // The names are the library's own; plain numbers need no generated marshalling.
    [DllImport(Library)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern nint hb_subset_input_create_or_fail();

    [DllImport(Library)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern void hb_subset_input_set_flags(nint input, uint flags);

    [DllImport(Library)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern nint hb_subset_input_unicode_set(nint input);

    [DllImport(Library)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern nint hb_subset_input_glyph_set(nint input);

    [DllImport(Library)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern void hb_set_add(nint set, uint value);

    [DllImport(Library)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern nint hb_subset_or_fail(nint face, nint input);

    [DllImport(Library)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern void hb_subset_input_destroy(nint input);

    [DllImport(Library)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern nint hb_face_reference_blob(nint face);

    [DllImport(Library)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern nint hb_blob_get_data(nint blob, out uint length);

    [DllImport(Library)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern void hb_blob_destroy(nint blob);

    [DllImport(Library)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern void hb_face_destroy(nint face);
#pragma warning restore IDE1006, SYSLIB1054
}
