using System.Globalization;
using CsCheck;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Fabrication.Restraint;

namespace ShopFloor.Engineering.Tests.Fabrication;

public class RestraintTests
{
    private static readonly FastenerPlace[] Corners = [new("fl", 0.2, 0.25), new("fr", 0.2, -0.25), new("rl", -0.2, 0.25), new("rr", -0.2, -0.25)];

    private static readonly RestraintInput Box = new()
    {
        Name = "Enclosure", Kilograms = 40, BaseLengthMeters = 0.5, BaseWidthMeters = 0.6, CenterHeightMeters = 0.2,
        Hold = new BoltHold { Thread = CoarseThread.M8, In = HeldIn.BackedSheet }, Fasteners = Corners,
    };

    // ISO 898-1, table of proof loads for coarse threads, N (printed to three figures).
    [Theory]
    [InlineData(CoarseThread.M4, BoltClass.Class48, 2_720)]
    [InlineData(CoarseThread.M6, BoltClass.Class48, 6_230)]
    [InlineData(CoarseThread.M8, BoltClass.Class58, 13_900)]
    [InlineData(CoarseThread.M5, BoltClass.Class88, 8_230)]
    [InlineData(CoarseThread.M6, BoltClass.Class88, 11_600)]
    [InlineData(CoarseThread.M8, BoltClass.Class88, 21_200)]
    [InlineData(CoarseThread.M10, BoltClass.Class88, 33_700)]
    [InlineData(CoarseThread.M12, BoltClass.Class88, 48_900)]
    [InlineData(CoarseThread.M10, BoltClass.Class109, 48_100)]
    [InlineData(CoarseThread.M12, BoltClass.Class109, 70_000)]
    public void Proof_loads_are_those_of_the_standard(CoarseThread thread, BoltClass strength, double newtons) =>
        Assert.Equal(newtons, new BoltHold { Thread = thread, Class = strength }.TensionNewtons, 0.006 * newtons);

    [Fact]
    public void The_force_is_mass_times_deceleration() =>
        // 12 kg at 20 g: 12 · 20 · 9.80665 = 2353.6 N.
        Assert.Equal(2_353.6, ItemRestraint.Compute(Box with { Kilograms = 12 }).Directions[0].ForceNewtons, 1);

    [Fact]
    public void The_rear_bolts_hold_the_tipping_to_the_front()
    {
        // By hand: F = 7845.3 N at 0.2 m: 1569.06 N·m. Distances from the front edge 0.05 and 0.45 m twice: Σd² = 0.41 m²; T = 1569.06·0.45/0.41 = 1722.1 N, V = 1961.3 N.
        // M8 8.8: 21228 N and 12737 N: margin 1/√(0.08113² + 0.15399²) = 5.745.
        var result = ItemRestraint.Compute(Box);
        var forward = result.Directions[0];

        Assert.StartsWith("r", forward.WorstFastenerId, StringComparison.Ordinal);
        Assert.Equal(1_722.1, forward.TensionNewtons!.Value, 0.1);
        Assert.Equal(1_961.3, forward.ShearNewtons, 0.1);
        Assert.Equal(5.745, forward.Margin!.Value, 2e-3);
        Assert.DoesNotContain(result.Findings, finding => finding.Severity == Severity.Stop);
    }

    [Fact]
    public void The_turn_of_a_centre_beside_the_middle_loads_the_far_bolts_more()
    {
        // 0.1 m left of the middle, pushed forward: turn 784.53 N·m over Σr² = 4·0.1025 = 0.41 m²: 1913.5 N per metre. On the left, ahead by 1961.3 + 0.25·1913.5 = 2439.7 N, aside 382.7 N.
        var forward = ItemRestraint.Compute(Box with { CenterLeftMeters = 0.1 }).Directions[0];

        Assert.Equal("rl", forward.WorstFastenerId);
        Assert.Equal(Math.Sqrt(2_439.7 * 2_439.7 + 382.7 * 382.7), forward.ShearNewtons, 0.2);
    }

    [Fact]
    public void Lifted_it_is_shared_by_the_place_of_the_centre()
    {
        // 5 g: 1961.33 N. 0.1 m before the middle: 490.33 + 196.133·0.2/0.16 = 735.5 N on the front bolts.
        var up = ItemRestraint.Compute(Box with { CenterForwardMeters = 0.1 }).Directions[4];

        Assert.StartsWith("f", up.WorstFastenerId, StringComparison.Ordinal);
        Assert.Equal(735.5, up.TensionNewtons!.Value, 0.1);
    }

    [Fact]
    public void Pulls_balance_the_force_and_its_moment() =>
        Gen.Select(Gen.Double[-0.24, 0.24], Gen.Double[-0.29, 0.29]).Array[2, 10].Where(places => places.Select(p => Math.Round(p.Item1, 2)).Distinct().Count() > 1).Sample(places =>
        {
            // One bolt is looked at alone by giving all others' worst: the largest pull times all squares equals the moment times its distance.
            FastenerPlace[] fasteners = [.. places.Select((place, n) => new FastenerPlace($"{n}", place.Item1, place.Item2))];
            var forward = ItemRestraint.Compute(Box with { Fasteners = fasteners, Hold = new RatedHold { RatedTensionNewtons = 1, RatedShearNewtons = 200_000 } }).Directions[0];
            var distances = fasteners.Select(place => 0.25 - place.ForwardMeters).ToArray();
            var factor = forward.TensionNewtons!.Value / distances[int.Parse(forward.WorstFastenerId, CultureInfo.InvariantCulture)];
            return Math.Abs(factor * distances.Sum(d => d * d) - forward.ForceNewtons * 0.2) < 1e-6 * forward.ForceNewtons;
        });

    [Fact]
    public void Twice_the_mass_halves_every_margin()
    {
        var (one, two) = (ItemRestraint.Compute(Box), ItemRestraint.Compute(Box with { Kilograms = 80 }));
        foreach (var (a, b) in one.Directions.Zip(two.Directions))
            Assert.Equal(a.Margin!.Value, 2 * b.Margin!.Value, 9);
    }

    [Fact]
    public void A_single_row_at_the_front_edge_holds_no_tipping()
    {
        var result = ItemRestraint.Compute(Box with { Fasteners = [new("a", 0.25, 0.2), new("b", 0.25, -0.2)] });

        Assert.Null(result.LeastMargin);
        Assert.Equal("restraint-tips", result.Findings[0].Code);
        Assert.Equal(Severity.Stop, result.Findings[0].Severity);
    }

    [Fact]
    public void Below_one_it_stops_and_below_one_and_a_half_it_warns()
    {
        // The margin of the box is 5.745 with M8 8.8; it falls with 1/mass: 200 kg leave 1.149, 300 kg 0.766.
        Assert.Contains(ItemRestraint.Compute(Box with { Kilograms = 200 }).Findings, finding => finding is { Code: "restraint-close", Severity: Severity.Warn, SubjectId: "restraint-Forward" });
        Assert.Contains(ItemRestraint.Compute(Box with { Kilograms = 300 }).Findings, finding => finding is { Code: "restraint-fails", Severity: Severity.Stop, SubjectId: "restraint-Forward" });
        Assert.Contains(ItemRestraint.Compute(Box with { Hold = new BoltHold { Thread = CoarseThread.M8, In = HeldIn.Wood } }).Findings, finding => finding.Code == "restraint-base-weak");
    }

    [Fact]
    public void A_magnet_loses_with_warmth_and_gap()
    {
        // 0.11 % a kelvin of remanence over 60 K: 0.934² = 0.8724.
        var warm = new MagnetHold { PullNewtons = 100, Celsius = 80 };
        Assert.Equal(87.24, warm.TensionNewtons, 2);
        Assert.Equal(17.45, warm.ShearNewtons, 2);
        // Disc 20 mm by 5 mm, gap 1 mm, on its axis: 6/√136 − 1/√101 = 0.41500 against 5/√125 = 0.44721: 0.8611 of the pull.
        Assert.Equal(0.8611, (warm with { GapMeters = 0.001, DiameterMeters = 0.02, ThicknessMeters = 0.005 }).OverGapShare, 4);
        Assert.Equal(0.3, (warm with { GapMeters = 0.001, GapShare = 0.3 }).OverGapShare);
        Assert.Contains(ItemRestraint.Compute(Box with { Hold = warm with { Celsius = 90 } }).Findings, finding => finding.Code == "magnet-too-warm");
        Assert.Contains(ItemRestraint.Compute(Box with { Hold = warm }).Cautions, caution => caution.Title == "strong magnets");
    }

    [Fact]
    public void Bad_input_is_refused_by_name()
    {
        Assert.Equal("Fastener fl, before the middle: 0.4 m is not accepted; enter -0.25 m to 0.25 m.", Assert.Single((Box with { Fasteners = [new("fl", 0.4, 0)] }).Validate()).Message.Replace('\u00a0', ' '));
        Assert.Equal("Hold.GapShare", Assert.Single((Box with { Hold = new MagnetHold { PullNewtons = 50, GapMeters = 0.002 } }).Validate()).Field);
        Assert.Equal("Decelerations.UpG", Assert.Single((Box with { Decelerations = new Decelerations(UpG: double.NaN) }).Validate()).Field);
    }
}
