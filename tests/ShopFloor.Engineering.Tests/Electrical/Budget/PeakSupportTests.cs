using CsCheck;
using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Tests.Electrical.Budget;

public class PeakSupportTests
{
    private static PeakSupportInput Burst(double watts, double seconds, double farads = 1, double series = 0.002) => new()
    {
        SourceVolts = 13.8,
        SourceOhms = 0.02,
        BurstWatts = watts,
        BurstSeconds = seconds,
        LeastVolts = 12,
        Capacitor = new SupportCapacitor(farads, series),
    };

    // ngspice transient, load as a constant-power source (reltol 1e-6); a fourth-order Runge-Kutta integration agrees to six digits.
    [Theory]
    [InlineData(13.8, 0.02, 0.002, 1, 1500, 0.001, 13.50869)]
    [InlineData(13.8, 0.02, 0.002, 1, 1500, 0.010, 12.83035)]
    [InlineData(13.8, 0.02, 0.002, 1, 1500, 0.050, 11.50896)]
    [InlineData(13.8, 0.02, 0.002, 1, 1500, 0.099, 11.16949)]
    [InlineData(12.6, 0.03, 0.005, 2, 2000, 0.001, 11.81281)]
    [InlineData(12.6, 0.03, 0.005, 2, 2000, 0.010, 11.24485)]
    [InlineData(12.6, 0.03, 0.005, 2, 2000, 0.050, 9.07871)]
    [InlineData(12.6, 0.03, 0.005, 2, 2000, 0.099, 6.67047)]
    public void Sag_follows_a_circuit_simulator(double volts, double ohms, double series, double farads, double watts, double seconds, double expected) =>
        Assert.Equal(expected, new ConstantPowerSag(volts, ohms, series, watts).Volts(farads, seconds)!.Value, 0.0005);

    [Fact]
    public void Without_support_the_voltage_is_the_upper_root_of_the_power_balance()
    {
        // V² − 13.8·V + 0.02·1500 = 0: V = (13.8 + √(190.44 − 120))/2 = 11.0965 V.
        Assert.Equal(11.0965, PeakSupport.Compute(Burst(1500, 0.05) with { Capacitor = null }).AloneVolts!.Value, 0.0001);
    }

    [Fact]
    public void More_power_than_the_source_can_give_has_no_steady_voltage() =>
        // Largest power is V²/(4·R) = 2380.5 W.
        Assert.Null(PeakSupport.Compute(Burst(2400, 0.05) with { Capacitor = null }).AloneVolts);

    [Fact]
    public void Needed_capacitance_just_holds_the_least_voltage()
    {
        var needed = PeakSupport.Compute(Burst(1500, 0.05)).NeededFarads!.Value;

        Assert.Equal(12, PeakSupport.Compute(Burst(1500, 0.05, needed)).EndVolts!.Value, 0.0001);
    }

    [Fact]
    public void Larger_capacitor_never_sags_more() =>
        Gen.Select(Gen.Double[100, 2000], Gen.Double[0.005, 0.2], Gen.Double[0.2, 5], Gen.Double[1, 4]).Sample((watts, seconds, farads, factor) =>
        {
            double? End(double c) => new ConstantPowerSag(13.8, 0.02, 0.002, watts).Volts(c, seconds);
            return End(farads) is not { } small || End(farads * factor) >= small - 1e-9;
        });

    // Fourth-order Runge-Kutta integration of the two circuit equations in steps of 1 µs, until the node has no solution.
    [Theory]
    [InlineData(12.6, 0.03, 0.005, 2, 2000, 0.13401)]
    [InlineData(13.8, 0.02, 0.002, 1, 3000, 0.080392)]
    public void Collapse_comes_when_an_independent_integration_says(double volts, double ohms, double series, double farads, double watts, double seconds) =>
        Assert.Equal(seconds, new ConstantPowerSag(volts, ohms, series, watts).CollapseSeconds(farads), 0.00002);

    [Fact]
    public void Collapse_is_reported_with_its_time_and_ends_the_course()
    {
        var result = PeakSupport.Compute(Burst(3000, 0.2));

        Assert.Null(result.EndVolts);
        Assert.Equal(0.080392, result.CollapseSeconds!.Value, 0.0001);
        Assert.True(result.Course[^1].Seconds < result.CollapseSeconds);
        Assert.Contains(result.Findings, f => f.Code == "peak-collapse");
    }

    [Fact]
    public void A_weak_source_leaves_the_burst_to_the_energy_of_the_capacitor()
    {
        // A source of 1 Ω gives little in 10 ms, so the capacitor falls by the energy of the burst less what the source gives:
        // ½·C·(V0² − V²) = P·t − (energy from the source). At 10 ms: P·t = 20 J; the source gives ∫ v·(V0 − v)/R dt, below 2 W · 10 ms.
        var volts = new ConstantPowerSag(13.8, 1, 0, 2000).Volts(5, 0.01)!.Value;
        var given = 20 - 0.5 * 5 * (13.8 * 13.8 - volts * volts);

        Assert.InRange(given, 0, 0.05);
    }

    [Fact]
    public void Second_battery_joins_the_supply_by_thevenin()
    {
        // Two equal sources of 13.8 V, 0.02 Ω: 0.01 Ω together. (13.8 + √(190.44 − 60))/2 = 12.6105 V, half of 1500 W / 12.6105 V each.
        var result = PeakSupport.Compute(Burst(1500, 0.05) with { Capacitor = null, SecondBattery = new SupportBattery(13.8, 0.02, 60) });

        Assert.Equal(12.6105, result.EndVolts!.Value, 0.0001);
        Assert.Equal(1500 / 12.6105 / 2, result.SecondBatteryAmperes!.Value, 0.01);
        Assert.Contains(result.Findings, f => f.Code == "second-battery-connection");
    }

    [Fact]
    public void Capacitor_never_goes_without_its_charging_and_its_honest_verdict()
    {
        var result = PeakSupport.Compute(Burst(1500, 0.05) with { AlternatorSurplusAmperes = -20 });

        Assert.Contains(result.Findings, f => f.Code == "capacitor-precharge");
        Assert.Contains(result.Findings, f => f is { Code: "capacitor-is-no-source", Severity: Severity.Warn });
    }

    [Fact]
    public void Capacitor_rated_below_the_supply_stops() =>
        Assert.Contains(
            PeakSupport.Compute(Burst(500, 0.05) with { Capacitor = new SupportCapacitor(1, 0.002, 12) }).Findings,
            f => f is { Code: "capacitor-overvoltage", Severity: Severity.Stop });

    [Fact]
    public void No_capacitance_helps_when_its_own_resistance_drops_too_much()
    {
        // First moment: (13.8 + √(190.44 − 4 · (0.02 ∥ 0.1) · 1500))/2 = 11.66 V, already below 12 V.
        Assert.Null(PeakSupport.Compute(Burst(1500, 0.05, series: 0.1)).NeededFarads);
        Assert.Equal(0, PeakSupport.Compute(Burst(500, 0.05)).NeededFarads);
    }

    [Fact]
    public void Refused_values_name_their_field()
    {
        var input = Burst(0, 0.05, farads: -1) with { LeastVolts = 14, SourceOhms = 0 };

        Assert.Equal(["BurstWatts", "Capacitor.Farads", "LeastVolts", "SourceOhms"], input.Validate().Select(p => p.Field).Order(StringComparer.Ordinal));
        Assert.Throws<ArgumentOutOfRangeException>(() => PeakSupport.Compute(input));
    }

    [Fact]
    public void Longer_or_stronger_bursts_never_end_higher_and_the_voltage_stays_between_its_bounds() =>
        Gen.Select(Gen.Double[10, 3000], Gen.Double[0.001, 0.5], Gen.Double[0.1, 5], Gen.Double[0, 0.05], Gen.Double[1, 2]).Sample((watts, seconds, farads, series, factor) =>
        {
            double End(double p, double t) => new ConstantPowerSag(13.8, 0.02, series, p).Volts(farads, t) ?? 0;
            var end = End(watts, seconds);
            var sag = new ConstantPowerSag(13.8, 0.02, series, watts);
            return End(watts * factor, seconds) <= end + 1e-9 && End(watts, seconds * factor) <= end + 1e-9
                && (end == 0 || (end <= sag.FirstVolts + 1e-9 && end >= (sag.SteadyVolts ?? sag.CollapseVolts) - 1e-9));
        });

    [Fact]
    public void Times_of_the_capacitor_follow_from_its_energy_and_resistances()
    {
        var result = PeakSupport.Compute(Burst(1500, 0.05) with { PrechargeOhms = 5 });

        // ½ · 1 F · (13.8² − 12²) = 23.22 J, at 1500 W 15.48 ms; back to 95 % after 3 · 0.022 Ω · 1 F; 99 % through 5.002 Ω after 4.6052 · 5.002 s.
        Assert.Equal(23.22, result.CapacitorJoules!.Value, 6);
        Assert.Equal(0.01548, result.CapacitorAloneSeconds!.Value, 6);
        Assert.Equal(0.066, result.RecoverySeconds!.Value, 9);
        Assert.Equal(4.6052 * 5.002, result.Precharge!.SecondsToFull, 0.001);
    }
}
