using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Engineering.Signal.Presets;

namespace ShopFloor.Engineering.Tests.Signal;

/// <summary>The same player over its optical output and over its line output of fixed voltage.</summary>
public class ConnectionComparisonTests
{
    [Fact]
    public void The_line_output_adds_two_conversions_and_a_level_to_match()
    {
        var result = ConnectionComparison.Compute(Input(volts: 2));

        // Numbers into volts in the player, volts into numbers in the processor; the way back into volts is common to both. 44.1 kHz into 96 kHz is the optical way's own.
        Assert.Equal(["numbers into volts", "volts into numbers at 96 kHz", "numbers into volts"], result.Second.Conversions.Select(change => change.What));
        Assert.Equal(["44.1 kHz into 96 kHz", "numbers into volts"], result.First.Conversions.Select(change => change.What));
        Assert.Equal((Favour.First, Favour.First), (Of(result, "Conversions").Favour, Of(result, "Ground").Favour));
        // 2 V over 100 Ω into 20 kΩ: 2 · 20000/20100 = 1.9900 V.
        Assert.Equal(1.9900, result.Second.InputVolts!.Value, 4);
        Assert.True(result.First.IsDigital);
        Assert.Equal("digital full scale", Of(result, "Level at the input").First);
    }

    // 8 V over 100 Ω into 20 kΩ are 7.960 V; the input clips at 4 V: 20·log10(4/7.960) = −5.98 dB.
    [Fact]
    public void A_line_output_that_clips_the_input_loses_there()
    {
        var result = ConnectionComparison.Compute(Input(volts: 8));

        Assert.Equal(-5.98, result.Second.HeadroomDecibels!.Value, 2);
        Assert.Equal(Favour.First, Of(result, "Distance to clipping there").Favour);
    }

    // The player's own noise is the same for both; the processor's input adds none of its own in this model, so only what the line divides differs: under 1 dB.
    [Fact]
    public void Noise_is_that_of_this_source_alone_and_a_difference_nobody_hears_favours_neither()
    {
        var input = Input(volts: 2);
        var result = ConnectionComparison.Compute(input);
        var alone = SignalLevels.Compute(input.First with
        {
            Devices = [.. input.First.Devices.Where(device => device is not SourceDevice || device.Id == "player")],
            Links = [.. input.First.Links.Where(link => link.FromDevice is not ("radio" or "chimes"))],
        });

        Assert.Equal(alone.SelectMany(channel => channel.Noise).Max(noise => noise.SoundLevelDecibels), result.First.NoiseAtEarDecibels);
        Assert.Equal(Favour.Neither, Of(result, "Noise at the ear").Favour);
    }

    [Fact]
    public void A_source_without_figures_is_compared_where_figures_are_there()
    {
        var input = Input(volts: null);

        var result = ConnectionComparison.Compute(input);

        Assert.Equal(Favour.Unknown, Of(result, "Distance to clipping there").Favour);
        Assert.Equal("not known", Of(result, "Noise at the ear").Second);
    }

    [Fact]
    public void A_source_that_is_in_one_path_alone_is_refused_by_name()
    {
        var problems = (Input(volts: 2) with { SourceId = "tape" }).Validate();

        Assert.All(problems, problem => Assert.Contains("'tape'", problem.Message, StringComparison.Ordinal));
        Assert.Equal(2, problems.Count);
    }

    [Fact]
    public void Both_ways_the_other_way_round_favour_the_other()
    {
        var input = Input(volts: 8);
        var there = ConnectionComparison.Compute(input).Points;
        var back = ConnectionComparison.Compute(input with { First = input.Second, Second = input.First }).Points;

        Assert.Equal(there.Select(point => point.Favour switch { Favour.First => Favour.Second, Favour.Second => Favour.First, var same => same }), back.Select(point => point.Favour));
    }

    private static ComparedPoint Of(ConnectionComparisonResult result, string what) => result.Points.Single(point => point.What == what);

    private static ConnectionComparisonInput Input(double? volts)
    {
        var optical = SamplePath.Good();
        var line = optical.With(device => device is SourceDevice { Id: "player" } player ? player with { Outputs = [new SignalPort { Id = "opt", Name = "line out", Kind = PortKind.UnbalancedLine, MaxVolts = volts, Ohms = 100 }] } : device)
            .WithProcessor(processor => processor with { Routes = [.. processor.Routes.Select(route => route.Input == "opt" ? route with { Input = "i3" } : route)] });
        return new ConnectionComparisonInput
        {
            SourceId = "player", FirstName = "optical", First = optical, SecondName = "line out",
            Second = line with { Links = [.. line.Links.Select(link => link.FromDevice == "player" ? link with { ToPort = "i3" } : link)] },
        };
    }
}
