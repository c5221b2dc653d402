namespace ShopFloor.Engineering.Responses;

/// <summary>What stands between the columns of a table.</summary>
public enum ColumnSeparator
{
    /// <summary>A tab.</summary>
    Tab,

    /// <summary>A semicolon.</summary>
    Semicolon,

    /// <summary>A comma.</summary>
    Comma,

    /// <summary>One or more blanks or tabs.</summary>
    Blanks,
}

/// <summary>Unit of a column of frequencies.</summary>
public enum FrequencyUnit
{
    /// <summary>Hz.</summary>
    Hertz,

    /// <summary>kHz.</summary>
    Kilohertz,
}

/// <summary>Unit of a column of phases.</summary>
public enum PhaseUnit
{
    /// <summary>Degrees.</summary>
    Degrees,

    /// <summary>Radians.</summary>
    Radians,
}

/// <summary>What is wrong with a table, and where.</summary>
/// <param name="Line">Line, from 1; 0 for the whole.</param>
/// <param name="Message">What is wrong, with the value and what is accepted.</param>
public sealed record TableProblem(int Line, string Message);
