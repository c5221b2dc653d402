using System.Globalization;
using CsvHelper;

namespace ShopFloor.Shop.Catalogue;

/// <summary>
/// Writes catalogue files. Text that a spreadsheet would run as a formula is written with an apostrophe before it
/// (OWASP ASVS 5.0, 1.2.10); reading the file back takes it off again.
/// </summary>
internal static class CatalogueExport
{
    internal const char FormulaGuard = '\'';

    internal const string FormulaStarts = "=+-@\t\r";

    /// <param name="mayCost">Whether the cost column is written.</param>
    /// <param name="mayPrice">Whether the price column is written.</param>
    public static byte[] Write(IReadOnlyList<PartFacts> parts, IReadOnlyList<PartKind> kinds, bool mayPrice, bool mayCost)
    {
        var common = CatalogueColumn.Common
            .Where(column => (mayCost || column.Key != CatalogueColumn.CostKey) && (mayPrice || column.Key != CatalogueColumn.PriceKey))
            .ToList();
        var technical = kinds.SelectMany(kind => PartKinds.Of(kind).Fields).Select(field => field.Key).Distinct().ToList();

        using var memory = new MemoryStream();
        using (var csv = CsvWriter.Create(
            memory,
            new CsvWriterOptions
            {
                WriteByteOrderMark = true, // lets spreadsheets see that it is UTF-8
                Injection = CsvInjection.Escape,
                InjectionCharacters = FormulaStarts,
                InjectionEscape = FormulaGuard,
            },
            leaveOpen: true))
        {
            foreach (var key in common.Select(column => column.Key).Concat(technical))
            {
                csv.WriteField(key);
            }

            csv.EndRecord();
            foreach (var part in parts)
            {
                var fields = PartKinds.Of(part.Kind).Fields.ToDictionary(field => field.Key);
                foreach (var column in common)
                {
                    csv.WriteField(column.Write(part));
                }

                foreach (var key in technical)
                {
                    csv.WriteField(fields.TryGetValue(key, out var field) ? Text(field.Get(part.Data)) : "");
                }

                csv.EndRecord();
            }
        }

        return memory.ToArray();
    }

    private static string Text(object? value) => value switch
    {
        null => "",
        double number => number.ToString("R", CultureInfo.InvariantCulture),
        Enum choice => CatalogueColumn.Snake(choice.ToString()),
        IFormattable other => other.ToString(null, CultureInfo.InvariantCulture),
        _ => value.ToString() ?? "",
    };
}
