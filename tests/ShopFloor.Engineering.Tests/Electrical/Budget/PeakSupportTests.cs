using CsCheck;
using ShopFloor.Engineering.Electrical.Budget;

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
}
