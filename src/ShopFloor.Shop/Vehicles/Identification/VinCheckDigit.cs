using System.Buffers;

namespace ShopFloor.Shop.Vehicles.Identification;

/// <summary>The check digit of 49 CFR 565.15(c): transliterate (Table III), weigh (Table IV), sum, remainder by 11 (10 is X).</summary>
public static class VinCheckDigit
{
    /// <summary>Where the digit stands, counted from 1.</summary>
    public const int Position = 9;

    internal static readonly SearchValues<char> Alphabet = SearchValues.Create("0123456789ABCDEFGHJKLMNPRSTUVWXYZ");
    internal static readonly SearchValues<char> LettersAndDigits = SearchValues.Create("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ");

    // Position 9 has weight 0: the digit does not enter its own sum.
    private static readonly int[] Weights = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];

    /// <summary>The digit that belongs in position 9 of a full number in capitals.</summary>
    /// <exception cref="ArgumentException">The text does not have 17 characters of the VIN alphabet.</exception>
    public static char Compute(ReadOnlySpan<char> vin) => (WeightedSum(vin) % 11) switch
    {
        10 => 'X',
        var remainder => (char)('0' + remainder),
    };

    /// <summary>The sum of value times weight over the 17 positions, before the division.</summary>
    /// <exception cref="ArgumentException">The text does not have 17 characters of the VIN alphabet.</exception>
    public static int WeightedSum(ReadOnlySpan<char> vin)
    {
        if (vin.Length != Vin.FullLength || vin.ContainsAnyExcept(Alphabet))
        {
            throw new ArgumentException("A full vehicle number in capitals is needed.", nameof(vin));
        }

        var sum = 0;
        for (var i = 0; i < vin.Length; i++)
        {
            sum += Weights[i] * ValueOf(vin[i]);
        }

        return sum;
    }

    /// <summary>The value Table III assigns to a character: digits themselves, A to Z without I, O, Q from 1 to 9.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The character is not of the VIN alphabet.</exception>
    public static int ValueOf(char character) => character switch
    {
        >= '0' and <= '9' => character - '0',
        'A' or 'J' => 1,
        'B' or 'K' or 'S' => 2,
        'C' or 'L' or 'T' => 3,
        'D' or 'M' or 'U' => 4,
        'E' or 'N' or 'V' => 5,
        'F' or 'W' => 6,
        'G' or 'P' or 'X' => 7,
        'H' or 'Y' => 8,
        'R' or 'Z' => 9,
        _ => throw new ArgumentOutOfRangeException(nameof(character), character, "Not a character of the VIN alphabet."),
    };
}
