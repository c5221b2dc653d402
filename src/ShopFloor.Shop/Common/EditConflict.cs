using System.ComponentModel.DataAnnotations;
using System.Globalization;
using System.Reflection;

namespace ShopFloor.Shop.Common;

/// <summary>Two people edited the same thing: what each has, for the second to choose from.</summary>
public sealed record EditConflict(
    string Subject,
    string ChangedBy,
    DateTimeOffset ChangedAt,
    Guid CurrentVersion,
    IReadOnlyList<FieldDifference> Differences)
{
    /// <summary>Compares two filled-in forms of the same type, property by property.</summary>
    public static IReadOnlyList<FieldDifference> Compare<TDetails>(TDetails mine, TDetails theirs)
        where TDetails : class =>
        [.. from property in typeof(TDetails).GetProperties(BindingFlags.Public | BindingFlags.Instance)
            where property is { CanRead: true, CanWrite: true }
            let mineText = Show(property.GetValue(mine))
            let theirsText = Show(property.GetValue(theirs))
            where mineText != theirsText
            select new FieldDifference(
                property.Name,
                property.GetCustomAttribute<DisplayAttribute>()?.GetName() ?? property.Name,
                mineText,
                theirsText)];

    /// <summary>Copies the named fields of <paramref name="source"/> into <paramref name="target"/>: the choice "take theirs".</summary>
    public static void Take<TDetails>(TDetails target, TDetails source, IEnumerable<string> fields)
        where TDetails : class
    {
        foreach (var field in fields)
        {
            var property = typeof(TDetails).GetProperty(field)
                ?? throw new ArgumentException($"{typeof(TDetails).Name} has no field {field}.", nameof(fields));
            property.SetValue(target, property.GetValue(source));
        }
    }

    private static string Show(object? value) => value switch
    {
        null => "",
        string text => text,
        System.Collections.IEnumerable many => string.Join("; ", many.Cast<object>().Select(Show)),
        IFormattable formattable => formattable.ToString(null, CultureInfo.CurrentCulture),
        _ => value.ToString() ?? "",
    };
}

/// <param name="Field">Property name.</param>
/// <param name="Label">Name shown to people.</param>
/// <param name="Mine">What the second person typed.</param>
/// <param name="Theirs">What is stored now.</param>
public sealed record FieldDifference(string Field, string Label, string Mine, string Theirs);
