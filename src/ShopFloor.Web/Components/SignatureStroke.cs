using System.Text.Json;

namespace ShopFloor.Web.Components;

/// <summary>A signature as taken by <see cref="SignaturePad"/>: drawn, or the typed name with an explicit confirmation.</summary>
/// <param name="Path">SVG path data, or null when the name was typed instead.</param>
/// <param name="Width">Width of the path's box, in the path's units.</param>
/// <param name="Height">Height of the path's box.</param>
/// <param name="TypedName">The name typed instead of drawing, or null.</param>
public sealed record SignatureStroke(string? Path, double Width, double Height, string? TypedName)
{
    private static readonly JsonSerializerOptions Web = new(JsonSerializerDefaults.Web);

    /// <summary>Reads what signature.js put into the hidden field; null for an empty pad or anything that is not a signature.</summary>
    public static SignatureStroke? Read(string? json)
    {
        if (string.IsNullOrWhiteSpace(json))
            return null;
        try
        {
            var stroke = JsonSerializer.Deserialize<SignatureStroke>(json, Web);
            return stroke is { Path.Length: > 0 } && IsPath(stroke.Path) || stroke is { Path: null, TypedName.Length: > 0 } ? stroke : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    // It is drawn again in documents, so nothing but moves, lines and numbers may be in it.
    private static bool IsPath(string path) => path[0] == 'M' && path.All(c => char.IsAsciiDigit(c) || c is 'M' or 'L' or ' ' or '.' or '-');
}
