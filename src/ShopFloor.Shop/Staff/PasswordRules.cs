using System.Diagnostics.CodeAnalysis;

namespace ShopFloor.Shop.Staff;

/// <summary>Which passwords are taken: long ones that are not plainly guessable. Length does more than mixtures of signs (NIST SP 800-63B, from memory).</summary>
public static class PasswordRules
{
    public const int Shortest = 12;
    public const int Longest = 128;

    private const int DistinctCharacters = 5;

    private static readonly string[] Guessable = ["password", "passwort", "qwertyuiop", "123456789", "shopfloor"];

    /// <summary>Whether a person may choose this password; otherwise why not. The password is not repeated in the message.</summary>
    public static bool Accepts(string? password, string userName, [NotNullWhen(false)] out string? problem)
    {
        problem = password is null || password.Length < Shortest ? $"The password has {password?.Length ?? 0} characters; at least {Shortest} are needed."
            : password.Length > Longest ? $"The password has {password.Length} characters; at most {Longest} are taken."
            : password.Distinct().Count() < DistinctCharacters ? $"The password uses fewer than {DistinctCharacters} different characters. Choose another."
            : userName.Length >= 3 && password.Contains(userName, StringComparison.OrdinalIgnoreCase) ? "The password contains the sign-in name. Choose another."
            : Guessable.Any(word => Remainder(password, word) <= 4) ? "The password is among the first anybody would try. Choose another."
            : null;
        return problem is null;
    }

    // How much of the password is left when the guessable word is taken out of it.
    private static int Remainder(string password, string word) =>
        password.Replace(word, "", StringComparison.OrdinalIgnoreCase) is var rest && rest.Length < password.Length ? rest.Length : int.MaxValue;
}
