using CsCheck;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Mass;

namespace ShopFloor.Engineering.Tests.Mass;

public class AddedMassTests
{
    private static AddedMassItem Item(string id, double? kilograms, double quantity = 1, string zone = "trunk", MassChange change = MassChange.Installed) => new()
    {
        Id = id,
        Name = $"Item {id}",
        Zone = zone,
        UnitMassKilograms = kilograms,
        Quantity = quantity,
        Change = change,
    };

    private static AddedMassInput Of(PayloadLabel label, params AddedMassItem[] items) => new() { Items = items, Label = label };

    [Fact]
    public void Installed_and_removed_sum_to_net_by_place()
    {
        var result = AddedMass.Compute(Of(new PayloadLabel(),
            Item("amp", 6.5, 2), Item("box", 24), Item("old", 3, 4, "doors", MassChange.Removed), Item("drivers", 1.2, 4, "doors")));

        Assert.Equal(37 + 4.8, result.InstalledKilograms, 9);
        Assert.Equal(12, result.RemovedKilograms, 9);
        Assert.Equal(29.8, result.NetKilograms, 9);
        Assert.Equal(["trunk", "doors"], result.Zones.Select(z => z.Zone));
        Assert.Equal(-7.2, result.Zones[1].NetKilograms, 9);
        Assert.True(result.IsComplete);
    }

    [Fact]
    public void Eight_kilograms_of_cargo_are_left_of_a_408_kg_placard_with_60_kg_added_and_five_people()
    {
        // 49 CFR 571.110: placard 408 kg, 68 kg per seating position: 408 − 60 − 5·68 = 8 kg.
        var result = AddedMass.Compute(Of(new PayloadLabel { PayloadKilograms = 408, SeatingPositions = 5 }, Item("a", 60)));

        Assert.Equal(348, result.RemainingPayloadKilograms);
        Assert.Equal(340, result.OccupantsKilograms);
        Assert.Equal(8, result.CargoWithAllSeatsKilograms);
        Assert.DoesNotContain(result.Findings, f => f.Severity != Severity.Note);
    }

    // 49 CFR 571.110 S10.1: the lesser of 1.5 % of GVWR and 45.4 kg.
    [Theory]
    [InlineData(2441, 36.6)]
    [InlineData(3500, 45.4)]
    public void The_label_threshold_is_the_lesser_of_the_two(double rating, double threshold)
    {
        var label = new PayloadLabel { PayloadKilograms = 500, GrossVehicleWeightRatingKilograms = rating };

        Assert.Equal(threshold, AddedMass.Compute(Of(label)).LabelThresholdKilograms!.Value, 0.05);
        Assert.Null(AddedMass.Compute(Of(label, Item("a", threshold - 0.1))).Findings.SingleOrDefault(f => f.Code == "label-threshold"));
        var finding = AddedMass.Compute(Of(label, Item("a", threshold + 0.1))).Findings.Single(f => f.Code == "label-threshold");
        Assert.Equal(Severity.Note, finding.Severity);
        Assert.Contains("first retail sale", finding.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_missing_mass_is_a_finding_and_not_zero()
    {
        var result = AddedMass.Compute(Of(new PayloadLabel { PayloadKilograms = 400 }, Item("a", null), Item("b", 10), Item("c", null, change: MassChange.Removed)));

        Assert.Equal(["a", "c"], result.MissingItemIds);
        Assert.Equal(["a", "c"], result.Findings.Where(f => f.Code == "mass-missing").Select(f => f.SubjectId));
        Assert.False(result.IsComplete);
        Assert.Contains("not complete: 2 without a mass", result.Explanation.Answer, StringComparison.Ordinal);
    }

    [Fact]
    public void A_mass_of_zero_is_known_and_not_missing()
    {
        Assert.True(AddedMass.Compute(Of(new PayloadLabel { PayloadKilograms = 400 }, Item("a", 0))).IsComplete);
    }

    [Theory]
    [InlineData(401, "payload-exceeded", Severity.Stop)]
    [InlineData(399, "payload-below-occupants", Severity.Warn)]
    [InlineData(61, "payload-below-occupants", Severity.Warn)]
    public void More_than_the_payload_is_stopped_and_less_than_all_seats_is_warned(double added, string code, Severity severity)
    {
        var result = AddedMass.Compute(Of(new PayloadLabel { PayloadKilograms = 400, SeatingPositions = 5 }, Item("a", added)));

        Assert.Equal(severity, result.Findings.Single(f => f.Code == code).Severity);
        Assert.NotNull(result.Explanation.DecidedBy);
    }

    [Fact]
    public void Without_a_placard_nothing_is_made_up()
    {
        var result = AddedMass.Compute(Of(new PayloadLabel { SeatingPositions = 5 }, Item("a", 60)));

        Assert.Null(result.RemainingPayloadKilograms);
        Assert.Null(result.CargoWithAllSeatsKilograms);
        Assert.Null(result.LabelThresholdKilograms);
        Assert.Contains(result.Findings, f => f.Code == "payload-label-missing");
    }

    [Fact]
    public void Net_is_the_sum_over_places_and_payload_plus_net_is_the_placard()
    {
        var items = Gen.Select(Gen.Double[0, 200], Gen.Double[0.5, 8], Gen.Int[0, 3], Gen.Bool).Array[0, 12];
        items.Sample(drawn =>
        {
            var result = AddedMass.Compute(Of(
                new PayloadLabel { PayloadKilograms = 500 },
                [.. drawn.Select((d, i) => Item($"i{i}", d.Item1, d.Item2, $"zone {d.Item3}", d.Item4 ? MassChange.Removed : MassChange.Installed))]));
            return Math.Abs(result.Zones.Sum(z => z.NetKilograms) - result.NetKilograms) < 1e-6
                && Math.Abs(result.RemainingPayloadKilograms!.Value + result.NetKilograms - 500) < 1e-6;
        });
    }

    public static TheoryData<string, string, AddedMassInput> Bad() => new()
    {
        { "Items[0].UnitMassKilograms", "0\u00a0kg to 2000\u00a0kg", Of(new PayloadLabel(), Item("a", -1)) },
        { "Items[0].UnitMassKilograms", "not a number", Of(new PayloadLabel(), Item("a", double.NaN)) },
        { "Items[1].Quantity", "0.001 to 10\u00a0000", Of(new PayloadLabel(), Item("a", 1), Item("b", 1, 0)) },
        { "Items[0].Zone", "nothing was entered", Of(new PayloadLabel(), Item("a", 1, zone: " ")) },
        { "Items", "more than once", Of(new PayloadLabel(), Item("a", 1), Item("a", 2)) },
        { "Label.PayloadKilograms", "50\u00a0kg to 10\u00a0000\u00a0kg", Of(new PayloadLabel { PayloadKilograms = 0 }) },
        { "Label.GrossVehicleWeightRatingKilograms", "300\u00a0kg", Of(new PayloadLabel { GrossVehicleWeightRatingKilograms = -1 }) },
        { "Label.SeatingPositions", "1 to 60", Of(new PayloadLabel { SeatingPositions = 0 }) },
    };

    [Theory]
    [MemberData(nameof(Bad), DisableDiscoveryEnumeration = true)]
    public void What_cannot_be_summed_is_refused_naming_the_field(string field, string inMessage, AddedMassInput input)
    {
        var problem = Assert.Single(input.Validate());
        Assert.Equal(field, problem.Field);
        Assert.Contains(inMessage, problem.Message, StringComparison.Ordinal);
        Assert.Equal(field, Assert.Throws<ArgumentOutOfRangeException>(() => AddedMass.Compute(input)).ParamName);
    }
}
