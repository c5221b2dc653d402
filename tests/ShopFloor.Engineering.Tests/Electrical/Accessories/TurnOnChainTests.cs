using ShopFloor.Engineering.Electrical.Accessories;

namespace ShopFloor.Engineering.Tests.Electrical.Accessories;

public class TurnOnChainTests
{
    private static TurnOnDevice Device(string id, TurnOnStage stage, double? amperes = 0.02, double settle = 1) => new()
    {
        Id = id,
        Name = id,
        Stage = stage,
        TurnOnAmperes = amperes,
        SettleSeconds = settle,
    };

    private static TurnOnResult Chain(double? limit, params TurnOnDevice[] devices) =>
        TurnOnChain.Compute(new TurnOnInput { OutputLimitAmperes = limit, LineVolts = 12, MarginSeconds = 0, Devices = devices });

    [Fact]
    public void Sources_come_first_and_amplifiers_last_and_go_first()
    {
        // By hand: the source is steady after 3 s, the processor 2 s later.
        var result = Chain(1, Device("amp", TurnOnStage.Amplifier), Device("dsp", TurnOnStage.Processor, settle: 2), Device("src", TurnOnStage.Source, settle: 3));

        Assert.Equal([("src", 0.0), ("dsp", 3.0), ("amp", 5.0)], result.PowerUp.Select(s => (s.DeviceId, s.DelaySeconds)));
        Assert.Equal("amp", result.PowerDown[0].DeviceId);
        Assert.Equal(6, result.PowerUpSeconds, 9);
    }

    [Fact]
    public void Coil_current_follows_ohms_law_and_overload_asks_for_a_relay()
    {
        // 12 V / 80 Ω = 0.15 A; with 0.2 A of a device above a limit of 0.3 A.
        var result = Chain(0.3, Device("fan", TurnOnStage.Amplifier, null) with { RelayCoilOhms = 80 }, Device("amp", TurnOnStage.Amplifier, 0.2));

        Assert.Equal(0.35, result.TotalAmperes, 9);
        Assert.True(result.RelayNeeded);
    }

    [Fact]
    public void Unknown_limit_leaves_the_relay_undecided() => Assert.Null(Chain(null, Device("a", TurnOnStage.Amplifier)).RelayNeeded);
}
