namespace ShopFloor.Engineering.Responses;

/// <summary>Titles of a table's columns, and what they name.</summary>
internal static class TableTitles
{
    public static readonly string[] Frequency = ["freq", "hz", "frq"];
    public static readonly string[] Phase = ["phase", "phs", "deg", "rad", "°"];

    public static bool Has(string title, string[] words) => words.Any(word => title.Contains(word, StringComparison.OrdinalIgnoreCase));

    /// <summary>The first column that has one of the words and is not taken; null for none.</summary>
    public static int? Titled(IReadOnlyList<string> titles, string[] words, params int[] taken) =>
        Enumerable.Range(0, titles.Count).Where(column => !taken.Contains(column) && Has(titles[column], words)).Cast<int?>().FirstOrDefault();

    /// <summary>The last line before the numbers that names something, a comment or not, has the titles when it has a word for each column; else none.</summary>
    public static List<string> Find(string[] lines, int firstLine, ColumnSeparator separator, int width, Func<string, bool> names)
    {
        for (var n = firstLine - 2; n >= 0; n--)
        {
            var line = lines[n].Trim().TrimStart('*', '#', '/', ';', ' ', '\t');
            if (line.Length is 0 or > TableLines.MostCharacters)
                continue;
            foreach (var way in new[] { separator, ColumnSeparator.Tab, ColumnSeparator.Comma, ColumnSeparator.Semicolon, ColumnSeparator.Blanks })
            {
                var titles = TableLines.Split(line, way);
                if (titles.Count == width && titles.Any(names))
                    return titles;
            }
        }

        return [];
    }
}
