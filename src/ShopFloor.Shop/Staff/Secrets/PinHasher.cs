using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace ShopFloor.Shop.Staff.Secrets;

/// <summary>
/// Stores and checks PINs: HMAC-SHA-256 under a pepper kept outside the database, then PBKDF2-HMAC-SHA-512 with a salt.
/// A million PINs fall to anybody who holds both; without the pepper a stolen database says nothing.
/// </summary>
/// <remarks>
/// Stored text: <c>pin1$pbkdf2-sha512$iterations$pepper fingerprint$salt$hash</c>, the last three in hexadecimal. The first 4 bytes
/// of the pepper's SHA-256 tell a changed pepper from a wrong PIN. Iterations: 210,000 is the floor set here for SHA-512, the
/// figure long published by the OWASP Password Storage Cheat Sheet (from memory).
/// </remarks>
public sealed class PinHasher
{
    public const int MinimumIterations = 210_000;

    // A tampered row must not be able to hold a core for minutes.
    public const int MaximumIterations = 5_000_000;
    public const int PepperLength = 32;

    private const string Scheme = "pin1";
    private const string Algorithm = "pbkdf2-sha512";
    private const int SaltLength = 16;
    private const int HashLength = 32;

    private readonly byte[] _pepper;
    private readonly string _pepperFingerprint;
    private readonly int _iterations;

    /// <exception cref="ArgumentException">The pepper is shorter than 32 bytes.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The iterations are below the floor or above the ceiling.</exception>
    public PinHasher(ReadOnlySpan<byte> pepper, int iterations = MinimumIterations)
    {
        if (pepper.Length < PepperLength)
        {
            throw new ArgumentException("The pepper needs at least 32 random bytes.", nameof(pepper));
        }

        ArgumentOutOfRangeException.ThrowIfLessThan(iterations, MinimumIterations);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(iterations, MaximumIterations);
        _pepper = pepper.ToArray();
        _pepperFingerprint = Convert.ToHexStringLower(SHA256.HashData(pepper)[..4]);
        _iterations = iterations;
        Decoy = Store(RandomNumberGenerator.GetBytes(SaltLength), RandomNumberGenerator.GetBytes(HashLength));
    }

    /// <summary>A stored text no PIN matches, to check against when the person does not exist, so that both take the same time.</summary>
    public string Decoy { get; }

    /// <exception cref="ArgumentException">Not six digits; whether it is a weak one is for <see cref="PinRules"/> to say.</exception>
    public string Hash(string pin)
    {
        if (!PinRules.HasShape(pin))
        {
            throw new ArgumentException("A PIN has exactly 6 digits.", nameof(pin));
        }

        var salt = RandomNumberGenerator.GetBytes(SaltLength);
        return Store(salt, Derive(pin, salt, _iterations));
    }

    /// <summary>
    /// Checks a PIN against a stored text. Every well-formed stored text costs the derivation, whatever was typed, and the comparison
    /// takes the same time wherever the bytes differ.
    /// </summary>
    public PinCheck Verify(string? pin, string? stored)
    {
        if (!TryRead(stored, out var record))
        {
            return PinCheck.Unreadable;
        }

        var shaped = PinRules.HasShape(pin);
        var derived = Derive(shaped ? pin! : "000000", record.Salt, record.Iterations); // shaped means not null
        var equal = CryptographicOperations.FixedTimeEquals(derived, record.Hash);
        if (record.PepperFingerprint != _pepperFingerprint)
        {
            return PinCheck.OtherPepper;
        }

        return !(equal & shaped) ? PinCheck.Wrong
            : record.Iterations < _iterations ? PinCheck.RightButOutdated
            : PinCheck.Right;
    }

    private static bool TryRead(string? stored, [NotNullWhen(true)] out Record? record)
    {
        record = null;
        var parts = stored?.Split('$');
        if (parts is not [Scheme, Algorithm, var iterationText, { Length: 8 } fingerprint, { Length: 2 * SaltLength } salt, { Length: 2 * HashLength } hash]
            || !int.TryParse(iterationText, NumberStyles.None, CultureInfo.InvariantCulture, out var iterations)
            || iterations is < MinimumIterations or > MaximumIterations
            || !salt.All(char.IsAsciiHexDigitLower)
            || !hash.All(char.IsAsciiHexDigitLower))
        {
            return false;
        }

        record = new Record(iterations, fingerprint, Convert.FromHexString(salt), Convert.FromHexString(hash));
        return true;
    }

    private byte[] Derive(string pin, byte[] salt, int iterations)
    {
        var peppered = HMACSHA256.HashData(_pepper, Encoding.ASCII.GetBytes(pin));
        return Rfc2898DeriveBytes.Pbkdf2(peppered, salt, iterations, HashAlgorithmName.SHA512, HashLength);
    }

    private string Store(byte[] salt, byte[] hash) => string.Create(
        CultureInfo.InvariantCulture,
        $"{Scheme}${Algorithm}${_iterations}${_pepperFingerprint}${Convert.ToHexStringLower(salt)}${Convert.ToHexStringLower(hash)}");

    private sealed record Record(int Iterations, string PepperFingerprint, byte[] Salt, byte[] Hash);
}
