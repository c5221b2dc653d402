using CsCheck;
using ShopFloor.Engineering.Electrical.Accessories;
using ShopFloor.Engineering.Electrical.Budget;

namespace ShopFloor.Engineering.Tests.Electrical.Accessories;

public class AccessoryPowerTests
{
    private static Accessory Camera(double? parked = 0.25, bool watches = true, double? cutOff = 12.3) => new()
    {
        Id = "recorder",
        Name = "Recorder",
        Kind = AccessoryKind.RecordingCamera,
        DrivingAmperes = 0.4,
        ParkedAmperes = parked,
        WatchesParked = watches,
        CutOffVolts = cutOff,
    };

    private static BatteryTimeInput Battery(double end = 50) => new()
    {
        Chemistry = BatteryChemistry.Flooded,
        CapacityAmpereHours = 60,
        PeukertExponent = 1,
        LoadAmperes = 1,
        EndPercent = end,
    };

    [Fact]
    public void Watching_time_follows_from_charge_and_the_two_currents()
    {
        // Half of 60 Ah over 0.25 A + 0.05 A: 100 h. In 12 h the recorder takes 3 Ah.
        var result = AccessoryPower.Compute(new AccessoryPowerInput { Accessories = [Camera()], VehicleSleepAmperes = 0.05, Battery = Battery() });

        Assert.Equal(100, result.Battery!.Hours, 9);
        Assert.Equal(3, result.WatchedAmpereHours, 9);
        Assert.Equal(0.4, result.DrivingAmperes, 9);
        Assert.DoesNotContain(result.Findings, f => f.Code == "watched-too-long");
    }

    [Fact]
    public void More_hours_than_the_battery_stands_are_pointed_out()
    {
        var result = AccessoryPower.Compute(new AccessoryPowerInput { Accessories = [Camera()], VehicleSleepAmperes = 0.05, Battery = Battery(), WatchedHours = 101 });

        Assert.Contains(result.Findings, f => f.Code == "watched-too-long");
        Assert.False(Assert.Single(result.Explanation.Limits).Passed);
    }

    [Theory]
    [InlineData(12.0, 50, true)] // 12.0 V is 16 % by the table of the Battery Council International
    [InlineData(12.3, 50, false)] // 57 %
    public void Cut_off_below_the_charge_to_keep_is_pointed_out(double volts, double end, bool expected)
    {
        var result = AccessoryPower.Compute(new AccessoryPowerInput { Accessories = [Camera(cutOff: volts)], Battery = Battery(end) });

        Assert.Equal(expected, result.Findings.Any(f => f.Code == "accessory-cut-off-low"));
    }

    [Fact]
    public void Parked_current_goes_into_the_key_off_drain_and_a_missing_one_stays_missing()
    {
        var known = AccessoryPower.Compute(new AccessoryPowerInput { Accessories = [Camera()] });
        var asleep = AccessoryPower.Compute(new AccessoryPowerInput { Accessories = [Camera(watches: false)] });
        var missing = AccessoryPower.Compute(new AccessoryPowerInput { Accessories = [Camera(parked: null)] });

        Assert.Equal(0.25, Assert.Single(known.StandbyDraws).StandbyAmperes);
        Assert.Equal(0, Assert.Single(asleep.StandbyDraws).StandbyAmperes);
        Assert.Null(Assert.Single(missing.StandbyDraws).StandbyAmperes);
        Assert.Contains(missing.Findings, f => f.Code == "accessory-parked-current-missing");
    }

    [Theory]
    [InlineData(AccessoryKind.DetectionDevice, "detection-device-law")]
    [InlineData(AccessoryKind.RecordingCamera, "recording-camera-law")]
    [InlineData(AccessoryKind.Camera, "camera-view")]
    public void Local_law_is_mentioned_where_it_decides(AccessoryKind kind, string code)
    {
        var result = AccessoryPower.Compute(new AccessoryPowerInput { Accessories = [Camera() with { Kind = kind }] });

        Assert.Contains(result.Findings, f => f.Code == code && f.Source.Contains("law", StringComparison.Ordinal));
    }

    [Fact]
    public void Refused_values_name_their_path()
    {
        var input = new AccessoryPowerInput { Accessories = [Camera(parked: -1)], Battery = Battery() with { CapacityAmpereHours = 0, LoadAmperes = double.NaN }, WatchedHours = 0 };

        Assert.Equal(["Accessories[0].ParkedAmperes", "Battery.CapacityAmpereHours", "WatchedHours"], input.Validate().Select(p => p.Field).Order(StringComparer.Ordinal));
        Assert.Throws<ArgumentOutOfRangeException>(() => AccessoryPower.Compute(input));
    }

    [Fact]
    public void Another_accessory_never_lengthens_the_watch() =>
        Gen.Select(Gen.Double[0.01, 2], Gen.Double[0, 2]).Sample((first, second) =>
        {
            double Hours(params double[] amperes) => AccessoryPower.Compute(new AccessoryPowerInput
            {
                Accessories = [.. amperes.Select((a, i) => Camera(a) with { Id = $"c{i}" })],
                Battery = Battery(),
            }).Battery!.Hours;
            return Hours(first, second) <= Hours(first) * (1 + 1e-9);
        });
}
