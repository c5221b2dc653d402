namespace ShopFloor.Documents.Composition;

/// <summary>
/// Rows of text cells. The header is repeated on every page the table reaches and a row is not cut,
/// unless a single row is taller than a page.
/// A row with fewer cells than columns is filled up with empty ones; one with more is refused.
/// </summary>
public sealed record Table(IReadOnlyList<Column> Columns, IReadOnlyList<TableRow> Rows) : Block
{
    public string Caption { get; init; } = "";

    /// <summary>Shown instead of rows when there are none.</summary>
    public string WhenEmpty { get; init; } = "";
}

/// <summary>A column. A string converts to a text column of width 1.</summary>
/// <param name="Header">Column title.</param>
/// <param name="Alignment">Where cells stand; <see cref="CellAlignment.Number"/> is to the right in digits of equal width.</param>
/// <param name="Width">Share of the width against the other columns. A column is still never narrower than its longest word if that can
/// be had.</param>
public sealed record Column(string Header, CellAlignment Alignment = CellAlignment.Start, double Width = 1)
{
    public static implicit operator Column(string header) => FromString(header);

    public static Column FromString(string header) => new(header);

    /// <summary>A column of numbers.</summary>
    public static Column Number(string header, double width = 1) => new(header, CellAlignment.Number, width);
}

/// <summary>Where a cell's text stands.</summary>
public enum CellAlignment
{
    Start,
    Middle,
    End,

    /// <summary>To the right, digits of equal width.</summary>
    Number,
}

/// <summary>A row of cells.</summary>
public sealed record TableRow(params IReadOnlyList<string> Cells)
{
    public RowEmphasis Emphasis { get; init; }

    /// <summary>A line across the whole table that names the rows after it.</summary>
    public static TableRow Group(string name) => new(name) { Emphasis = RowEmphasis.Group };

    /// <summary>A sum or another row that closes those above it.</summary>
    public static TableRow Total(params IReadOnlyList<string> cells) => new(cells) { Emphasis = RowEmphasis.Total };
}

/// <summary>How a row stands out.</summary>
public enum RowEmphasis
{
    None,
    Strong,
    Secondary,
    Total,
    Group,
}
