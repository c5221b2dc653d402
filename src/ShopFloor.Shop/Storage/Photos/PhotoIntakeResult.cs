namespace ShopFloor.Shop.Storage.Photos;

/// <summary>An upload was either taken in or refused with words to show.</summary>
public abstract record PhotoIntakeResult
{
    private PhotoIntakeResult()
    {
    }

    public sealed record Accepted(AcceptedPhoto Photo) : PhotoIntakeResult;

    /// <param name="Reason">Stable reason for tests and logs.</param>
    /// <param name="Message">What was wrong and what is accepted.</param>
    public sealed record Refused(PhotoRefusal Reason, string Message) : PhotoIntakeResult;
}

/// <summary>Why an upload was refused.</summary>
public enum PhotoRefusal
{
    Empty,
    TooManyBytes,
    NotAPhoto,
    TooManyPixels,
    Damaged,
}

/// <summary>A photo as it will be stored: upright, in sRGB, without any metadata, freshly encoded.</summary>
/// <param name="Jpeg">The stored picture.</param>
/// <param name="Thumbnail">The small picture for lists, JPEG.</param>
/// <param name="WidthPixels">Width of the stored picture.</param>
/// <param name="HeightPixels">Height of the stored picture.</param>
/// <param name="Sha256">SHA-256 of <paramref name="Jpeg"/>, 64 lower-case hexadecimal characters: its name in the store.</param>
public sealed record AcceptedPhoto(
    ReadOnlyMemory<byte> Jpeg,
    ReadOnlyMemory<byte> Thumbnail,
    int WidthPixels,
    int HeightPixels,
    string Sha256);
