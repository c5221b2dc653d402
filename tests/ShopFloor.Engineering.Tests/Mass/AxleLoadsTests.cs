using CsCheck;
using ShopFloor.Engineering.Mass;

namespace ShopFloor.Engineering.Tests.Mass;

public class AxleLoadsTests
{
    private static readonly AxleLoadsInput Car = new() { WheelbaseMeters = 2.7, FrontKilograms = 870, RearKilograms = 630, Masses = [] };

    // By hand: 45 kg at 3.10 m lift the front by 45·(1 − 3.1/2.7) = −6.667 kg and load the rear with 51.667; 12 kg at 0.60 m add 9.333 and 2.667.
    [Fact]
    public void A_mass_behind_the_rear_axle_lifts_the_front()
    {
        var result = AxleLoads.Compute(Car with { Masses = [new PlacedMass("box", "Enclosure", 45, 3.1), new PlacedMass("battery", "Battery", 12, 0.6)] });

        Assert.Equal(872.667, result.FrontKilograms!.Value, 3);
        Assert.Equal(684.333, result.RearKilograms!.Value, 3);
        Assert.Equal(1.134, result.CenterBeforeMeters!.Value, 3);
        Assert.Equal(1.18671, result.CenterAfterMeters!.Value, 5);
    }

    [Fact]
    public void A_rating_that_is_passed_is_a_stop() =>
        Assert.Equal("It carries 685 kg; its rating is 680 kg.", AxleLoads.Compute(Car with { RearRatingKilograms = 680, Masses = [new PlacedMass("box", "Enclosure", 55, 2.7)] }).Findings.Single(finding => finding.Code == "axle-over-rating").Text.Replace('\u00a0', ' '));

    [Fact]
    public void Off_the_middle_the_side_bears_more() =>
        // 20 kg half a metre left on a track of 1.5 m: 10 + 20·0.5/1.5 = 16.667 kg left.
        Assert.Equal(16.6667, AxleLoads.Compute(Car with { TrackMeters = 1.5, Masses = [new PlacedMass("amp", "Amplifier", 20, 1, 0.5)] }).LeftChangeKilograms!.Value, 4);

    [Fact]
    public void Loads_add_up_and_what_is_taken_out_again_leaves_nothing() =>
        Gen.Select(Gen.Double[-100, 100], Gen.Double[-1, 4]).Array[0, 12].Sample(items =>
        {
            PlacedMass[] masses = [.. items.Select((item, n) => new PlacedMass($"{n}", $"Item {n}", item.Item1, item.Item2))];
            var result = AxleLoads.Compute(Car with { Masses = masses });
            var undone = AxleLoads.Compute(Car with { Masses = [.. masses, .. masses.Select(mass => mass with { Id = mass.Id + "b", Kilograms = -mass.Kilograms })] });
            return Math.Abs(result.FrontChangeKilograms + result.RearChangeKilograms - result.AddedKilograms) < 1e-9
                && Math.Abs(undone.FrontChangeKilograms) < 1e-9 && Math.Abs(undone.RearChangeKilograms) < 1e-9;
        });

    [Fact]
    public void Absurd_values_are_refused_by_name() =>
        Assert.Equal("Enclosure, place behind the front axle: 40 m is not accepted; enter -3 m to 12 m.", (Car with { Masses = [new PlacedMass("box", "Enclosure", 1, 40)] }).Validate().Single().Message.Replace('\u00a0', ' '));
}
