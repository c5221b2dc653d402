using ShopFloor.Documents.Composition;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Signal;

/// <summary>The connection list as a table, for the bench and for the client's file.</summary>
internal static class ConnectionTable
{
    public static Table Of(IReadOnlyList<ConnectionRow> rows, UnitText text) => new(
        [new Column("No.", Width: 0.6), new Column("From", Width: 2.4), new Column("To", Width: 2.4), new Column("Carries", Width: 1.6), new Column("Ends", Width: 2.4), Column.Number("Length"), new Column("Cable", Width: 1.8)],
        [.. rows.Select(row => new TableRow(
            row.Mark, row.From, row.To, row.Carries, row.FromConnector == row.ToConnector ? $"{row.FromConnector}, both ends" : $"{row.FromConnector}; {row.ToConnector}", Length(row, text), row.Cable))]) { WhenEmpty = "Nothing is linked yet." };

    public static string Length(ConnectionRow row, UnitText text) =>
        row.LengthMeters is { } meters ? row.LengthMeasured ? text.Meters(meters) : $"about {text.Meters(meters)}" : "–";
}
