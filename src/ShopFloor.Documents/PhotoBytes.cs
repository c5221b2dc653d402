using ShopFloor.Shop.Storage.Photos;

namespace ShopFloor.Documents;

/// <summary>Reads the photos a document shows. One that is missing is left out; the document says so in its place.</summary>
public sealed class PhotoBytes(PhotoStore store)
{
    public async Task<IReadOnlyDictionary<string, ReadOnlyMemory<byte>>> ReadAsync(IEnumerable<string> hashes, CancellationToken cancellationToken)
    {
        var photos = new Dictionary<string, ReadOnlyMemory<byte>>();
        foreach (var hash in hashes.Distinct())
        {
            await using var picture = store.OpenPicture(hash);
            if (picture is not null)
            {
                using var bytes = new MemoryStream();
                await picture.CopyToAsync(bytes, cancellationToken);
                photos[hash] = bytes.ToArray();
            }
        }

        return photos;
    }
}
