using CsCheck;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Phases.Estimate;

namespace ShopFloor.Shop.Tests.Phases.Estimate;

public sealed class FoldedLineTests
{
    private static readonly string Cables = PartKinds.Of(PartKind.Cable).Plural;

    [Fact]
    public void Runs_of_one_cable_become_their_total_length_and_not_a_cent_moves()
    {
        EstimateLine[] lines = [Line("Amplifier", 1, 500, group: "Amplifiers"), Line("Cable 4 AWG", 5.5m, 12.35m), Line("Cable 8 AWG", 2, 6), Line("Cable 4 AWG", 5.5m, 12.35m)];

        var folded = FoldedLine.Fold(lines);

        // By hand: 5.5 × 12.35 = 67.925, a line is kept as 67.93; two of them are 135.86, where 11 × 12.35 would be 135.85.
        Assert.Equal([("Amplifier", 1m, 500m, 1), ("Cable 4 AWG", 11m, 135.86m, 2), ("Cable 8 AWG", 2m, 12m, 1)], folded.Select(line => (line.Text, line.Quantity, line.Total, line.Lines.Count)));
        Assert.Equal(lines.Sum(line => line.Total), folded.Sum(line => line.Total));
    }

    [Fact]
    public void What_differs_in_words_unit_or_price_or_is_no_cable_stays_apart()
    {
        EstimateLine[] lines =
        [
            Line("Cable 4 AWG", 1, 5), Line("Cable 4 AWG", 1, 6), Line("Cable 4 AWG", 1, 5) with { Unit = "pc" }, Line("Cable 4 AWG, return", 1, 5),
            Line("Door loudspeaker", 1, 5, group: "Loudspeakers"), Line("Door loudspeaker", 1, 5, group: "Loudspeakers"),
        ];

        Assert.Equal(lines.Length, FoldedLine.Fold(lines).Count);
    }

    [Fact]
    public void Folding_loses_no_line_and_no_cent_whatever_the_lines()
    {
        var line = Gen.Select(Gen.OneOf(Gen.Const("A"), Gen.Const("B"), Gen.Const("C")), Gen.Int[1, 400], Gen.Int[0, 9_999], Gen.Bool, (text, halves, cents, cable) =>
            Line(text, halves / 2m, cents / 100m, cable ? Cables : "Fuses"));
        line.List[0, 40].Sample(lines =>
        {
            var folded = FoldedLine.Fold(lines);
            Assert.Equal(lines.Sum(each => each.Total), folded.Sum(each => each.Total));
            Assert.Equal(lines.Sum(each => each.Quantity), folded.Sum(each => each.Quantity));
            Assert.Equal(lines.Select(each => each.SourceId).Order(), folded.SelectMany(each => each.Lines).Select(each => each.SourceId).Order());
        });
    }

    private static EstimateLine Line(string text, decimal quantity, decimal price, string? group = null) =>
        new(group ?? Cables, text, quantity, "m", price, Math.Round(quantity * price, 2, MidpointRounding.AwayFromZero), IsLabour: false, Guid.CreateVersion7());
}
