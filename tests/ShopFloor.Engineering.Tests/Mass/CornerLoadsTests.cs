using CsCheck;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Mass;

namespace ShopFloor.Engineering.Tests.Mass;

public class CornerLoadsTests
{
    // The car of the axle loads: 870 kg front, 630 kg rear, wheelbase 2.70 m; 10 kg more on the left of each axle.
    private static readonly CornerLoadsInput Car = new()
    {
        WheelbaseMeters = 2.7, TrackMeters = 1.5, Before = new CornerReadings(440, 430, 320, 310),
        Masses = [new PlacedMass("box", "Enclosure", 45, 3.1), new PlacedMass("battery", "Battery", 12, 0.6, 0.5)],
    };

    [Fact]
    public void Corners_follow_place_and_sum_to_the_axles()
    {
        // By hand: axles as by moments, 872.667 and 684.333 kg. The box changes the front by −6.667 and the rear by 51.667, half on each side. The battery, 0.5 m left on 1.5 m: 5/6 left: front 9.333, rear 2.667.
        var result = CornerLoads.Compute(Car);
        var corners = result.Predicted.Corners;

        Assert.Equal(440 - 3.3333 + 7.7778, corners.FrontLeft, 3);
        Assert.Equal(430 - 3.3333 + 1.5556, corners.FrontRight, 3);
        Assert.Equal(320 + 25.8333 + 2.2222, corners.RearLeft, 3);
        Assert.Equal(310 + 25.8333 + 0.4444, corners.RearRight, 3);
        Assert.Equal(1.18671, result.Predicted.CenterRearwardMeters, 5);
        Assert.Equal(1.134, result.Before.CenterRearwardMeters, 9);
        // (760 − 740)·1.5/(2·1500) = 0.01 m.
        Assert.Equal(0.01, result.Before.CenterLeftMeters, 9);
        Assert.Equal(0.5, result.Before.CrossShare, 9);
    }

    [Fact]
    public void Sums_axles_and_sides_agree_with_the_axle_loads() =>
        Gen.Select(Gen.Double[-60, 60], Gen.Double[-1, 4], Gen.Double[-0.7, 0.7]).Array[0, 10].Sample(items =>
        {
            PlacedMass[] masses = [.. items.Select((item, n) => new PlacedMass($"{n}", $"Item {n}", item.Item1, item.Item2, item.Item3))];
            var corners = CornerLoads.Compute(Car with { Masses = masses }).Predicted.Corners;
            var axles = AxleLoads.Compute(new AxleLoadsInput { WheelbaseMeters = 2.7, TrackMeters = 1.5, FrontKilograms = 870, RearKilograms = 630, Masses = masses });
            return Math.Abs(corners.FrontLeft + corners.FrontRight - axles.FrontKilograms!.Value) < 1e-9
                && Math.Abs(corners.RearLeft + corners.RearRight - axles.RearKilograms!.Value) < 1e-9
                && Math.Abs(corners.FrontLeft + corners.RearLeft - 760 - axles.LeftChangeKilograms!.Value) < 1e-9;
        });

    [Fact]
    public void Weighed_as_predicted_it_agrees_and_a_forgotten_part_is_told()
    {
        var agreed = CornerLoads.Compute(Car with { After = new CornerReadings(444.5, 428, 348, 336.5) });
        Assert.All(agreed.Reconciled, row => Assert.True(row.Agrees));
        Assert.Empty(agreed.Findings);
        // 0.2 % of each of eight readings and steps of 0.5 kg: 2·√(0.002²·Σr² + 8·0.25²/3), about 4.4 kg.
        Assert.InRange(agreed.Reconciled[0].ToleranceKilograms, 4, 5);

        // 18 kg on the rear axle that no list has. Σr² = 1204583 kg²: 2·√(4.8183 + 0.1667) = 4.466 kg.
        var forgotten = CornerLoads.Compute(Car with { After = new CornerReadings(444.5, 428, 357, 345.5) });
        Assert.Equal(["Sum", "Rear axle", "Left side"], forgotten.Findings.Where(finding => finding.Code == "corner-differs").Select(finding => finding.Subject));
        Assert.Equal("75 kg measured, 57 kg predicted; the scales leave 4.47 kg open.", forgotten.Findings[0].Text.Replace('\u00a0', ' '));
        Assert.True(CornerLoads.Compute(Car with { After = new CornerReadings(444.5, 428, 357, 345.5), OtherKilograms = 20 }).Reconciled.All(row => row.Agrees));
    }

    [Fact]
    public void Crossed_and_one_sided_cars_are_told() =>
        Assert.Equal(["side-heavy", "cross-weight"], CornerLoads.Compute(Car with { Masses = [], Before = new CornerReadings(500, 370, 330, 300) }).Findings.Select(finding => finding.Code));

    [Fact]
    public void Bad_readings_are_refused_by_name()
    {
        Assert.Equal("Before.FrontLeft", Assert.Single((Car with { Before = Car.Before with { FrontLeft = -3 } }).Validate()).Field);
        Assert.Equal("After: the four readings sum to less than a vehicle; enter all four.", Assert.Single((Car with { After = new CornerReadings(20, 20, 20, 20) }).Validate()).Message);
    }
}

public class LighterPanelsTests
{
    // Densities of the trade (kg/m³): MDF 750, birch plywood 680, poplar plywood 520; moduli 3.5, 10 and 7 GPa, from memory.
    private static readonly LighterPanelsInput Shelf = new()
    {
        SquareMeters = 0.8,
        Planned = new PanelMaterial("mdf", "MDF", 750, 3.5e9, [new SheetChoice(0.019, 20m)]),
        Candidates =
        [
            new("birch", "Birch plywood", 680, 10e9, [new(0.009, 30m), new(0.012, 38m), new(0.015, 45m)]),
            new("poplar", "Poplar plywood", 520, 7e9, [new(0.012, 22m), new(0.015, 27m), new(0.018)]),
            new("foam", "Foam board", 60, 2e7, [new(0.02, 10m)]),
        ],
    };

    [Fact]
    public void The_lightest_thickness_of_each_that_is_as_stiff()
    {
        // By hand: 3.5e9·0.019³/12 = 2000.5 N·m; birch 15 mm 2812.5 (12 mm 1440), poplar 18 mm 3402 (15 mm 1968.75). MDF 0.8·0.019·750 = 11.4 kg, poplar 7.488, birch 8.16.
        var result = LighterPanels.Compute(Shelf);

        Assert.Equal(2_000.5, result.NeededNewtonMeters, 0.1);
        Assert.Equal(["poplar", "birch"], result.Options.Select(option => option.MaterialId));
        Assert.Equal(11.4 - 7.488, result.Options[0].SavedKilograms, 9);
        Assert.Null(result.Options[0].AddedPrice);
        Assert.Equal(20m, result.Options[1].AddedPrice);
        Assert.Equal(["foam"], result.TooSoftMaterialIds);
    }

    [Fact]
    public void Less_stiffness_or_less_room_changes_the_choice()
    {
        Assert.Equal(0.015, LighterPanels.Compute(Shelf with { NeededNewtonMeters = 1_900 }).Options[0].ThicknessMeters);
        Assert.Equal(["birch"], LighterPanels.Compute(Shelf with { MostMeters = 0.016 }).Options.Select(option => option.MaterialId));
    }

    [Fact]
    public void Every_option_is_stiff_enough_and_they_are_in_order() =>
        Gen.Select(Gen.Double[1, 20_000], Gen.Double[0.01, 3]).Sample((needed, area) =>
        {
            var options = LighterPanels.Compute(Shelf with { NeededNewtonMeters = needed, SquareMeters = area }).Options;
            return options.All(option => option.BendingNewtonMeters >= needed * (1 - 1e-9)) && options.Zip(options.Skip(1)).All(pair => pair.First.Kilograms <= pair.Second.Kilograms);
        });

    [Fact]
    public void Bad_input_is_refused_by_name() =>
        Assert.Equal("MDF: 2 thicknesses are not accepted; enter the one that is planned.", Assert.Single((Shelf with { Planned = Shelf.Planned with { Sheets = [new(0.01), new(0.02)] } }).Validate()).Message);
}

public class MassTargetTests
{
    private static AddedMassItem Item(string id, double? kilograms, MassChange change = MassChange.Installed, double quantity = 1) =>
        new() { Id = id, Name = id, Zone = "boot", UnitMassKilograms = kilograms, Change = change, Quantity = quantity };

    [Fact]
    public void Shares_of_the_target_heaviest_first()
    {
        var result = MassTarget.Compute(new MassTargetInput(40, [Item("amplifier", 4, quantity: 2), Item("enclosure", 24), Item("spare wheel", 12, MassChange.Removed)]));

        // 8 + 24 − 12 = 20 kg, half of 40.
        Assert.Equal((20, 20, 0.5), (result.NetKilograms, result.LeftKilograms, result.UsedShare));
        Assert.Equal(["enclosure", "amplifier", "spare wheel"], result.Heaviest.Select(share => share.ItemId));
        Assert.Equal([0.6, 0.2, -0.3], result.Heaviest.Select(share => share.ShareOfTarget));
        Assert.Empty(result.Findings);
    }

    [Theory]
    [InlineData(20, "mass-target-passed")]
    [InlineData(25, "mass-target-close")]
    public void At_and_past_the_target_it_is_told(double target, string code) => Assert.Equal(code, Assert.Single(MassTarget.Compute(new MassTargetInput(target, [Item("enclosure", 24)])).Findings).Code);

    [Fact]
    public void What_has_no_mass_is_told_and_not_taken_as_nothing() =>
        Assert.Equal((Severity.Warn, "1 item is without a mass and not in the sum."), MassTarget.Compute(new MassTargetInput(20, [Item("enclosure", null)])).Findings.Select(finding => (finding.Severity, finding.Text)).Single());
}
