using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Processors;

/// <summary>The settings of all channels of a processor, and of its inputs where any are set.</summary>
/// <param name="Name">Name of the preset.</param>
/// <param name="Channels">Its channels, 1 to 64, each identifier once.</param>
public sealed record ProcessorPreset(string Name, IReadOnlyList<ChannelSetting> Channels)
{
    /// <summary>What is set at inputs, before they are mixed: at most 64, each identifier once. Inputs not named are left as they come.</summary>
    public IReadOnlyList<ChannelSetting> Inputs { get; init; } = [];

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="sampleRateHertz">Sample rate, Hz.</param>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(double sampleRateHertz, UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.Named(nameof(Name), "Name of the preset", Name);
        checks.InRange(nameof(Channels), "Channels", Channels.Count, 1, 64);
        checks.Distinct(nameof(Channels), "Channels", Channels.Select(channel => channel.Id));
        checks.AddRange(Channels.Take(64).SelectMany((channel, at) => channel.Validate(sampleRateHertz, text).Select(problem => problem with { Field = $"{nameof(Channels)}[{at}].{problem.Field}" })));
        checks.InRange(nameof(Inputs), "Inputs", Inputs.Count, 0, 64);
        checks.Distinct(nameof(Inputs), "Inputs", Inputs.Select(input => input.Id));
        checks.AddRange(Inputs.Take(64).SelectMany((input, at) => input.Validate(sampleRateHertz, text).Select(problem => problem with { Field = $"{nameof(Inputs)}[{at}].{problem.Field}" })));
        return checks.Problems;
    }
}

/// <summary>A setting that was changed.</summary>
/// <param name="ChannelId">Of which channel.</param>
/// <param name="Channel">Its name.</param>
/// <param name="Field">What, in plain words with its unit, for example "filter 3: Q".</param>
/// <param name="From">Value before; empty where there was none.</param>
/// <param name="To">Value after; empty where there is none.</param>
public sealed record SettingChange(string ChannelId, string Channel, string Field, string From, string To);

/// <summary>A preset as the processor can hold it.</summary>
/// <param name="Preset">The rounded preset.</param>
/// <param name="Rounded">What was rounded.</param>
/// <param name="Findings">What could not be kept.</param>
public sealed record QuantisedPreset(ProcessorPreset Preset, IReadOnlyList<SettingChange> Rounded, IReadOnlyList<Finding> Findings);
