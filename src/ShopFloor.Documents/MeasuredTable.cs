using ShopFloor.Documents.Composition;
using ShopFloor.Shop.Phases.Build;

namespace ShopFloor.Documents;

/// <summary>As-measured values as a table, for the bench and for the client.</summary>
internal static class MeasuredTable
{
    /// <summary>For the bench: with the state of the car, and a line to write on where nothing is measured yet.</summary>
    public static Table ForBench(IReadOnlyList<MeasuredFact> facts) => new(
        [new Column("Value", Width: 2.6), new Column("How", Width: 3.4), Column.Number("Predicted"), Column.Number("Accepted", 1.5), Column.Number("Measured", 1.2), new Column("Result", Width: 1.2)],
        [.. facts.Select(fact => new TableRow(fact.Name, fact.How, MeasuredWords.Predicted(fact.Predicted, fact.PredictedIsPart, fact.Unit), MeasuredWords.Accepted(fact.Lowest, fact.Highest, fact.Unit), fact.Value is { } value ? MeasuredWords.Number(value, fact.Unit) : "________", Result(fact))
        {
            Emphasis = fact.Verdict == MeasuredVerdict.Outside ? RowEmphasis.Strong : RowEmphasis.None,
        })]);

    /// <summary>For the client and the next workshop.</summary>
    public static Table ForClient(IReadOnlyList<MeasuredFact> facts) => new(
        [new Column("What we measured", Width: 3.4), Column.Number("Measured"), Column.Number("Expected"), Column.Number("Good is", 1.5), new Column("Result", Width: 1.2)],
        [.. facts.Select(fact => new TableRow(fact.Name, fact.Value is { } value ? MeasuredWords.Number(value, fact.Unit) : "–", MeasuredWords.Predicted(fact.Predicted, fact.PredictedIsPart, fact.Unit), MeasuredWords.Accepted(fact.Lowest, fact.Highest, fact.Unit), Result(fact))
        {
            Emphasis = fact.Verdict == MeasuredVerdict.Outside ? RowEmphasis.Strong : RowEmphasis.None,
        })]);

    public static string Result(MeasuredFact fact) => fact.Verdict switch
    {
        MeasuredVerdict.Within => "good",
        MeasuredVerdict.Outside => "outside",
        _ => "not measured",
    };
}
