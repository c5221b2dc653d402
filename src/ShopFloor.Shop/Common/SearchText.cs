using System.Globalization;
using System.Text;

namespace ShopFloor.Shop.Common;

/// <summary>Text as it is searched: lower case, without accents and punctuation, so "Müller-Ø" is found by "muller".</summary>
public static class SearchText
{
    public static string Of(params string?[] parts) => Fold(string.Join(' ', parts.Where(part => !string.IsNullOrWhiteSpace(part))));

    public static string Fold(string text)
    {
        var folded = new StringBuilder(text.Length);
        foreach (var rune in text.Normalize(NormalizationForm.FormD).EnumerateRunes())
        {
            var category = Rune.GetUnicodeCategory(rune);
            if (category == UnicodeCategory.NonSpacingMark)
            {
                continue;
            }

            if (Rune.IsLetterOrDigit(rune))
            {
                folded.Append(Rune.ToLowerInvariant(rune).ToString());
            }
            else if (folded.Length > 0 && folded[^1] != ' ')
            {
                folded.Append(' ');
            }
        }

        return folded.ToString().Trim();
    }

    /// <summary>The words of a query, each of which must be found.</summary>
    public static IReadOnlyList<string> Words(string? query) =>
        string.IsNullOrWhiteSpace(query) ? [] : Fold(query).Split(' ', StringSplitOptions.RemoveEmptyEntries).Take(8).ToList();
}
