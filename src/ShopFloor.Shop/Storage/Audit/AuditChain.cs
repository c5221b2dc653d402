using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;

namespace ShopFloor.Shop.Storage.Audit;

/// <summary>Links the lines of the trail by hash, so that editing or losing one is found out.</summary>
public static class AuditChain
{
    public static string HashOf(AuditEntry entry)
    {
        var canonical = JsonSerializer.Serialize(new[]
        {
            entry.PreviousHash,
            entry.At.UtcTicks.ToString(CultureInfo.InvariantCulture),
            entry.ActorId?.ToString() ?? "",
            entry.ActorName,
            entry.Via,
            entry.Action,
            entry.SubjectType,
            entry.SubjectId.ToString(),
            entry.SubjectName,
            entry.JobId?.ToString() ?? "",
            entry.ChangesJson,
            entry.Reason,
        });
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(canonical)));
    }

    /// <summary>Walks the trail in order.</summary>
    /// <returns>The sequence of the first line that does not fit, or null when all do.</returns>
    public static async Task<long?> FirstBrokenAsync(IAsyncEnumerable<AuditEntry> trail, CancellationToken cancellationToken)
    {
        var previous = "";
        long expected = 1;
        await foreach (var entry in trail.WithCancellation(cancellationToken))
        {
            if (entry.Sequence != expected || entry.PreviousHash != previous || entry.Hash != HashOf(entry))
            {
                return Math.Min(entry.Sequence, expected);
            }

            previous = entry.Hash;
            expected++;
        }

        return null;
    }
}
