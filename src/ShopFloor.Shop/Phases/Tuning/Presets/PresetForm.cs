using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Engineering.Tuning.Verification;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Tuning.Factory;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Tuning.Presets;

/// <summary>What the search for crossovers leaves alone.</summary>
/// <param name="JunctionId">Where drivers meet.</param>
/// <param name="Crossover">Kept as it is set.</param>
/// <param name="Polarity">Kept as it is set.</param>
/// <param name="Delay">Kept as it is set.</param>
public sealed record PresetPin(string JunctionId, Crossover? Crossover, bool Polarity, bool Delay);

/// <summary>Who did a thing and when.</summary>
public sealed record DoneBy(string Name, DateTimeOffset At);

/// <summary>What somebody heard at a point of the listening list.</summary>
public sealed record HeardPoint(ListeningAnswer Answer, DoneBy By);

/// <summary>One version of a preset. Settings of a version are never changed: a change is a new version of the same preset.</summary>
public sealed record PresetForm : IDesignForm
{
    public static DesignKind Kind => DesignKind.TuningPreset;

    public static Permission Needed => Permission.WorkOnJobs;

    /// <summary>The same for all versions of a preset.</summary>
    public required Guid PresetId { get; init; }

    /// <summary>1 for the first version.</summary>
    public required int Number { get; init; }

    /// <summary>The version it was made from; null for the first.</summary>
    public int? BasedOn { get; init; }

    /// <summary>Why it was made.</summary>
    public string Note { get; init; } = "";

    public required DoneBy SavedBy { get; init; }

    /// <summary>The processor as it was then, so that the version stays readable when the shop's list changes.</summary>
    public required ProcessorProfile Profile { get; init; }

    public required TargetCurve Target { get; init; }

    /// <summary>Settings on the processor's steps.</summary>
    public required IReadOnlyList<ChannelSetting> Channels { get; init; }

    /// <summary>What is set at inputs before they are mixed: what undoes a factory signal. Empty where nothing is.</summary>
    public IReadOnlyList<ChannelSetting> Inputs { get; init; } = [];

    /// <summary>What the factory signal came to when the inputs were worked out, a side each.</summary>
    public IReadOnlyList<FactoryNote> Factory { get; init; } = [];

    public IReadOnlyList<PresetPin> Pins { get; init; } = [];

    /// <summary>Set while the processor in the car holds this version.</summary>
    public DoneBy? InCar { get; init; }

    /// <summary>One for each point somebody listened to.</summary>
    public IReadOnlyList<HeardPoint> Heard { get; init; } = [];

    /// <summary>What a version is called in words, and by measurements taken with it.</summary>
    public static string Label(string name, int number) => System.FormattableString.Invariant($"{name}, version {number}");

    public ProcessorPreset Settings(string name) => new(name, Channels) { Inputs = Inputs };

    public List<Problem> Problems() =>
    [
        .. new Check().Longest(Note, nameof(Note), "The reason", Limits.Line).Problems,
        .. Profile.Validate().Concat(Target.Validate()).Concat(Settings("preset").Validate(Profile.SampleRateHertz)).Select(problem => new Problem(problem.Field, problem.Message)),
    ];
}

/// <summary>A preset on the bench, not yet kept.</summary>
public sealed record PresetDraft
{
    /// <summary>Null begins a new preset.</summary>
    public Guid? PresetId { get; init; }

    /// <summary>Number of the version it was made from; null for a new preset.</summary>
    public int? BasedOn { get; init; }

    public required string Name { get; init; }

    /// <summary>Why it is made.</summary>
    public string Note { get; init; } = "";

    public required ProcessorProfile Profile { get; init; }

    public required TargetCurve Target { get; init; }

    public required IReadOnlyList<ChannelSetting> Channels { get; init; }

    /// <summary>What is set at inputs before they are mixed.</summary>
    public IReadOnlyList<ChannelSetting> Inputs { get; init; } = [];

    /// <summary>What the factory signal came to when the inputs were worked out.</summary>
    public IReadOnlyList<FactoryNote> Factory { get; init; } = [];

    public IReadOnlyList<PresetPin> Pins { get; init; } = [];
}
