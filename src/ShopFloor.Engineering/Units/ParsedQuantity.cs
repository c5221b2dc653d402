using System.Diagnostics.CodeAnalysis;

namespace ShopFloor.Engineering.Units;

/// <summary>What became of a number someone typed.</summary>
/// <param name="Value">The value in the stored unit of its kind, or null when it was refused.</param>
/// <param name="Problem">Why it was refused and what is accepted, or null when it was read.</param>
public sealed record ParsedQuantity(double? Value, string? Problem)
{
    /// <summary>Whether a value was read.</summary>
    [MemberNotNullWhen(true, nameof(Value))]
    [MemberNotNullWhen(false, nameof(Problem))]
    public bool IsRead => Value is not null;

    internal static ParsedQuantity Read(double value) => new(value, null);

    internal static ParsedQuantity Refused(string problem) => new(null, problem);
}
