using ShopFloor.Engineering.Tuning;
using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Tuning.Measurements;

namespace ShopFloor.Shop.Phases.Tuning.Presets;

/// <summary>What a tuning is worked out from.</summary>
public sealed record BenchFacts
{
    /// <summary>Channels of the signal path.</summary>
    public required IReadOnlyList<TuningChannel> Channels { get; init; }

    /// <summary>Channels measured without a preset, with phase and arrival, all at the same places.</summary>
    public required IReadOnlyList<TunedDriver> Drivers { get; init; }

    /// <summary>Why channels are missing among <see cref="Drivers"/>, a sentence each.</summary>
    public required IReadOnlyList<string> Missing { get; init; }

    /// <summary>Where drivers meet, the lowest first.</summary>
    public required IReadOnlyList<Junction> Junctions { get; init; }

    public required TuningPresetList Presets { get; init; }

    public required TuningLimits Limits { get; init; }

    /// <summary>Whether the search for crossovers can run.</summary>
    public bool CanAlign => Drivers.Count >= 2 && Junctions.Count > 0;

    /// <summary>A preset that is safe to begin with: every channel of the path with the high-pass and low-pass of its parts, nothing else.</summary>
    /// <param name="profile">The processor.</param>
    public PresetDraft Begin(ProcessorProfile profile) => new()
    {
        Name = "Driver's seat", Profile = profile, Target = TargetCurve.BuiltIn[1],
        Channels = [.. Channels.Select(channel => new ChannelSetting
        {
            Id = channel.Id, Name = channel.Name,
            HighPass = (channel.HighPassHertz ?? channel.LowestHertz) is { } high ? new Crossover(CrossoverShape.LinkwitzRiley, Math.Max(high, channel.LowestHertz ?? 0), 24) : null,
            LowPass = channel.LowPassHertz is { } low ? new Crossover(CrossoverShape.LinkwitzRiley, low, 24) : null,
        })],
    };

    /// <summary>The pins of a draft laid over the junctions.</summary>
    public IReadOnlyList<Junction> Pinned(IReadOnlyList<PresetPin> pins) =>
        [.. Junctions.Select(junction => pins.FirstOrDefault(pin => pin.JunctionId == junction.Id) is { } pin ? junction with { Pinned = pin.Crossover, PolarityPinned = pin.Polarity, DelayPinned = pin.Delay } : junction)];

    public TuningTask Task(PresetDraft draft, double airCelsius, double rearFillLagSeconds, int starts = 60) => new()
    {
        Drivers = Drivers, Junctions = Pinned(draft.Pins), Target = draft.Target, Profile = draft.Profile, AirCelsius = airCelsius, RearFillLagSeconds = rearFillLagSeconds, Starts = starts,
    };

    /// <summary>The channels of a draft after a tuning: measured ones as found, with a high-pass where a driver needs one and none was chosen; the others as they were.</summary>
    public IReadOnlyList<ChannelSetting> Taken(PresetDraft draft, IReadOnlyList<ChannelSetting> found) =>
    [
        .. draft.Channels.Select(old =>
        {
            var now = found.FirstOrDefault(channel => channel.Id == old.Id) is { } tuned ? tuned with { Name = old.Name } : old;
            var lowest = Channels.FirstOrDefault(channel => channel.Id == old.Id)?.LowestHertz;
            return lowest is { } bears && !(now.HighPass?.Hertz >= bears * 0.97) ? now with { HighPass = new Crossover(CrossoverShape.LinkwitzRiley, bears, 24) } : now;
        }),
    ];
}
