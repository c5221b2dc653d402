using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace ShopFloor.Shop.Vehicles.Identification;

/// <summary>
/// A vehicle's identification number: either a full 17-character number laid out as in 49 CFR 565.15 (ISO 3779 shares the
/// length and the alphabet), or, through <see cref="TryCreateOverride"/>, a shorter or unusual number with the reason it was accepted.
/// </summary>
public sealed record Vin
{
    public const int FullLength = 17;
    public const int ShortestOverride = 5;
    public const int LongestReason = 200;

    /// <summary>Longest text looked at; anything beyond is not a number somebody typed or scanned.</summary>
    private const int LongestInput = 64;

    private Vin(string value, string? overrideReason)
    {
        Value = value;
        OverrideReason = overrideReason;
    }

    /// <summary>The number in capitals, without spaces and dashes.</summary>
    public string Value { get; }

    /// <summary>Why a number that breaks the rules was accepted; null for one that keeps them.</summary>
    public string? OverrideReason { get; }

    /// <summary>Whether the number has 17 characters of the permitted alphabet.</summary>
    public bool IsFull => FindAlphabetProblem(Value) is null;

    /// <summary>Whether position 9 carries the digit 49 CFR 565.15(c) computes; always false for a number that is not full.</summary>
    public bool CheckDigitMatches => IsFull && VinCheckDigit.Compute(Value) == Value[VinCheckDigit.Position - 1];

    /// <summary>
    /// Accepts a 17-character number. <paramref name="checkDigitApplies"/> is true for vehicles built for a market that demands
    /// the check digit; without it position 9 may hold anything of the alphabet.
    /// </summary>
    public static bool TryCreate(
        string? input,
        bool checkDigitApplies,
        [NotNullWhen(true)] out Vin? vin,
        [NotNullWhen(false)] out string? problem)
    {
        vin = null;
        if (!TryNormalise(input, out var value, out problem))
        {
            return false;
        }

        problem = FindAlphabetProblem(value) ?? (checkDigitApplies ? FindCheckDigitProblem(value) : null);
        if (problem is not null)
        {
            return false;
        }

        vin = new Vin(value, null);
        return true;
    }

    /// <summary>
    /// Accepts a number the rules refuse (5 to 17 letters and digits), as older vehicles, imports and self-built trailers carry,
    /// together with the reason somebody gave for it.
    /// </summary>
    public static bool TryCreateOverride(
        string? input,
        string? reason,
        [NotNullWhen(true)] out Vin? vin,
        [NotNullWhen(false)] out string? problem)
    {
        vin = null;
        if (!TryNormalise(input, out var value, out problem))
        {
            return false;
        }

        if (value.Length is < ShortestOverride or > FullLength)
        {
            problem = string.Create(
                CultureInfo.InvariantCulture,
                $"Vehicle number '{value}' has {value.Length} characters. An older or unusual number may have {ShortestOverride} to {FullLength}.");
            return false;
        }

        var odd = value.AsSpan().IndexOfAnyExcept(VinCheckDigit.LettersAndDigits);
        if (odd >= 0)
        {
            problem = string.Create(
                CultureInfo.InvariantCulture,
                $"Vehicle number '{value}': '{value[odd]}' at position {odd + 1} is neither a letter A to Z nor a digit.");
            return false;
        }

        var trimmed = reason?.Trim() ?? string.Empty;
        if (trimmed.Length is 0 or > LongestReason)
        {
            problem = string.Create(
                CultureInfo.InvariantCulture,
                $"A vehicle number outside the 17-character rules needs a reason (1 to {LongestReason} characters), for example 'built before 1981, number read from the frame'.");
            return false;
        }

        vin = new Vin(value, trimmed);
        problem = null;
        return true;
    }

    /// <summary>
    /// Model years that position 10 may stand for, earliest first; empty when the number is not full or the code is not a year code.
    /// </summary>
    /// <param name="lightVehicle">
    /// True for passenger cars and for multipurpose vehicles and trucks of 4,536 kg (10,000 lb) gross weight or less: position 7
    /// then tells the cycles apart (digit: 1980 to 2009, letter: 2010 to 2039). Other vehicles get both years, 30 apart.
    /// </param>
    /// <remarks>49 CFR 565.15(d)(1), Table VII. Makers who build for other markets only need not put a year into position 10.</remarks>
    public IReadOnlyList<int> ModelYearCandidates(bool lightVehicle)
    {
        const string YearCodesFrom1980 = "ABCDEFGHJKLMNPRSTVWXY123456789";
        const int Cycle = 30;
        if (!IsFull)
        {
            return [];
        }

        var index = YearCodesFrom1980.IndexOf(Value[9], StringComparison.Ordinal);
        if (index < 0)
        {
            return [];
        }

        var early = 1980 + index;
        if (!lightVehicle)
        {
            return [early, early + Cycle];
        }

        return [char.IsAsciiDigit(Value[6]) ? early : early + Cycle];
    }

    public override string ToString() => Value;

    private static bool TryNormalise(string? input, out string value, [NotNullWhen(false)] out string? problem)
    {
        value = string.Empty;
        var text = input?.Trim() ?? string.Empty;
        if (text.Length > LongestInput)
        {
            problem = string.Create(
                CultureInfo.InvariantCulture,
                $"Vehicle number: {text.Length} characters were entered; a VIN has {FullLength}.");
            return false;
        }

        value = string.Concat(text.Where(c => !char.IsWhiteSpace(c) && !IsDash(c))).ToUpperInvariant();
        problem = value.Length == 0 ? "Vehicle number is empty. Enter the 17 characters from the windscreen plate or the registration." : null;
        return problem is null;
    }

    private static bool IsDash(char c) => char.GetUnicodeCategory(c) == UnicodeCategory.DashPunctuation || c == '\u2212';

    private static string? FindAlphabetProblem(string value)
    {
        if (value.Length != FullLength)
        {
            return string.Create(
                CultureInfo.InvariantCulture,
                $"Vehicle number '{value}' has {value.Length} characters; a VIN has {FullLength}. For an older vehicle tick 'unusual number' and give a reason.");
        }

        var odd = value.AsSpan().IndexOfAnyExcept(VinCheckDigit.Alphabet);
        if (odd < 0)
        {
            return null;
        }

        var hint = value[odd] switch
        {
            'I' => "The letter I is not used in a VIN; it may be the digit 1.",
            'O' => "The letter O is not used in a VIN; it may be the digit 0.",
            'Q' => "The letter Q is not used in a VIN; it may be the digit 0 or 9.",
            _ => "A VIN holds digits and the letters A to Z without I, O and Q.",
        };
        return string.Create(
            CultureInfo.InvariantCulture,
            $"Vehicle number '{value}': '{value[odd]}' at position {odd + 1} is not accepted. {hint}");
    }

    private static string? FindCheckDigitProblem(string value)
    {
        var computed = VinCheckDigit.Compute(value);
        var found = value[VinCheckDigit.Position - 1];
        return found == computed
            ? null
            : $"Check digit at position 9 is '{found}', computed '{computed}' (49 CFR 565.15). Compare each character with the plate. "
                + "Vehicles not built for that market may not carry one: tick 'no check digit' with a reason.";
    }
}
