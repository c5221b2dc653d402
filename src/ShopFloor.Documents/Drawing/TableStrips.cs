using ShopFloor.Documents.Composition;

namespace ShopFloor.Documents.Drawing;

/// <summary>A table as strips: a header that returns on every page, then one strip a row.</summary>
internal sealed class TableStrips
{
    private const float Gap = 9;
    private const float Padding = 3.2f;

    // A header taller than this share of the page is not repeated: rows would have no room.
    private const float LargestRepeatedHeader = 0.4f;

    private readonly Table _table;
    private readonly float _pageHeight;
    private readonly float _fullWidth;
    private readonly ShapedText[] _headers;
    private readonly ShapedText[][] _cells;
    private readonly float[] _left;
    private readonly float[] _widths;

    public TableStrips(Table table, float width, float pageHeight)
    {
        _table = table;
        _pageHeight = pageHeight;
        _fullWidth = width;
        if (table.Columns.Count == 0)
            throw new ArgumentException("A table needs at least one column.", nameof(table));
        if (table.Columns.Any(column => !double.IsFinite(column.Width) || column.Width <= 0))
            throw new ArgumentException("Every table column needs a width above 0.", nameof(table));
        _headers = [.. table.Columns.Select(column => new ShapedText(column.Header, TextStyle.CellHeader))];
        _cells = [.. table.Rows.Select(ShapeRow)];
        _widths = ColumnWidths(width);
        _left = new float[_widths.Length];
        for (var i = 1; i < _left.Length; i++)
            _left[i] = _left[i - 1] + _widths[i - 1] + Gap;
    }

    public List<Strip> Build()
    {
        var strips = new List<Strip>();
        if (_table.Caption.Length > 0)
        {
            strips.AddRange(TextStrips.Lines(FormattedText.FromString(_table.Caption), TextStyle.Subheading, 0, _fullWidth)
                .HoldingTo(Hold.Firm));
        }
        var headers = TextStrips.Row(
            [.. _headers.Select((header, i) => new RowCell(header.Wrap(_widths[i]), _left[i], _widths[i], _table.Columns[i].Alignment))],
            Padding,
            _pageHeight,
            (sheet, left, top, height) => TextStrips.Rule(sheet, left, left + _fullWidth, top + height, 0.9f, TextStyle.Ink));
        strips.AddRange(headers.HoldingTo(Hold.Firm));
        var repeated = headers.Count == 1 && headers[0].Height <= _pageHeight * LargestRepeatedHeader ? headers[0] : null;
        var tallest = _pageHeight - (repeated?.Height ?? 0);
        for (var i = 0; i < _table.Rows.Count; i++)
            strips.AddRange(Row(i, tallest).Select(strip => strip with { RepeatedHeader = repeated }));
        if (_table.Rows.Count == 0)
        {
            if (_table.WhenEmpty.Length > 0)
                strips.AddRange(TextStrips.Lines(FormattedText.FromString(_table.WhenEmpty), TextStyle.Label, 0,
                    _fullWidth).After(Padding));
            else
                strips[^1] = strips[^1] with { Hold = Hold.None };
        }
        return strips;
    }

    private static TextStyle StyleOf(RowEmphasis emphasis) => emphasis switch
    {
        RowEmphasis.None => TextStyle.Cell,
        RowEmphasis.Secondary => TextStyle.Cell with { Color = TextStyle.Secondary },
        RowEmphasis.Strong or RowEmphasis.Total or RowEmphasis.Group => TextStyle.Cell with { Heavy = true },
        _ => throw new ArgumentOutOfRangeException(nameof(emphasis), emphasis, "Unknown row emphasis."),
    };

    private ShapedText[] ShapeRow(TableRow row, int index)
    {
        if (row.Cells.Count > _table.Columns.Count)
        {
            throw new ArgumentException(
                $"Row {index + 1} has {row.Cells.Count} cells; the table has {_table.Columns.Count} columns.", nameof(row));
        }
        var style = StyleOf(row.Emphasis);
        return [.. row.Cells.Select((cell, i) => new ShapedText(
            FormattedText.FromString(cell),
            style with { EqualDigits = _table.Columns[i].Alignment == CellAlignment.Number }))];
    }

    private List<Strip> Row(int index, float tallest)
    {
        var row = _table.Rows[index];
        var cells = row.Emphasis == RowEmphasis.Group
            ? [new RowCell((_cells[index].FirstOrDefault() ?? new ShapedText("", TextStyle.Cell)).Wrap(_fullWidth), 0, _fullWidth)]
            : _cells[index].Select((cell, i) =>
                new RowCell(cell.Wrap(_widths[i]), _left[i], _widths[i], _table.Columns[i].Alignment)).ToList();
        if (cells.Count == 0)
            cells.Add(new RowCell(new ShapedText("", TextStyle.Cell).Wrap(_fullWidth), 0, _fullWidth));
        var nextIsTotal = index + 1 < _table.Rows.Count && _table.Rows[index + 1].Emphasis == RowEmphasis.Total;
        var hold = row.Emphasis == RowEmphasis.Group || nextIsTotal ? Hold.Firm : Hold.None;
        var strips = TextStrips.Row(cells, Padding, tallest, (sheet, left, top, height) =>
        {
            if (row.Emphasis == RowEmphasis.Group)
            {
                using var wash = new SkiaSharp.SKPaint { Color = TextStyle.Wash };
                sheet.Canvas.DrawRect(left, top, _fullWidth, height, wash);
            }
            else if (row.Emphasis == RowEmphasis.Total)
            {
                TextStrips.Rule(sheet, left, left + _fullWidth, top, 0.9f, TextStyle.Ink);
            }
            if (!nextIsTotal)
                TextStrips.Rule(sheet, left, left + _fullWidth, top + height, 0.5f, TextStyle.Hairline);
        });
        if (hold > Hold.None)
            strips[^1] = strips[^1] with { Hold = hold };
        return strips;
    }

    /// <summary>Shares out the width as asked, then moves width from columns with room to those whose longest word would be cut.</summary>
    private float[] ColumnWidths(float width)
    {
        var columns = _table.Columns;
        var room = width - (Gap * (columns.Count - 1));
        if (room < columns.Count * 4)
            throw new ArgumentException($"A table of {columns.Count} columns does not fit on the page.", nameof(width));
        var shares = columns.Sum(column => column.Width);
        var widths = columns.Select(column => (float)(column.Width / shares) * room).ToArray();
        var needed = new float[columns.Count];
        for (var i = 0; i < needed.Length; i++)
        {
            needed[i] = _headers[i].LongestWord;
            for (var row = 0; row < _cells.Length; row++)
            {
                if (_table.Rows[row].Emphasis != RowEmphasis.Group && i < _cells[row].Length)
                    needed[i] = Math.Max(needed[i], _cells[row][i].LongestWord);
            }
            // One endless word must not starve the other columns.
            needed[i] = Math.Min(needed[i] + 0.1f, Math.Max(widths[i], room * 0.4f));
        }
        var missing = widths.Zip(needed, (has, needs) => Math.Max(0, needs - has)).Sum();
        var spare = widths.Zip(needed, (has, needs) => Math.Max(0, has - needs)).Sum();
        if (missing == 0 || spare == 0)
            return widths;
        var moved = Math.Min(missing, spare);
        for (var i = 0; i < widths.Length; i++)
        {
            widths[i] += needed[i] > widths[i]
                ? (needed[i] - widths[i]) * moved / missing
                : -(widths[i] - needed[i]) * moved / spare;
        }
        return widths;
    }
}
