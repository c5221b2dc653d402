using System.Buffers.Text;
using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;

namespace ShopFloor.Shop.Staff.Secrets;

/// <summary>
/// A secret nobody can guess: 32 random bytes written as 43 base64url characters. The text goes to its holder once; only
/// <see cref="Hash"/> is stored. A plain SHA-256 is enough because the secret has 256 bits, unlike a password.
/// </summary>
public sealed class SecretToken
{
    public const int ByteLength = 32;
    public const int TextLength = 43;
    public const int HashLength = SHA256.HashSizeInBytes;

    private readonly byte[] _secret;

    private SecretToken(byte[] secret) => _secret = secret;

    /// <summary>The secret itself, for a link or a cookie. Never log or store it.</summary>
    public string Reveal() => Base64Url.EncodeToString(_secret);

    /// <summary>SHA-256 of the 32 bytes: what is stored, and what a lookup searches for.</summary>
    public byte[] Hash() => SHA256.HashData(_secret);

    public static SecretToken Create() => new(RandomNumberGenerator.GetBytes(ByteLength));

    /// <summary>Reads a presented secret. Only the one spelling <see cref="Reveal"/> gives is accepted.</summary>
    public static bool TryRead(string? text, [NotNullWhen(true)] out SecretToken? token)
    {
        token = null;
        if (text is not { Length: TextLength } || !Base64Url.IsValid(text))
        {
            return false;
        }

        // 43 characters carry two spare bits, and white space would pass the decoder: compare with our own spelling.
        var secret = Base64Url.DecodeFromChars(text);
        if (secret.Length != ByteLength || !string.Equals(Base64Url.EncodeToString(secret), text, StringComparison.Ordinal))
        {
            return false;
        }

        token = new SecretToken(secret);
        return true;
    }

    /// <summary>Whether this is the secret whose hash was stored; takes the same time for every stored hash of the right length.</summary>
    public bool Matches(ReadOnlySpan<byte> storedHash) => CryptographicOperations.FixedTimeEquals(Hash(), storedHash);

    /// <summary>Says nothing about the secret, so that it cannot slip into a log.</summary>
    public override string ToString() => "SecretToken (hidden)";
}
