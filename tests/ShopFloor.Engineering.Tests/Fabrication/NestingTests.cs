using CsCheck;
using NetTopologySuite.Geometries;
using ShopFloor.Engineering.Fabrication.Nesting;

namespace ShopFloor.Engineering.Tests.Fabrication;

public class NestingTests
{
    private const double Tiny = 1e-9;

    [Fact]
    public void Short_lists_take_no_more_sheets_than_trying_everything() =>
        Gen.Select(Gen.Select(Gen.Int[1, 9], Gen.Int[1, 9], Gen.Bool).Array[1, 5], Gen.Int[10, 14], Gen.Int[10, 12], Gen.Int[0, 2]).Sample((sizes, length, width, kerf) =>
        {
            var input = new NestingInput
            {
                Parts = [.. sizes.Select((size, n) => CutLists.Part($"p{n}", size.Item1, size.Item2, 1, size.Item3))], Stock = [CutLists.Sheet(length, width)], KerfMeters = kerf / 1000.0,
            };
            var nested = Only(input);

            Assert.Equal(new EveryGuillotine([.. sizes], kerf).LeastSheets(length, width), nested.WholeSheets);
            Assert.True(nested.Proved);
            Assert.Equal(nested.WholeSheets, nested.LeastSheets);
        }, iter: 400);

    /// <summary>
    /// Beasley, J. Oper. Res. Soc. 36 (1985), instance gcut1 as a bin-packing list of 10 parts on 250 × 250, and Christofides and Whitlock, Oper. Res. 25 (1977), cgcut1 on 15 × 10.
    /// Fewest sheets without turning by Martello and Vigo, Management Science 44 (1998): 5 and 2 (from memory); that needs no guillotine cuts, so it is a floor for them.
    /// </summary>
    [Theory]
    [InlineData("167x184 114x118 167x152 83x140 70x86 143x166 120x160 66x148 87x141 69x165", 250, 250, 5)]
    [InlineData("8x4 8x4 3x7 8x2 8x2 8x2 3x4 3x4 3x4 3x4 3x4 3x3 3x3 3x2 3x2 2x1", 15, 10, 2)]
    public void Published_lists_take_the_published_number_of_sheets(string list, int length, int width, int sheets)
    {
        var parts = list.Split(' ').Select((size, n) => CutLists.Part($"p{n}", Number(size, 0), Number(size, 1), mayTurn: false));
        var nested = Only(new NestingInput { Parts = [.. parts], Stock = [CutLists.Sheet(length, width)], KerfMeters = 0 });

        Assert.Equal(sheets, nested.WholeSheets);
        Assert.True(nested.Proved);

        static double Number(string size, int at) => double.Parse(size.Split('x')[at], System.Globalization.CultureInfo.InvariantCulture);
    }

    [Fact]
    public void Parts_lie_inside_their_sheet_and_a_saw_blade_apart() =>
        Any(14).Sample(input =>
        {
            foreach (var sheet in Only(input).Sheets)
            {
                var usable = Rectangle(sheet.TrimMeters, sheet.TrimMeters, sheet.LengthMeters - 2 * sheet.TrimMeters, sheet.WidthMeters - 2 * sheet.TrimMeters).Buffer(Tiny);
                var pieces = sheet.Parts.Select(part => (part.XMeters, part.YMeters, part.LengthMeters, part.WidthMeters))
                    .Concat(sheet.LeftOver.Select(rest => (rest.XMeters, rest.YMeters, rest.LengthMeters, rest.WidthMeters))).ToList();
                Assert.All(pieces, piece => Assert.True(usable.Covers(Rectangle(piece.XMeters, piece.YMeters, piece.LengthMeters, piece.WidthMeters))));
                for (var a = 0; a < pieces.Count; a++)
                {
                    for (var b = a + 1; b < pieces.Count; b++)
                    {
                        // Square corners: grown by the kerf to the right and up they may touch, not overlap.
                        var (one, other) = (Grown(pieces[a], input.KerfMeters), Grown(pieces[b], input.KerfMeters));
                        Assert.True(one.Intersection(other).Area < Tiny);
                    }
                }
            }
        }, iter: 60);

    [Fact]
    public void Every_part_is_cut_once_and_by_cuts_from_edge_to_edge() =>
        Any(14).Sample(input =>
        {
            var nested = Only(input);
            Assert.Empty(nested.Unplaced);
            foreach (var sheet in nested.Sheets)
                Assert.Equal(Sizes(sheet.Parts.Select(part => (part.Name, part.LengthMeters, part.WidthMeters))), Sizes(Saw(sheet, input.KerfMeters)));
            foreach (var line in input.Parts)
            {
                var placed = nested.Sheets.SelectMany(sheet => sheet.Parts).Where(part => part.PartId == line.Id).ToList();
                Assert.Equal(Enumerable.Range(1, line.Quantity), placed.Select(part => part.Copy).Order());
                Assert.All(placed, part =>
                {
                    Assert.Equal(line.LengthMeters!.Value, part.Turned ? part.WidthMeters : part.LengthMeters, Tiny);
                    Assert.Equal(line.WidthMeters!.Value, part.Turned ? part.LengthMeters : part.WidthMeters, Tiny);
                    Assert.False(part.Turned && !line.MayTurn);
                });
            }
        }, iter: 60);

    [Fact]
    public void The_least_number_is_never_above_what_is_laid_out() =>
        Any(20).Sample(input =>
        {
            var nested = Only(input);
            Assert.InRange(nested.LeastSheets, 0, nested.WholeSheets);
            var offcuts = input.Stock.Where(sheet => sheet.IsOffcut).Sum(sheet => sheet.LengthMeters * sheet.WidthMeters);
            Assert.True(nested.WholeSheets >= (nested.PartsSquareMeters - offcuts) / (2.44 * 1.22) - Tiny);
        }, iter: 40);

    // Two parts of more than half a sheet both ways never share one: area alone says 2 (5 · 0.36 = 1.8).
    [Fact]
    public void Parts_that_cannot_share_a_sheet_raise_the_least_number_above_the_area()
    {
        var nested = Only(new NestingInput { Parts = [CutLists.Part("square", 600, 600, 5)], Stock = [CutLists.Sheet(1000, 1000)], KerfMeters = 0 });

        Assert.Equal((5, 5, true), (nested.LeastSheets, nested.WholeSheets, nested.Proved));
        Assert.Equal("2", nested.Explanation.Steps[0].Result);
        Assert.Equal("5 sheets, at least 5 needed", nested.Explanation.Answer);
    }

    // Four parts of 500 fill 1000 exactly without a kerf; a blade of 3 mm leaves 997 for two of them.
    [Theory]
    [InlineData(0, 1)]
    [InlineData(3, 4)]
    public void The_saw_blade_decides_what_just_fits(double kerfMillimeters, int sheets) =>
        Assert.Equal(sheets, Only(new NestingInput { Parts = [CutLists.Part("half", 500, 500, 4)], Stock = [CutLists.Sheet(1000, 1000)], KerfMeters = kerfMillimeters / 1000 }).WholeSheets);

    [Fact]
    public void Offcuts_in_stock_go_first_and_count_for_nothing()
    {
        var nested = Only(new NestingInput
        {
            Parts = [CutLists.Part("a", 400, 300), CutLists.Part("b", 390, 290)],
            Stock = [CutLists.Sheet(2440, 1220), CutLists.Sheet(820, 310, "rest") with { IsOffcut = true, Quantity = 1 }],
        });

        Assert.Equal((0, 0, true), (nested.WholeSheets, nested.LeastSheets, nested.Proved));
        Assert.Equal("rest", Assert.Single(nested.Sheets).StockId);
        Assert.Equal(0, nested.Weight);
    }

    // 900 × 500 along the grain lies only one way on a sheet of 1000 × 600; across it does not fit.
    [Theory]
    [InlineData(SheetGrain.Along, PartGrain.Along, true)]
    [InlineData(SheetGrain.Across, PartGrain.Across, true)]
    [InlineData(SheetGrain.None, PartGrain.Across, true)]
    [InlineData(SheetGrain.Along, PartGrain.Across, false)]
    [InlineData(SheetGrain.Across, PartGrain.Along, false)]
    public void Grain_decides_how_a_part_may_lie(SheetGrain sheet, PartGrain part, bool fits)
    {
        var input = new NestingInput { Parts = [CutLists.Part("door", 900, 500) with { Grain = part }], Stock = [CutLists.Sheet(1000, 600) with { Grain = sheet }] };

        Assert.Equal(fits, input.Validate().Count == 0);
    }

    // π/4·(330² − 280²) mm² = 23 955 mm² of the 108 900 mm² around it.
    [Fact]
    public void A_ring_is_nested_by_its_square_and_counted_by_its_own_area()
    {
        var ring = new CutPart { Id = "r", Name = "Ring", Outline = new RingOutline(0.33, 0.28), MaterialId = "board", ThicknessMeters = 0.018 };
        var nested = Only(new NestingInput { Parts = [ring], Stock = [CutLists.Sheet(330, 330)], KerfMeters = 0 });

        Assert.Equal(0.0239546, nested.PartsSquareMeters, 5e-8);
        Assert.Equal(1 - 0.0239546 / 0.1089, nested.WasteShare, 5e-6);
    }

    // 2 of 1000 × 1000 from 2000 × 1000, or one of 1000 × 1000 twice: whichever counts less.
    [Theory]
    [InlineData(3.0, "small", 2)]
    [InlineData(1.5, "large", 1)]
    public void Of_several_kinds_of_sheets_the_cheaper_set_is_taken(double largeWeight, string id, int count)
    {
        var nested = Only(new NestingInput
        {
            Parts = [CutLists.Part("a", 1000, 1000, 2)], KerfMeters = 0,
            Stock = [CutLists.Sheet(2000, 1000, "large") with { Weight = largeWeight }, CutLists.Sheet(1000, 1000, "small") with { Weight = 1 }],
        });

        Assert.Equal(Enumerable.Repeat(id, count), nested.Sheets.Select(sheet => sheet.StockId));
        Assert.True(nested.Proved);
    }

    [Fact]
    public void Where_the_stock_runs_out_the_parts_without_a_sheet_are_named()
    {
        var result = SheetNesting.Compute(new NestingInput { Parts = [CutLists.Part("Side", 800, 800, 3)], Stock = [CutLists.Sheet(1000, 1000) with { Quantity = 2 }] });

        Assert.Equal(1, Assert.Single(result.Materials[0].Unplaced).Count);
        Assert.Contains("1 × Side", Assert.Single(result.Findings).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_part_larger_than_every_sheet_is_named_with_its_size_and_the_largest_sheet()
    {
        var problem = Assert.Single(new NestingInput { Parts = [CutLists.Part("Top", 2500, 600)], Stock = [CutLists.Sheet(2440, 1220)], TrimMeters = 0.01 }.Validate());

        Assert.Equal("Parts[0].LengthMeters", problem.Field);
        Assert.Contains("Top: 2500 mm × 600 mm does not fit", problem.Message.Replace('\u00a0', ' '), StringComparison.Ordinal);
        Assert.Contains("2420 mm × 1200 mm", problem.Message.Replace('\u00a0', ' '), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_size_that_is_none_is_named(double millimeters) =>
        Assert.Equal("Parts[0].WidthMeters", Assert.Single(new NestingInput { Parts = [CutLists.Part("a", 100, millimeters)], Stock = [CutLists.Sheet(1000, 1000)] }.Validate()).Field);

    [Fact]
    public void More_than_500_parts_are_refused() =>
        Assert.Contains("501", Assert.Single(new NestingInput { Parts = [CutLists.Part("a", 10, 10, 300), CutLists.Part("b", 10, 10, 201)], Stock = [CutLists.Sheet(1000, 1000)] }.Validate()).Message, StringComparison.Ordinal);

    [Fact]
    public void The_same_list_gives_the_same_layout() =>
        Any(10).Sample(input => Assert.Equal(
            System.Text.Json.JsonSerializer.Serialize(SheetNesting.Compute(input)), System.Text.Json.JsonSerializer.Serialize(SheetNesting.Compute(input))), iter: 10);

    [Fact]
    public void The_work_can_be_cancelled() =>
        Assert.Throws<OperationCanceledException>(() => SheetNesting.Compute(new NestingInput { Parts = [CutLists.Part("a", 10, 10)], Stock = [CutLists.Sheet(100, 100)] }, null, new CancellationToken(true)));

    /// <summary>Parts of a sheet of 2440 × 1220 mm.</summary>
    private static Gen<NestingInput> Any(int most) =>
        Gen.Select(
            Gen.Select(Gen.Int[40, 1200], Gen.Int[40, 1200], Gen.Int[1, 4], Gen.Bool).Array[1, most],
            Gen.Int[0, 5],
            Gen.Int[0, 12],
            Gen.Select(Gen.Int[300, 1400], Gen.Int[200, 1200]).Array[0, 2])
        .Select((parts, kerf, trim, offcuts) => new NestingInput
        {
            Parts = [.. parts.Select((part, n) => CutLists.Part($"p{n}", part.Item1, Math.Min(part.Item2, 1190), part.Item3, part.Item4))],
            Stock = [CutLists.Sheet(2440, 1220), .. offcuts.Select((size, n) => CutLists.Sheet(size.Item1, size.Item2, $"o{n}") with { IsOffcut = true, Quantity = 1 })],
            KerfMeters = kerf / 1000.0,
            TrimMeters = trim / 1000.0,
        });

    private static MaterialNesting Only(NestingInput input) => Assert.Single(SheetNesting.Compute(input).Materials);

    private static NetTopologySuite.Geometries.Geometry Rectangle(double x, double y, double length, double width) => new GeometryFactory().ToGeometry(new Envelope(x, x + length, y, y + width));

    private static NetTopologySuite.Geometries.Geometry Grown((double X, double Y, double Length, double Width) piece, double kerf) => Rectangle(piece.X, piece.Y, piece.Length + kerf - Tiny, piece.Width + kerf - Tiny);

    private static string[] Sizes(IEnumerable<(string Name, double Length, double Width)> pieces) =>
        [.. pieces.Select(piece => $"{piece.Name} {piece.Length:0.0000} {piece.Width:0.0000}").Order(StringComparer.Ordinal)];

    /// <summary>Follows the cuts as the person at the saw would, holding every piece by its number.</summary>
    private static List<(string Name, double Length, double Width)> Saw(NestedSheet sheet, double kerf)
    {
        var held = new Dictionary<int, (double Length, double Width, CutPieceKind Kind, string Name)> { [1] = (sheet.LengthMeters, sheet.WidthMeters, CutPieceKind.Piece, "") };
        if (sheet.Cuts.Count == 0)
            return [.. sheet.Parts.Select(part => (part.Name, sheet.LengthMeters, sheet.WidthMeters))];
        foreach (var (cut, at) in sheet.Cuts.Select((cut, at) => (cut, at)))
        {
            Assert.Equal(at + 1, cut.Step);
            Assert.True(held.Remove(cut.Piece, out var piece));
            Assert.Equal(CutPieceKind.Piece, piece.Kind);
            var (along, across) = cut.Crosscut ? (piece.Length, piece.Width) : (piece.Width, piece.Length);
            var trimming = sheet.TrimMeters > 0 && at < 4;
            if (!trimming)
                Assert.InRange(cut.Pieces.Count, 1, 2);
            var rest = trimming ? at % 2 == 0 ? along - cut.FenceMeters : cut.FenceMeters : along - cut.FenceMeters - kerf;
            var given = cut.Pieces.Select(one => cut.Crosscut ? (one.LengthMeters, one.WidthMeters) : (one.WidthMeters, one.LengthMeters)).ToList();
            Assert.All(given, one => Assert.Equal(across, one.Item2, Tiny));
            Assert.Equal(trimming ? rest : cut.FenceMeters, given[0].Item1, Tiny);
            if (!trimming && given.Count == 2)
                Assert.Equal(rest, given[1].Item1, Tiny);
            if (!trimming && given.Count == 1)
                Assert.True(rest <= Tiny, "a piece was lost");
            foreach (var one in cut.Pieces)
                held.Add(one.Number, (one.LengthMeters, one.WidthMeters, one.Kind, one.Name));
        }

        Assert.DoesNotContain(held.Values, piece => piece.Kind == CutPieceKind.Piece);
        return [.. held.Values.Where(piece => piece.Kind == CutPieceKind.Part).Select(piece => (piece.Name, piece.Length, piece.Width))];
    }
}
