using System.Security.Cryptography;

namespace ShopFloor.Shop.Storage.Backup;

/// <summary>Copies a stream and hashes what went through.</summary>
internal static class HashedCopy
{
    /// <exception cref="InvalidDataException">More came than <paramref name="mostBytes"/>.</exception>
    public static async Task<(long Bytes, string Sha256)> RunAsync(Stream source, Stream target, long mostBytes, CancellationToken cancellationToken)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var buffer = new byte[81920];
        long total = 0;
        int read;
        while ((read = await source.ReadAsync(buffer, cancellationToken)) > 0)
        {
            total += read;
            if (total > mostBytes)
            {
                throw new InvalidDataException($"A file of the archive is longer than the {mostBytes} bytes its manifest names.");
            }

            hash.AppendData(buffer, 0, read);
            await target.WriteAsync(buffer.AsMemory(0, read), cancellationToken);
        }

        return (total, Convert.ToHexStringLower(hash.GetHashAndReset()));
    }
}
