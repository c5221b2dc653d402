using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Tuning.Factory;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Shop.Phases.Tuning.Measurements;

namespace ShopFloor.Shop.Phases.Tuning.Factory;

/// <summary>What a job knows about its factory signal before it is worked out.</summary>
public sealed record FactorySignalView
{
    /// <summary>Outputs that were measured, left before right.</summary>
    public required IReadOnlyList<MeasuredOutput> Outputs { get; init; }

    /// <summary>Outputs of the signal path that were not measured, by name.</summary>
    public required IReadOnlyList<string> NotMeasured { get; init; }

    /// <summary>Measurements that cannot be read, in words.</summary>
    public required IReadOnlyList<string> Problems { get; init; }

    /// <summary>What was decided last.</summary>
    public required FactorySignalForm Choice { get; init; }

    public Guid? ChoiceId { get; init; }

    public Guid ChoiceVersion { get; init; }

    /// <summary>Processor of the preset in the car, else of the first preset, else what the parts list says of one.</summary>
    public required ProcessorProfile Profile { get; init; }
}

/// <summary>A factory output as it was measured, repeats averaged.</summary>
/// <param name="InputName">What its input is called in a preset.</param>
/// <param name="MeasurementIds">Its measurements.</param>
public sealed record MeasuredOutput(string Key, string Name, string InputName, ImageSide Side, FactoryOutput Measured, ArrivalClock Clock, IReadOnlyList<Guid> MeasurementIds)
{
    /// <summary>Where its usable band begins, Hz: outputs of a side are listed from the lowest up.</summary>
    public double FromHertz { get; init; }
}

/// <summary>One side, worked out.</summary>
public sealed record FactorySideView(ImageSide Side, IReadOnlyList<MeasuredOutput> Outputs, FactorySignalResult Result)
{
    public FactoryNote Note => new()
    {
        Side = Side, Outputs = Outputs.Count, FromHertz = Result.FromHertz, ToHertz = Result.ToHertz, PlainLossDecibels = Math.Max(0, Result.PlainLossDecibels), JoinedLossDecibels = Math.Max(0, Result.JoinedLossDecibels),
        ApartSeconds = Result.Outputs.Max(output => output.DelaySeconds), Filters = Result.Equaliser?.Filters.Count ?? 0, AllPasses = Result.Outputs.Sum(output => output.AllPasses.Count),
        BeforeDecibels = Result.Equaliser?.RmsBeforeDecibels, AfterDecibels = Result.Equaliser?.RmsDecibels,
    };

    /// <summary>Settings of the inputs of a processor for the sides given, named by the inputs where cables say which.</summary>
    public static IReadOnlyList<ChannelSetting> Inputs(IReadOnlyList<FactorySideView> sides) =>
        FactoryInputs.Of([.. sides.Select(side => new FactorySide([.. side.Outputs.Select(output => output.Measured with { Name = output.InputName })], side.Result))]);
}

/// <summary>What a side came to, as presets and papers keep it.</summary>
public sealed record FactoryNote
{
    public required ImageSide Side { get; init; }

    /// <summary>How many outputs are added up.</summary>
    public required int Outputs { get; init; }

    public required double FromHertz { get; init; }

    public required double ToHertz { get; init; }

    /// <summary>Most that is lost by outputs against each other as they come, dB.</summary>
    public required double PlainLossDecibels { get; init; }

    public required double JoinedLossDecibels { get; init; }

    /// <summary>Latest against earliest output, s.</summary>
    public required double ApartSeconds { get; init; }

    public required int Filters { get; init; }

    public int AllPasses { get; init; }

    /// <summary>Deviation from flat before and after the filters, dB rms; null where the sum holds less than an octave.</summary>
    public double? BeforeDecibels { get; init; }

    public double? AfterDecibels { get; init; }
}
