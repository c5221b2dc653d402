using CsCheck;
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

    [Fact]
    public void Output_within_its_limit_needs_no_relay_and_a_current_that_is_missing_is_listed()
    {
        var result = Chain(0.5, Device("a", TurnOnStage.Amplifier), Device("b", TurnOnStage.Amplifier, null));

        Assert.False(result.RelayNeeded);
        Assert.Equal(["b"], result.MissingCurrentIds);
        Assert.Contains(result.Findings, f => f is { Code: "turn-on-current-missing", SubjectId: "b" });
    }

    [Fact]
    public void Amplifier_that_comes_on_before_an_unmuted_processor_is_steady_thumps()
    {
        // The processor needs 2 s; the amplifier comes on with the line.
        var processor = Device("dsp", TurnOnStage.Processor, settle: 2);
        var amplifier = Device("amp", TurnOnStage.Amplifier);
        bool Thumps(TurnOnDevice source, TurnOnDevice amp) => Chain(1, source, amp).Findings.Any(f => f is { Code: "amplifier-on-too-early", SubjectId: "amp" });

        Assert.True(Thumps(processor, amplifier));
        Assert.True(Thumps(processor, amplifier with { SetDelaySeconds = 1.9 }));
        Assert.False(Thumps(processor, amplifier with { SetDelaySeconds = 2 }));
        Assert.False(Thumps(processor with { MutesWhileUnsteady = true }, amplifier));
        Assert.False(Thumps(processor, amplifier with { MutesWhileUnsteady = true }));
    }

    [Fact]
    public void Delay_set_on_an_earlier_device_pushes_the_moment_it_is_steady()
    {
        var late = Device("dsp", TurnOnStage.Processor, settle: 2) with { SetDelaySeconds = 1 };

        Assert.Contains(Chain(1, late, Device("amp", TurnOnStage.Amplifier) with { SetDelaySeconds = 2.5 }).Findings, f => f.Code == "amplifier-on-too-early");
    }

    [Fact]
    public void Bare_coil_is_warned_about_and_a_suppressed_one_is_not()
    {
        var relay = Device("relay", TurnOnStage.Other, null) with { RelayCoilOhms = 85 };

        Assert.Contains(Chain(1, relay).Findings, f => f.Code == "coil-not-suppressed");
        Assert.DoesNotContain(Chain(1, relay with { CoilSuppressed = true }).Findings, f => f.Code == "coil-not-suppressed");
    }

    [Fact]
    public void Others_go_off_only_when_the_amplifiers_are_quiet_and_the_source_last()
    {
        // By hand with a margin of 0.2 s: amplifier quiet after 0.8 s, processor off at 1.0 s, source at 1.2 s.
        var result = TurnOnChain.Compute(new TurnOnInput
        {
            OutputLimitAmperes = 1,
            Devices = [Device("src", TurnOnStage.Source), Device("dsp", TurnOnStage.Processor), Device("amp", TurnOnStage.Amplifier) with { QuietSeconds = 0.8 }],
        });

        Assert.Equal([("amp", 0.0), ("dsp", 1.0), ("src", 1.2)], result.PowerDown.Select(s => (s.DeviceId, Math.Round(s.DelaySeconds, 9))));
        Assert.Equal(1.2, result.PowerDownSeconds, 9);
        // On: source steady after 1 s, processor on at 1.2 s and steady at 2.2 s, amplifier on at 2.4 s.
        Assert.Equal([("src", 0.0), ("dsp", 1.2), ("amp", 2.4)], result.PowerUp.Select(s => (s.DeviceId, Math.Round(s.DelaySeconds, 9))));
    }

    [Fact]
    public void Nothing_waits_for_a_fan() =>
        Assert.Equal(1, Chain(1, Device("dsp", TurnOnStage.Processor), Device("fan", TurnOnStage.Other, settle: 9), Device("amp", TurnOnStage.Amplifier))
            .PowerUp.Single(s => s.DeviceId == "amp").DelaySeconds, 9);

    [Fact]
    public void Refused_values_name_device_and_field() =>
        Assert.Equal(
            ["Devices[0].RelayCoilOhms", "Devices[0].SettleSeconds", "LineVolts"],
            new TurnOnInput { LineVolts = 0, Devices = [Device("a", TurnOnStage.Source, settle: -1) with { RelayCoilOhms = 1 }] }
                .Validate().Select(p => p.Field).Order(StringComparer.Ordinal));

    [Fact]
    public void No_stage_ever_comes_on_before_an_earlier_one_is_steady() =>
        Gen.Select(Gen.Enum<TurnOnStage>(), Gen.Double[0, 10]).Array[1, 8].Sample(devices =>
        {
            var up = Chain(5, [.. devices.Select((d, i) => Device($"d{i}", d.Item1, settle: d.Item2))]).PowerUp;
            int Place(TurnOnStage stage) => stage switch { TurnOnStage.Source => 0, TurnOnStage.Interface => 1, TurnOnStage.Amplifier => 3, _ => 2 };
            return up.All(later => up.Where(s => s.Stage != TurnOnStage.Other && Place(s.Stage) < Place(later.Stage)).All(s => s.SteadySeconds <= later.DelaySeconds + 1e-9));
        });
}
