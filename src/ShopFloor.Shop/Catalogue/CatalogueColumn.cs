using System.Globalization;

namespace ShopFloor.Shop.Catalogue;

/// <summary>A column every catalogue file may have, whatever the kind of the part.</summary>
/// <param name="Key">Header of the column.</param>
/// <param name="Meaning">What it holds, in plain words, with its unit.</param>
/// <param name="Write">The value as the file carries it.</param>
/// <param name="Read">Takes the value over; answers null, or what is wrong with it.</param>
public sealed record CatalogueColumn(string Key, string Meaning, Func<PartFacts, string> Write, Func<PartFacts, string, string?> Read)
{
    public const string KindKey = "kind";
    public const string CostKey = "unit_cost";
    public const string PriceKey = "unit_price";

    /// <summary>The common columns. Technical ones come from <see cref="PartKinds"/>.</summary>
    public static IReadOnlyList<CatalogueColumn> Common { get; } =
    [
        new(
            KindKey,
            "What sort of part: " + string.Join(", ", Enum.GetNames<PartKind>().Select(Snake)) + ". Needed.",
            facts => Snake(facts.Kind.ToString()),
            (_, _) => null), // read first, because it decides the other columns
        new("name", "Name. Needed for new parts.", facts => facts.Name, (facts, text) => Take(text, value => facts.Name = value)),
        new("supplier", "Supplier.", facts => facts.Supplier, (facts, text) => Take(text, value => facts.Supplier = value)),
        new("part_number", "Supplier's number; with the supplier it says which part is meant.", facts => facts.PartNumber, (facts, text) => Take(text, value => facts.PartNumber = value)),
        new(
            "unit",
            "What a quantity counts: " + string.Join(", ", Enum.GetNames<PartUnit>().Select(Snake)) + ". Empty takes what is usual for the kind.",
            facts => Snake(facts.Unit.ToString()),
            (facts, text) =>
            {
                if (!TryChoice<PartUnit>(text, out var unit))
                {
                    return $"'{text}' is not one of {string.Join(", ", Enum.GetNames<PartUnit>().Select(Snake))}.";
                }

                facts.Unit = unit;
                return null;
            }),
        new(CostKey, "Our cost per unit, net. Only the owner sees and sets it.", facts => Money(facts.UnitCost), (facts, text) => ReadMoney(text, value => facts.UnitCost = value)),
        new(PriceKey, "Price per unit, net.", facts => Money(facts.UnitPrice), (facts, text) => ReadMoney(text, value => facts.UnitPrice = value)),
        new(
            "unit_mass_kilograms",
            "Mass per unit, kg.",
            facts => facts.UnitMassKilograms?.ToString("R", CultureInfo.InvariantCulture) ?? "",
            (facts, text) =>
            {
                if (!double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var mass))
                {
                    return NotANumber(text);
                }

                facts.UnitMassKilograms = mass;
                return null;
            }),
        new("notes", "Notes.", facts => facts.Notes, (facts, text) => Take(text, value => facts.Notes = value)),
    ];

    /// <summary>Technical columns of a kind, with what they mean.</summary>
    public static IEnumerable<(PartField Field, string Meaning)> Technical(PartKind kind) =>
        PartKinds.Of(kind).Fields.Select(field => (
            field,
            string.Join(
                " ",
                new[]
                {
                    field.Unit.Length > 0 ? $"{field.Label}, {field.Unit}." : field.Label + ".",
                    field.IsChoice ? $"One of {string.Join(", ", field.Choices.Select(Snake))}." : "",
                    field.IsNumber ? string.Create(CultureInfo.InvariantCulture, $"{field.Min} to {field.Max}.") : "",
                    field.Help,
                }.Where(part => part.Length > 0))));

    internal static string Snake(string name) => string.Concat(
        name.Select((character, index) => char.IsUpper(character) && index > 0 && char.IsLower(name[index - 1])
            ? "_" + char.ToLowerInvariant(character)
            : char.ToLowerInvariant(character).ToString()));

    internal static bool TryChoice<TChoice>(string text, out TChoice choice)
        where TChoice : struct, Enum
    {
        var name = text.Replace("_", "", StringComparison.Ordinal);
        // Numbers also parse as an enum; only names are meant.
        return Enum.TryParse(name, ignoreCase: true, out choice) && Enum.IsDefined(choice) && !char.IsAsciiDigit(name[0]);
    }

    internal static string NotANumber(string text) => $"'{text}' is not a number; write it with a decimal point, without a unit.";

    private static string? Take(string text, Action<string> take)
    {
        take(text);
        return null;
    }

    private static string Money(decimal? amount) => amount?.ToString("0.00##", CultureInfo.InvariantCulture) ?? "";

    private static string? ReadMoney(string text, Action<decimal?> take)
    {
        if (!decimal.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var amount))
        {
            return NotANumber(text);
        }

        take(amount);
        return null;
    }
}
