namespace ShopFloor.Shop.Phases.Build;

/// <summary>A value as papers say it: measured, predicted, accepted.</summary>
/// <param name="Unit">Unit of all its numbers.</param>
/// <param name="How">State of the car and where the meter goes.</param>
/// <param name="Value">Null while it is not measured.</param>
/// <param name="Predicted">As predicted when it was measured, else as predicted now.</param>
/// <param name="PredictedIsPart">Whether something unknown comes on top of the predicted value.</param>
/// <param name="Verdict">Judged by the plan as it is.</param>
public sealed record MeasuredFact(
    string Name, string Unit, string How, double? Value, double? Predicted, bool PredictedIsPart, double? Lowest, double? Highest, MeasuredVerdict Verdict, string By)
{
    public static MeasuredFact Of(MeasuredRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return new MeasuredFact(
            row.Point.Name,
            row.Point.Unit,
            row.Point.How,
            row.Current?.Value,
            row.Current is { } current ? current.Predicted : row.Point.Predicted,
            row.Point.PredictedIsPart,
            row.Point.Lowest,
            row.Point.Highest,
            row.Verdict,
            row.Current?.By ?? "");
    }
}
