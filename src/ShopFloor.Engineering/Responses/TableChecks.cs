using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Responses;

/// <summary>What must hold for the layout of any table of frequency, a value and perhaps phase.</summary>
internal static class TableChecks
{
    private const int LastColumn = 63;

    /// <param name="value">Field, plural and singular of the column between frequency and phase.</param>
    public static IReadOnlyList<InputProblem> Of(
        UnitText? text, ColumnSeparator separator, bool decimalComma, (int Column, FrequencyUnit Unit) frequency, (int Column, string Field, string Plural, string Singular) value, (int? Column, PhaseUnit Unit) phase)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.Known("Separator", "Separator", separator);
        checks.Known("FrequencyUnit", "Unit of frequency", frequency.Unit);
        checks.Known("PhaseUnit", "Unit of phase", phase.Unit);
        checks.InRange("FrequencyColumn", "Column of frequencies", frequency.Column, 0, LastColumn);
        checks.InRange(value.Field, $"Column of {value.Plural}", value.Column, 0, LastColumn);
        checks.InRange("PhaseColumn", "Column of phases", phase.Column, 0, LastColumn);
        if (frequency.Column == value.Column || phase.Column == frequency.Column || phase.Column == value.Column)
            checks.Add(value.Field, $"Columns: frequency, {value.Singular} and phase must each have their own.");
        if (separator == ColumnSeparator.Comma && decimalComma)
            checks.Add("DecimalComma", "Decimal comma: commas already stand between the columns; choose one of both.");
        return checks.Problems;
    }
}
