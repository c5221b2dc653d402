using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Shop.Phases.Build;

namespace ShopFloor.Documents;

/// <summary>As-measured values as a table, for the bench and for the client.</summary>
internal static class MeasuredTable
{
    /// <summary>For the bench: with the state of the car, and a line to write on where nothing is measured yet.</summary>
    public static Table ForBench(IReadOnlyList<MeasuredFact> facts) => new(
        [new Column("Value", Width: 2.6), new Column("How", Width: 3.4), Column.Number("Predicted"), Column.Number("Accepted", 1.5), Column.Number("Measured", 1.2), new Column("Result", Width: 1.2)],
        [.. facts.Select(fact => new TableRow(fact.Name, fact.How, Predicted(fact), Accepted(fact), fact.Value is { } value ? Number(value, fact.Unit) : "________", Result(fact))
        {
            Emphasis = fact.Verdict == MeasuredVerdict.Outside ? RowEmphasis.Strong : RowEmphasis.None,
        })]);

    /// <summary>For the client and the next workshop.</summary>
    public static Table ForClient(IReadOnlyList<MeasuredFact> facts) => new(
        [new Column("What we measured", Width: 3.4), Column.Number("Measured"), Column.Number("Expected"), Column.Number("Good is", 1.5), new Column("Result", Width: 1.2)],
        [.. facts.Select(fact => new TableRow(fact.Name, fact.Value is { } value ? Number(value, fact.Unit) : "–", Predicted(fact), Accepted(fact), Result(fact))
        {
            Emphasis = fact.Verdict == MeasuredVerdict.Outside ? RowEmphasis.Strong : RowEmphasis.None,
        })]);

    private static string Result(MeasuredFact fact) => fact.Verdict switch
    {
        MeasuredVerdict.Within => "good",
        MeasuredVerdict.Outside => "outside",
        _ => "not measured",
    };

    private static string Predicted(MeasuredFact fact) =>
        fact.Predicted is { } predicted ? (fact.PredictedIsPart ? "at least " : "") + Number(predicted, fact.Unit) : "not known";

    private static string Accepted(MeasuredFact fact) => (fact.Lowest, fact.Highest) switch
    {
        ({ } low, { } high) when low > 0 => string.Create(CultureInfo.CurrentCulture, $"{low:0.0} to {Number(high, fact.Unit)}"),
        (_, { } high) => $"at most {Number(high, fact.Unit)}",
        ({ } low, null) => $"at least {Number(low, fact.Unit)}",
        _ => "any",
    };

    private static string Number(double value, string unit) =>
        value.ToString(unit == "V" ? "0.0#" : "0.#", CultureInfo.CurrentCulture) + "\u00a0" + unit;
}
