using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;

namespace ShopFloor.Shop.Phases.Estimate;

/// <summary>Fingerprint of an estimate's content, so that an answer can be tied to exactly what was on the screen.</summary>
internal static class EstimateHash
{
    public static string Of(int number, string currency, IEnumerable<EstimateLine> lines, decimal taxPercent, string note)
    {
        var canonical = JsonSerializer.Serialize<string[]>(
        [
            number.ToString(CultureInfo.InvariantCulture),
            currency,
            Number(taxPercent),
            note,
            .. lines.SelectMany(line => new[] { line.Group, line.Text, Number(line.Quantity), line.Unit, Number(line.UnitPrice), Number(line.Total), line.SourceId.ToString() }),
        ]);
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(canonical)));
    }

    // Without trailing zeros: a number read back from the database may carry more of them.
    private static string Number(decimal value) => value.ToString("0.############", CultureInfo.InvariantCulture);
}
