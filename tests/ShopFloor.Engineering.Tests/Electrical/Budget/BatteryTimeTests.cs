using CsCheck;
using ShopFloor.Engineering.Electrical.Budget;

namespace ShopFloor.Engineering.Tests.Electrical.Budget;

public class BatteryTimeTests
{
    private static BatteryTimeInput Battery(double capacity, double load, double exponent = 1.2, double end = 0) => new()
    {
        Chemistry = BatteryChemistry.Flooded,
        CapacityAmpereHours = capacity,
        LoadAmperes = load,
        PeukertExponent = exponent,
        EndPercent = end,
    };

    // Published tutorial example: 120 Ah at 20 h, 120 A, k = 1.4 gives 0.30 h. The second by an independent calculation of the same form.
    [Theory]
    [InlineData(120, 20, 120, 1.4, 0.30, 0.005)]
    [InlineData(100, 20, 10, 1.2, 8.706, 0.001)]
    public void Peukert_time_matches_published_examples(double capacity, double rating, double amperes, double exponent, double hours, double tolerance) =>
        Assert.Equal(hours, Peukert.Hours(capacity, rating, amperes, exponent), tolerance);

    // Published with the short form C/I^k on 20-hour ratings: 100 Ah at 5 A "14.5 h", 250 Ah at 20 A "5.089 h". Both contradict the rating.
    [Theory]
    [InlineData(100, 5, 1.2, 14.5)]
    [InlineData(250, 20, 1.3, 5.089)]
    public void Short_form_is_not_used(double capacity, double amperes, double exponent, double wrongHours)
    {
        Assert.Equal(wrongHours, capacity / Math.Pow(amperes, exponent), 0.005);
        Assert.True(Peukert.Hours(capacity, 20, amperes, exponent) > 1.3 * wrongHours);
    }

    [Theory]
    [InlineData("AGM lead-acid", BatteryChemistry.GlassMat)]
    [InlineData("lead-acid, flooded", BatteryChemistry.Flooded)]
    [InlineData("Sealed lead-acid", BatteryChemistry.GlassMat)]
    [InlineData("VRLA gel", BatteryChemistry.Gel)]
    [InlineData("EFB", BatteryChemistry.Flooded)]
    [InlineData("Gel", BatteryChemistry.Gel)]
    [InlineData("Lithium iron phosphate", BatteryChemistry.LithiumIronPhosphate)]
    [InlineData("LiFePO4", BatteryChemistry.LithiumIronPhosphate)]
    [InlineData("LFP", BatteryChemistry.LithiumIronPhosphate)]
    [InlineData("", null)]
    [InlineData("unlabelled", null)]
    public void The_chemistry_is_read_from_the_words_of_a_label(string words, BatteryChemistry? chemistry) => Assert.Equal(chemistry, BatteryWords.ChemistryOf(words));

    [Fact]
    public void Rated_current_lasts_the_rated_hours() => Assert.Equal(20, Peukert.Hours(100, 20, 5, 1.2), 9);

    [Fact]
    public void Two_discharge_tests_give_the_exponent_back() =>
        Assert.Equal(1.27, Peukert.Exponent(5, Peukert.Hours(80, 20, 5, 1.27), 25, Peukert.Hours(80, 20, 25, 1.27)), 9);

    // Battery Council International table; between rows by hand: 50 + 25·0.11/0.21 and 25·0.11/0.17.
    [Theory]
    [InlineData(12.65, 100)]
    [InlineData(12.45, 75)]
    [InlineData(12.24, 50)]
    [InlineData(12.06, 25)]
    [InlineData(11.89, 0)]
    [InlineData(12.35, 63.1)]
    [InlineData(12.00, 16.2)]
    [InlineData(13.0, 100)]
    [InlineData(11.0, 0)]
    public void Rest_voltage_gives_the_state_of_charge(double volts, double percent) => Assert.Equal(percent, OpenCircuitVoltage.StateOfChargePercent(volts), 0.05);

    [Fact]
    public void Reserve_capacity_at_a_small_current_gives_at_most_the_published_six_tenths_of_an_ampere_hour_a_minute()
    {
        // OEM service bulletin: Ah ≈ 0.6·RC. Peukert with k = 1.2 from the test point at 3 A gives 25·100/60·(25/3)^0.2 = 63.7 Ah.
        Assert.Equal(63.7, 3 * Peukert.Hours(25 * 100 / 60.0, 100 / 60.0, 3, 1.2), 0.1);
        var result = BatteryTime.Compute(new BatteryTimeInput { Chemistry = BatteryChemistry.Flooded, ReserveCapacityMinutes = 100, LoadAmperes = 3, PeukertExponent = 1.2, EndPercent = 0 });
        Assert.Equal(60, result.DrawnAmpereHours, 9);
    }

    [Fact]
    public void Reserve_capacity_gives_its_minutes_back_at_its_own_current()
    {
        // By definition: RC 100 min is 25 A for 100 min, whatever the exponent.
        var result = BatteryTime.Compute(new BatteryTimeInput { Chemistry = BatteryChemistry.Flooded, ReserveCapacityMinutes = 100, LoadAmperes = 25, EndPercent = 0 });

        Assert.Equal(100.0 / 60, result.Hours, 9);
    }

    [Fact]
    public void Cold_lead_gives_less_and_cold_lithium_is_not_to_be_charged()
    {
        var lead = BatteryTime.Compute(Battery(100, 5, exponent: 1) with { BatteryCelsius = -5 });
        var lithium = BatteryTime.Compute(Battery(100, 5, exponent: 1) with { Chemistry = BatteryChemistry.LithiumIronPhosphate, BatteryCelsius = -5 });

        // 30 °C below 25 °C at 0.8 % each: 76 Ah.
        Assert.Equal(76, lead.DrawnAmpereHours, 9);
        Assert.Contains(lithium.Findings, f => f.Code == "battery-lithium-frost");
        Assert.DoesNotContain(lead.Findings, f => f.Code == "battery-lithium-frost");
    }

    [Fact]
    public void Half_the_charge_takes_half_the_time() =>
        Assert.Equal(BatteryTime.Compute(Battery(100, 10)).Hours / 2, BatteryTime.Compute(Battery(100, 10, end: 50)).Hours, 9);

    [Fact]
    public void Lithium_carries_its_cut_off_caution()
    {
        var result = BatteryTime.Compute(new BatteryTimeInput { Chemistry = BatteryChemistry.LithiumIronPhosphate, CapacityAmpereHours = 60, LoadAmperes = 30, EndPercent = 20 });

        Assert.Contains(result.Findings, f => f.Code == "battery-protection-cut-off");
        Assert.DoesNotContain(result.Findings, f => f.Code == "battery-deep-discharge");
    }

    [Fact]
    public void Rest_voltage_of_an_agm_battery_is_refused() =>
        Assert.Contains((Battery(70, 5) with { Chemistry = BatteryChemistry.GlassMat, RestedVolts = 12.7 }).Validate(), p => p.Field == "RestedVolts");

    [Fact]
    public void Battery_below_the_stop_has_no_time_left()
    {
        var result = BatteryTime.Compute(Battery(70, 5, end: 50) with { RestedVolts = 12.06 });

        Assert.Equal(0, result.Hours);
        Assert.Contains(result.Findings, f => f.Code == "battery-below-end");
    }

    [Fact]
    public void Larger_load_never_lasts_longer_nor_gives_more_charge() =>
        Gen.Select(Gen.Double[5, 300], Gen.Double[0.1, 200], Gen.Double[1, 3], Gen.Double[1, 1.6]).Sample((capacity, load, factor, exponent) =>
        {
            var small = BatteryTime.Compute(Battery(capacity, load, exponent));
            var large = BatteryTime.Compute(Battery(capacity, load * factor, exponent));
            return large.Hours <= small.Hours * (1 + 1e-9) && large.DrawnAmpereHours <= small.DrawnAmpereHours * (1 + 1e-9)
                && small.DrawnAmpereHours <= capacity * (1 + 1e-9);
        });
}
