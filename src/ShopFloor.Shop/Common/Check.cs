using System.Globalization;

namespace ShopFloor.Shop.Common;

/// <summary>Collects the problems of one input, one line a rule.</summary>
public sealed class Check
{
    private readonly List<Problem> _problems = [];

    public List<Problem> Problems => _problems;

    public bool Failed => _problems.Count > 0;

    public Check That(bool ok, string field, string message)
    {
        if (!ok)
        {
            _problems.Add(new Problem(field, message));
        }

        return this;
    }

    /// <summary>Text that must be there and no longer than <paramref name="longest"/> characters.</summary>
    public Check Required(string? value, string field, string label, int longest = Limits.Name) =>
        That(!string.IsNullOrWhiteSpace(value), field, $"{label} is needed.").Longest(value, field, label, longest);

    public Check Longest(string? value, string field, string label, int longest) =>
        That((value?.Trim().Length ?? 0) <= longest, field, $"{label} has {value?.Trim().Length} characters; at most {longest} are kept.");

    public Check Range(double? value, string field, string label, double lowest, double highest, string unit) =>
        That(
            value is null || (double.IsFinite(value.Value) && value >= lowest && value <= highest),
            field,
            string.Create(CultureInfo.CurrentCulture, $"{label} is {value}{Tail(unit)}; accepted is {lowest} to {highest}{Tail(unit)}."));

    public Check Range(int? value, string field, string label, int lowest, int highest, string unit) =>
        Range((double?)value, field, label, lowest, highest, unit);

    public Check Range(decimal? value, string field, string label, decimal lowest, decimal highest, string unit) =>
        That(
            value is null || (value >= lowest && value <= highest),
            field,
            string.Create(CultureInfo.CurrentCulture, $"{label} is {value}{Tail(unit)}; accepted is {lowest} to {highest}{Tail(unit)}."));

    private static string Tail(string unit) => unit.Length > 0 ? " " + unit : "";
}

/// <summary>Longest texts kept, the same in forms, rules and columns.</summary>
public static class Limits
{
    public const int Name = 200;
    public const int Line = 500;
    public const int Note = 4000;
    public const int Page = 100;
}
