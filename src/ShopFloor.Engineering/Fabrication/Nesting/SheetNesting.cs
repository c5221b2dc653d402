using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Nesting;

/// <summary>Lays a cut list out on sheets with cuts from edge to edge, each material and thickness by itself.</summary>
/// <remarks>
/// Small lists are solved exactly (<see cref="MaterialNesting.Proved"/>); longer ones by many fillings and a search around the best, beside a
/// number of sheets that no layout can go below. The same input always gives the same layout.
/// </remarks>
public static class SheetNesting
{
    private const string BoundSource = "Fekete and Schepers, Math. Methods Oper. Res. 60 (2004); Martello and Vigo, Management Science 44 (1998)";

    /// <summary>Lays the parts out.</summary>
    /// <param name="input">Parts, stock and saw.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <param name="cancellation">Ends the work early with an exception.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="NestingInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    public static NestingResult Compute(NestingInput input, UnitText? text = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        var materials = input.Parts
            .GroupBy(part => (part.MaterialId, Microns.Of(part.ThicknessMeters)))
            .Select(group => OneMaterial(input, [.. group], text, cancellation)).ToList();
        return new NestingResult(materials, Find(materials, text));
    }

    private static MaterialNesting OneMaterial(NestingInput input, List<CutPart> parts, UnitText text, CancellationToken cancellation)
    {
        var stock = input.StockFor(parts[0]).ToList();
        var problem = Problem(input, parts, stock);
        var (area, functions) = SheetBound.Of(problem);
        var bound = Math.Max(area, functions);
        var layout = new NestingSearch(problem, Microns.Of(input.KeptLengthMeters), Microns.Of(input.KeptWidthMeters), cancellation).Run(bound);
        var oneKind = problem.Whole.Count <= 1;
        var proved = layout.Unplaced.Count == 0 && (layout.Whole == 0 || (oneKind && layout.Whole <= bound));
        var exact = proved ? null : ExactNesting.Solve(problem, cancellation);
        if (exact is not null)
        {
            // Its weight is the least there is; where it takes more than the stock holds it is still a bound.
            if (layout.Unplaced.Count == 0 && layout.Weight <= exact.Weight + 1e-9)
            {
                proved = true;
            }
            else if (problem.Boards.All(board => exact.Boards.Count(used => ReferenceEquals(used.Board, board)) <= board.Available))
            {
                (layout, proved) = (exact, true);
            }

            if (oneKind)
                bound = Math.Max(bound, exact.Whole);
        }

        var sheets = Sheets(input, parts, stock, problem, layout);
        var used = sheets.Sum(sheet => sheet.LengthMeters * sheet.WidthMeters);
        return new MaterialNesting
        {
            MaterialId = parts[0].MaterialId,
            ThicknessMeters = parts[0].ThicknessMeters,
            Sheets = sheets,
            WholeSheets = layout.Whole,
            LeastSheets = bound,
            Proved = proved,
            Weight = layout.Weight,
            PartsSquareMeters = parts.Sum(part => part.SquareMeters * part.Quantity),
            WasteShare = used > 0 ? sheets.Sum(sheet => sheet.WasteShare * sheet.LengthMeters * sheet.WidthMeters) / used : 0,
            Unplaced = [.. layout.Unplaced.GroupBy(index => index).Select(group => new UnplacedPart(parts[group.Key].Id, parts[group.Key].Name, group.Count()))],
            Explanation = Explain(input, parts, problem, layout, (area, functions, bound, exact is not null), text),
        };
    }

    private static NestingProblem Problem(NestingInput input, List<CutPart> parts, List<StockSheet> stock)
    {
        var kerf = Microns.Of(input.KerfMeters);
        return new NestingProblem(
            [.. parts.Select((part, n) => new Piece(n, Microns.Of(part.Size.Length) + kerf, Microns.Of(part.Size.Width) + kerf, part.Quantity))],
            [.. stock.Select(sheet =>
            {
                var (length, width) = input.Usable(sheet);
                return new Board(Math.Max(0, Microns.Of(length)) + kerf, Math.Max(0, Microns.Of(width)) + kerf, sheet.Quantity ?? NestingInput.MostParts, sheet.IsOffcut, sheet.Counts, [.. parts.Select(sheet.WaysOf)]);
            })],
            kerf);
    }

    private static List<NestedSheet> Sheets(NestingInput input, List<CutPart> parts, List<StockSheet> stock, NestingProblem problem, CutLayout layout)
    {
        var copies = new int[parts.Count];
        var sheetCopies = new int[stock.Count];
        var sheets = new List<NestedSheet>();
        foreach (var (board, tree) in layout.Boards.OrderByDescending(board => board.Board.IsOffcut))
        {
            var number = problem.Boards.TakeWhile(other => !ReferenceEquals(other, board)).Count();
            var sheet = stock[number];
            var trim = sheet.IsOffcut ? 0 : Microns.Of(input.TrimMeters);
            var placed = new List<PlacedPart>();
            var left = new List<LeftOver>();
            foreach (var leaf in tree.Leaves())
            {
                var (x, y, length, width) = (Microns.Meters(leaf.X + trim), Microns.Meters(leaf.Y + trim), Microns.Meters(leaf.Length - problem.Kerf), Microns.Meters(leaf.Width - problem.Kerf));
                if (leaf.Piece >= 0)
                    placed.Add(new PlacedPart(parts[leaf.Piece].Id, parts[leaf.Piece].Name, ++copies[leaf.Piece], x, y, length, width, leaf.Turned));
                else if (length > 0 && width > 0)
                    left.Add(new LeftOver(x, y, length, width, IsKept(leaf.Length - problem.Kerf, leaf.Width - problem.Kerf)));
            }

            var whole = sheet.LengthMeters * sheet.WidthMeters;
            var worth = placed.Sum(part => parts.Find(line => line.Id == part.PartId)!.SquareMeters) + left.Where(rest => rest.Kept).Sum(rest => rest.LengthMeters * rest.WidthMeters);
            sheets.Add(new NestedSheet
            {
                StockId = sheet.Id,
                Name = sheet.Name,
                Copy = ++sheetCopies[number],
                IsOffcut = sheet.IsOffcut,
                LengthMeters = sheet.LengthMeters,
                WidthMeters = sheet.WidthMeters,
                TrimMeters = Microns.Meters(trim),
                Parts = placed,
                LeftOver = [.. left.OrderByDescending(rest => rest.LengthMeters * rest.WidthMeters)],
                Cuts = CutSequence.Of(tree, problem.Kerf, trim, leaf => parts[leaf.Piece].Name, IsKept),
                WasteShare = Math.Max(0, 1 - worth / whole),
            });
        }

        return sheets;

        bool IsKept(long length, long width) =>
            Math.Max(length, width) >= Microns.Of(input.KeptLengthMeters) && Math.Min(length, width) >= Microns.Of(input.KeptWidthMeters);
    }

    private static Explanation Explain(
        NestingInput input, List<CutPart> parts, NestingProblem problem, CutLayout layout, (int Area, int Functions, int Least, bool Exact) bound, UnitText text)
    {
        var steps = new List<ExplainedStep>
        {
            new("Least number by area", "n ≥ (Σ part area − offcut area) / largest sheet area, kerf included", "", $"{bound.Area}", "elementary"),
            new("Least number by dual feasible functions", "n ≥ Σ u(length) · v(width) − offcuts, u and v the best pair of three families", "", $"{bound.Functions}", BoundSource),
        };
        if (bound.Exact)
            steps.Add(new("Every way of joining the parts", "smallest rectangles of every set of parts, then the cheapest split over the sheets", $"{problem.PieceCount} parts", $"{bound.Least}", "Wang, Operations Research 31 (1983)"));
        return new Explanation($"How many sheets of {parts[0].MaterialId}, {text.Millimeters(parts[0].ThicknessMeters)}?",
            $"{Count(layout.Whole, "sheet")}, at least {bound.Least} needed",
            [
                new("Parts", problem.PieceCount, "", "entered"),
                new("Width of a cut", input.KerfMeters * 1000, "mm", "entered or default"),
                new("Trimmed off each edge", input.TrimMeters * 1000, "mm", "entered or default"),
            ],
            steps, [], null);
    }

    private static IReadOnlyList<Finding> Find(List<MaterialNesting> materials, UnitText text)
    {
        var found = new FindingList("cut-list", "Cut list");
        foreach (var material in materials)
        {
            var name = $"{material.MaterialId}, {text.Millimeters(material.ThicknessMeters)}";
            if (material.Unplaced.Count > 0)
            {
                found.About($"{material.MaterialId}:{Microns.Of(material.ThicknessMeters)}", name, "stock-runs-out", Severity.Stop,
                    $"No sheet is left for {string.Join(", ", material.Unplaced.Select(part => $"{part.Count} × {part.Name}"))}.", "Add sheets to the stock.", "sum of the stock");
            }
        }

        return found.Sorted;
    }

    private static string Count(int count, string one) => count == 1 ? $"1 {one}" : $"{count} {one}s";
}
