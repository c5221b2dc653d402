using System.Diagnostics.CodeAnalysis;

namespace ShopFloor.Shop.Staff.Secrets;

/// <summary>Which PINs a person may choose: six digits that are not among the first anybody would try.</summary>
public static class PinRules
{
    public const int Length = 6;

    // Corner-to-corner and column walks over a number pad, and dates of fame; from memory of published lists of common PINs.
    private static readonly HashSet<string> Common = new(StringComparer.Ordinal)
    {
        "147258", "258369", "369258", "258147", "147369", "369147", "741852", "852963", "963852", "789456", "456789", "456123",
        "123789", "159753", "753159", "159357", "357159", "951753", "142536", "102030", "010203", "314159", "520131", "123654",
        "654123", "321654", "123987", "789123", "112358", "131420", "696969",
    };

    /// <summary>Whether the text has the shape of a PIN: exactly six digits 0 to 9.</summary>
    public static bool HasShape([NotNullWhen(true)] string? pin) => pin is { Length: Length } && pin.All(char.IsAsciiDigit);

    /// <summary>Whether a person may choose this PIN; otherwise why not. The PIN is not repeated in the message.</summary>
    public static bool Accepts([NotNullWhen(true)] string? pin, [NotNullWhen(false)] out string? problem)
    {
        problem = !HasShape(pin) ? "A PIN has exactly 6 digits, 0 to 9."
            : HasFewDigits(pin) ? "This PIN uses fewer than three different digits, so it is among the first to be tried. Choose another."
            : IsEvenlyStepped(pin) ? "This PIN counts up or down in even steps, so it is among the first to be tried. Choose another."
            : IsRepeated(pin) || IsMirrored(pin) || IsSteppedPairs(pin)
                ? "This PIN repeats a short pattern, so it is among the first to be tried. Choose another."
            : Common.Contains(pin) ? "This PIN is a common one, so it is among the first to be tried. Choose another."
            : null;
        return problem is null;
    }

    private static bool HasFewDigits(string pin) => pin.Distinct().Count() < 3;

    // 123456, 654321, 890123 (past nine comes nought), 135791, 000000.
    private static bool IsEvenlyStepped(string pin) =>
        Enumerable.Range(1, Length - 1).Select(i => (pin[i] - pin[i - 1] + 10) % 10).Distinct().Count() == 1;

    // 123123 (121212 already has too few digits).
    private static bool IsRepeated(string pin) => pin[..3] == pin[3..];

    // 123321
    private static bool IsMirrored(string pin) => pin[0] == pin[5] && pin[1] == pin[4] && pin[2] == pin[3];

    // 112233, 998877
    private static bool IsSteppedPairs(string pin) =>
        pin[0] == pin[1] && pin[2] == pin[3] && pin[4] == pin[5] && (pin[2] - pin[0] + 10) % 10 == (pin[4] - pin[2] + 10) % 10;
}
