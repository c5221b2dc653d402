using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Drivers;

/// <summary>How the file of an impedance sweep is laid out.</summary>
public sealed record ImpedanceLayout
{
    /// <summary>What stands between columns.</summary>
    public ColumnSeparator Separator { get; init; }

    /// <summary>Whether decimals follow a comma; else a point.</summary>
    public bool DecimalComma { get; init; }

    /// <summary>Column of frequencies, from 0, to 63.</summary>
    public int FrequencyColumn { get; init; }

    /// <summary>Their unit.</summary>
    public FrequencyUnit FrequencyUnit { get; init; }

    /// <summary>Column of magnitudes in Ω, from 0, to 63.</summary>
    public int OhmsColumn { get; init; } = 1;

    /// <summary>Column of phases, from 0, to 63; null for none.</summary>
    public int? PhaseColumn { get; init; }

    /// <summary>Their unit.</summary>
    public PhaseUnit PhaseUnit { get; init; }

    /// <summary>What is wrong; empty when a file can be read with it.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null) =>
        TableChecks.Of(text, Separator, DecimalComma, (FrequencyColumn, FrequencyUnit), (OhmsColumn, nameof(OhmsColumn), "ohms", "ohms"), (PhaseColumn, PhaseUnit));
}

/// <summary>How the file of a sweep looks, to be confirmed before it is read.</summary>
/// <param name="Layout">What was guessed; null when no table was found.</param>
/// <param name="Titles">Titles of the columns as far as the file has them.</param>
/// <param name="FirstRows">The first rows as they were read with the guess, up to 8.</param>
/// <param name="FirstLine">Line of the first row, from 1.</param>
/// <param name="Rows">Rows that read as numbers.</param>
/// <param name="Questions">What was guessed from the numbers alone and should be looked at.</param>
/// <param name="Problems">Why nothing was found; empty otherwise.</param>
public sealed record ImpedanceProposal(
    ImpedanceLayout? Layout, IReadOnlyList<string> Titles, IReadOnlyList<IReadOnlyList<double>> FirstRows, int FirstLine, int Rows, IReadOnlyList<string> Questions, IReadOnlyList<InputProblem> Problems);
