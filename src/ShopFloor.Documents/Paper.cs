using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Money;

namespace ShopFloor.Documents;

/// <summary>What every paper of the shop does the same way: its head, dates, amounts and quantities.</summary>
internal static class Paper
{
    public static DocumentHead Head(Letterhead letterhead, string title, string subtitle, string reference) => new(title, letterhead.ShopName)
    {
        Subtitle = subtitle,
        Reference = reference,
        ShopContact = letterhead.Contact,
    };

    public static string Day(DateOnly day) => day.ToString("d MMMM yyyy", CultureInfo.CurrentCulture);

    public static string Day(Letterhead letterhead, DateTimeOffset instant) => Day(DateOnly.FromDateTime(letterhead.Local(instant).DateTime));

    public static string Moment(Letterhead letterhead, DateTimeOffset instant) => $"{letterhead.Local(instant).ToString("d MMMM yyyy, HH:mm", CultureInfo.CurrentCulture)} ({letterhead.ZoneText})";

    public static string Money(decimal amount, string currency) =>
        Currency.TryFromCode(currency, out var known, out _)
            ? new Amount(amount, known).Format(CultureInfo.CurrentCulture)
            : string.Create(CultureInfo.CurrentCulture, $"{amount:N2}");

    public static string Mass(double kilograms, UnitSystem units) => Quantity.Format(kilograms, QuantityKind.Mass, units, CultureInfo.CurrentCulture);

    public static string Distance(double kilometers, UnitSystem units) =>
        $"{Quantity.FormatRounded(Quantity.ToShown(kilometers, QuantityKind.Distance, units), 0, CultureInfo.CurrentCulture)}\u00a0{Quantity.Symbol(QuantityKind.Distance, units)}";

    public static string Number(double value) => value.ToString("0.##", CultureInfo.CurrentCulture);

    /// <summary>A text of several lines as one paragraph a line; empty lines are left out.</summary>
    public static IEnumerable<string> Lines(string text) => text.Split('\n').Select(line => line.Trim()).Where(line => line.Length > 0);

    /// <summary>The facts that are known; a paper shows no empty names.</summary>
    public static KeyValues Facts(int across, params (string Name, string Value)[] facts) =>
        new([.. facts.Where(fact => fact.Value.Length > 0).Select(fact => new Fact(fact.Name, fact.Value))]) { Across = across };
}
