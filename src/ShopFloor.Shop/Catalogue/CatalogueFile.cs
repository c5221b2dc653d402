using System.Text;
using CsvHelper;

namespace ShopFloor.Shop.Catalogue;

/// <summary>
/// A catalogue file taken apart: rows of cells under known headers, and everything that is wrong with its form.
/// Knows nothing of the database, so any bytes at all can be given to it.
/// </summary>
public sealed class CatalogueFile
{
    public const int MostBytes = 2 * 1024 * 1024;
    public const int MostRows = 5_000;

    /// <summary>More problems than this help nobody; the first are shown.</summary>
    public const int MostProblems = 200;

    private const int LongestCell = 10_000;
    private const string Separators = ",;\t";

    private CatalogueFile(IReadOnlyList<CatalogueFileRow> rows, IReadOnlyList<CatalogueFileProblem> problems)
    {
        Rows = rows;
        Problems = problems;
    }

    public IReadOnlyList<CatalogueFileRow> Rows { get; }

    public IReadOnlyList<CatalogueFileProblem> Problems { get; }

    /// <param name="mayCost">Whether the person may set costs; without it the column is refused.</param>
    public static CatalogueFile Read(ReadOnlyMemory<byte> bytes, bool mayCost)
    {
        if (Decode(bytes, out var text) is { } undecodable)
        {
            return new CatalogueFile([], [undecodable]);
        }

        var problems = new List<CatalogueFileProblem>();
        using var reader = CsvReader.FromText(text, new CsvReaderOptions
        {
            Separator = SeparatorOf(text),
            HasHeader = false, // the header is checked like any other row
            TrimWhitespace = true,
            TrackLineNumbers = true,
            OnMalformedRecord = bad => problems.Add(new CatalogueFileProblem((int)bad.LineNumber, "", Reason(bad.Reason))),
        });

        if (!reader.Read())
        {
            return new CatalogueFile([], [new CatalogueFileProblem(1, "", "The file is empty; its first row names the columns.")]);
        }

        var headers = Enumerable.Range(0, reader.FieldCount).Select(index => Cell(reader.GetString(index)).ToLowerInvariant()).ToArray();
        CheckHeaders(headers, mayCost, problems);
        var rows = problems.Count > 0 ? [] : ReadRows(reader, headers, problems);
        return new CatalogueFile(rows, [.. problems.Take(MostProblems)]);
    }

    private static List<CatalogueFileRow> ReadRows(CsvReader reader, string[] headers, List<CatalogueFileProblem> problems)
    {
        var rows = new List<CatalogueFileRow>();
        while (problems.Count < MostProblems && reader.Read())
        {
            var line = (int)reader.LineNumber;
            var cells = Enumerable.Range(0, reader.FieldCount).Select(index => Cell(reader.GetString(index))).ToArray();
            if (cells.All(cell => cell.Length == 0))
            {
                continue;
            }

            if (rows.Count == MostRows)
            {
                problems.Add(new CatalogueFileProblem(line, "", $"The file has more than {MostRows} rows; split it."));
                break;
            }

            if (cells.Skip(headers.Length).Any(cell => cell.Length > 0))
            {
                problems.Add(new CatalogueFileProblem(
                    line, "", $"The row has {cells.Length} cells under {headers.Length} headers; a decimal comma or a stray separator is the usual cause."));
                continue;
            }

            if (cells.Any(cell => cell.Length > LongestCell))
            {
                problems.Add(new CatalogueFileProblem(line, "", $"A cell is longer than {LongestCell} characters."));
                continue;
            }

            rows.Add(new CatalogueFileRow(
                line,
                headers.Zip(cells).Where(pair => pair.First.Length > 0).ToDictionary(pair => pair.First, pair => pair.Second)));
        }

        if (rows.Count == 0 && problems.Count == 0)
        {
            problems.Add(new CatalogueFileProblem(2, "", "The file has headers but no rows."));
        }

        return rows;
    }

    private static string Reason(CsvMalformedReason reason) => reason switch
    {
        CsvMalformedReason.UnterminatedQuote => "A quotation mark opens here and is never closed.",
        CsvMalformedReason.TextAfterClosingQuote => "Text follows a closing quotation mark; double the marks that belong to the text.",
        _ => "A quotation mark stands in the middle of a cell; put the whole cell into quotation marks and double those inside.",
    };

    private static void CheckHeaders(string[] headers, bool mayCost, List<CatalogueFileProblem> problems)
    {
        var known = CatalogueColumn.Common.Select(column => column.Key)
            .Concat(PartKinds.All.SelectMany(kind => kind.Fields).Select(field => field.Key))
            .ToHashSet();
        foreach (var header in headers.Where(header => header.Length > 0 && !known.Contains(header)).Distinct())
        {
            problems.Add(new CatalogueFileProblem(1, Shorten(header), "No column of the catalogue has this name; take the headers from the template of the kind."));
        }

        foreach (var header in headers.Where(header => header.Length > 0).GroupBy(header => header).Where(group => group.Count() > 1))
        {
            problems.Add(new CatalogueFileProblem(1, Shorten(header.Key), "The column is there twice."));
        }

        if (!headers.Contains(CatalogueColumn.KindKey))
        {
            problems.Add(new CatalogueFileProblem(1, CatalogueColumn.KindKey, "The column is missing; it says what sort of part each row is."));
        }

        if (!mayCost && headers.Contains(CatalogueColumn.CostKey))
        {
            problems.Add(new CatalogueFileProblem(1, CatalogueColumn.CostKey, "Costs are set by the owner; leave this column out."));
        }
    }

    private static CatalogueFileProblem? Decode(ReadOnlyMemory<byte> bytes, out string text)
    {
        text = "";
        if (bytes.Length > MostBytes)
        {
            return new CatalogueFileProblem(0, "", $"The file has {bytes.Length / 1024} KB; at most {MostBytes / 1024} KB are taken. Split it.");
        }

        try
        {
            text = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true).GetString(bytes.Span);
        }
        catch (DecoderFallbackException)
        {
            return NotText;
        }

        text = text.TrimStart('\uFEFF');
        return text.Contains('\0', StringComparison.Ordinal) ? NotText : null;
    }

    private static CatalogueFileProblem NotText { get; } = new(0, "", "The file is not UTF-8 text; save it as \"CSV UTF-8\".");

    /// <summary>Whichever of comma, semicolon and tab the first row has most of.</summary>
    private static char SeparatorOf(string text)
    {
        var end = text.AsSpan().IndexOfAny('\r', '\n');
        var first = end < 0 ? text : text[..end];
        return Separators.MaxBy(candidate => first.Count(character => character == candidate));
    }

    /// <summary>The cell without the apostrophe that keeps a spreadsheet from running it as a formula.</summary>
    private static string Cell(string cell)
    {
        var text = cell.Trim();
        return text.Length > 1 && text[0] == CatalogueExport.FormulaGuard && CatalogueExport.FormulaStarts.Contains(text[1], StringComparison.Ordinal) ? text[1..] : text;
    }

    private static string Shorten(string header) => header.Length <= 60 ? header : header[..59] + "…";
}

/// <param name="Line">Line of the file the row starts on, the header being line 1.</param>
/// <param name="Cells">Cells by header.</param>
public sealed record CatalogueFileRow(int Line, IReadOnlyDictionary<string, string> Cells);

/// <param name="Line">Line of the file, or 0 for the file as a whole.</param>
/// <param name="Column">Header of the column, or empty for the row as a whole.</param>
public sealed record CatalogueFileProblem(int Line, string Column, string Message);
