using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Measurements;

/// <summary>How a table of a response is laid out.</summary>
public sealed record ResponseTableLayout
{
    /// <summary>What stands between columns.</summary>
    public required ColumnSeparator Separator { get; init; }

    /// <summary>Whether decimals follow a comma; else a point.</summary>
    public bool DecimalComma { get; init; }

    /// <summary>Column of frequencies, from 0, to 63.</summary>
    public int FrequencyColumn { get; init; }

    /// <summary>Their unit.</summary>
    public FrequencyUnit FrequencyUnit { get; init; }

    /// <summary>Column of levels in dB, from 0, to 63.</summary>
    public int LevelColumn { get; init; } = 1;

    /// <summary>Column of phases, from 0, to 63; null for none.</summary>
    public int? PhaseColumn { get; init; }

    /// <summary>Their unit.</summary>
    public PhaseUnit PhaseUnit { get; init; }

    /// <summary>What is wrong; empty when a table can be read with it.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null) =>
        TableChecks.Of(text, Separator, DecimalComma, (FrequencyColumn, FrequencyUnit), (LevelColumn, nameof(LevelColumn), "levels", "level"), (PhaseColumn, PhaseUnit));
}

/// <summary>How a table looks, to be confirmed before it is read.</summary>
/// <param name="Layout">What was guessed; null when no table was found.</param>
/// <param name="Titles">Titles of the columns as far as the table has them.</param>
/// <param name="FirstRows">The first rows as they were read with the guess, up to 10.</param>
/// <param name="FirstLine">Line of the first row, from 1.</param>
/// <param name="Rows">Rows that read as numbers.</param>
/// <param name="Questions">What was guessed from the numbers alone and should be looked at.</param>
/// <param name="Problems">Why nothing was found; empty otherwise.</param>
public sealed record ResponseTableProposal(
    ResponseTableLayout? Layout,
    IReadOnlyList<string> Titles,
    IReadOnlyList<IReadOnlyList<double>> FirstRows,
    int FirstLine,
    int Rows,
    IReadOnlyList<string> Questions,
    IReadOnlyList<TableProblem> Problems);

/// <summary>A table that was read.</summary>
/// <param name="Response">The response; null when there are problems.</param>
/// <param name="Skipped">Comments, headers and empty lines passed over.</param>
/// <param name="Problems">What is wrong, by line; at most 20.</param>
public sealed record ResponseTableReading(FrequencyResponse? Response, int Skipped, IReadOnlyList<TableProblem> Problems);
