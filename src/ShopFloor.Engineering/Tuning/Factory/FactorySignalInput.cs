using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Factory;

/// <summary>One output of the factory amplifier or radio, measured at its wires.</summary>
/// <param name="Id">Identifier, its own.</param>
/// <param name="Name">Name for people.</param>
/// <param name="Response">Level and phase against what was played, the arrival taken out of the phase; an octave at least.</param>
/// <param name="ArrivalSeconds">The arrival, on the same clock for all outputs, s (−10 to 20).</param>
public sealed record FactoryOutput(string Id, string Name, FrequencyResponse Response, double ArrivalSeconds);

/// <summary>Outputs of a factory system that are to be put together again.</summary>
public sealed record FactorySignalInput
{
    /// <summary>1 to 16 outputs of one side: what is added up in the new processor.</summary>
    public required IReadOnlyList<FactoryOutput> Outputs { get; init; }

    /// <summary>Sample rate of the new processor, Hz (8,000 to 768,000).</summary>
    public double SampleRateHertz { get; init; } = 48_000;

    /// <summary>What the filters that undo the equaliser may be; their band is cut to what the sum holds.</summary>
    public EqualiserLimits Limits { get; init; } = new() { FromHertz = 20, ToHertz = 20_000, LargestGainDecibels = 6 };

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(Outputs), "Number of outputs", Outputs.Count, 1, 16);
        checks.InRange(nameof(SampleRateHertz), "Sample rate in Hz", SampleRateHertz, FilterLimits.LeastSampleRateHertz, FilterLimits.LargestSampleRateHertz);
        checks.Distinct(nameof(Outputs), "Outputs", Outputs.Select(one => one.Id));
        Limits.Check(checks, nameof(Limits), SampleRateHertz);
        for (var n = 0; n < Math.Min(Outputs.Count, 16); n++)
        {
            var (at, output) = ($"{nameof(Outputs)}[{n}]", Outputs[n]);
            checks.Named($"{at}.{nameof(FactoryOutput.Name)}", "Name of the output", output.Name);
            checks.InRange($"{at}.{nameof(FactoryOutput.ArrivalSeconds)}", "Arrival in s", output.ArrivalSeconds, -10, 20);
            var problems = output.Response.Validate(text);
            checks.AddRange(problems.Select(problem => problem with { Field = $"{at}.{nameof(FactoryOutput.Response)}.{problem.Field}" }));
            if (problems.Count > 0)
                continue;
            if (output.Response.PhaseRadians is null)
                checks.Add($"{at}.{nameof(FactoryOutput.Response)}", $"{output.Name}: it has no phase; measure it with a sweep.");
            if (output.Response.Hertz[^1] < 2 * output.Response.Hertz[0])
                checks.Add($"{at}.{nameof(FactoryOutput.Response)}", $"{output.Name}: it reaches from {output.Response.Hertz[0]:0.#} to {output.Response.Hertz[^1]:0.#} Hz; an octave is needed.");
        }

        return checks.Problems;
    }
}

/// <summary>An end of an output's band.</summary>
/// <param name="Hertz">Where the level is 6 dB below that of the band, Hz.</param>
/// <param name="SlopeDecibelsPerOctave">How steeply it falls from 18 to 42 dB below, dB an octave; null when too little of it was measured.</param>
public sealed record FactoryEdge(double Hertz, double? SlopeDecibelsPerOctave);

/// <summary>What an output does to the music.</summary>
/// <param name="OutputId">The output.</param>
/// <param name="LevelDecibels">Level of its band, dB.</param>
/// <param name="Low">Lower end; null where the measurement ends first.</param>
/// <param name="High">Upper end; null where the measurement ends first.</param>
/// <param name="DelaySeconds">Later than the earliest output, s.</param>
/// <param name="IsInverted">Whether its polarity is turned.</param>
/// <param name="AllPasses">All-pass filters found in it.</param>
/// <param name="LeftRadians">Phase that delay, polarity and all-passes do not explain, rad rms.</param>
/// <param name="AddDelaySeconds">Delay to add in the new processor before the sum, s.</param>
/// <param name="AddFilters">All-passes to add before the sum: those other outputs have and this one has not.</param>
public sealed record FactoryOutputResult(
    string OutputId, double LevelDecibels, FactoryEdge? Low, FactoryEdge? High, double DelaySeconds, bool IsInverted, IReadOnlyList<FilterSetting> AllPasses, double LeftRadians,
    double AddDelaySeconds, IReadOnlyList<FilterSetting> AddFilters);

/// <summary>A factory signal taken apart and put together.</summary>
/// <param name="Outputs">Each output, in the order given.</param>
/// <param name="Hertz">Frequencies of the curves, Hz.</param>
/// <param name="PlainDecibels">Sum as the outputs come, dB.</param>
/// <param name="JoinedDecibels">Sum after delays, polarities and all-passes, dB.</param>
/// <param name="LevelDecibels">The same after the filters, dB.</param>
/// <param name="FromHertz">Lowest frequency the sum holds, Hz.</param>
/// <param name="ToHertz">Highest, Hz.</param>
/// <param name="EarliestSeconds">When the earliest output arrives, on the clock of the measurements, s.</param>
/// <param name="PlainLossDecibels">Most that is lost by outputs against each other as they come, dB.</param>
/// <param name="JoinedLossDecibels">Most that is lost after joining, dB.</param>
/// <param name="Equaliser">Filters on the sum, and what they reach; null where the sum holds less than an octave.</param>
/// <param name="Findings">What to know.</param>
/// <param name="Explanation">How it was reached.</param>
public sealed record FactorySignalResult(
    IReadOnlyList<FactoryOutputResult> Outputs, IReadOnlyList<double> Hertz, IReadOnlyList<double> PlainDecibels, IReadOnlyList<double> JoinedDecibels, IReadOnlyList<double> LevelDecibels,
    double FromHertz, double ToHertz, double EarliestSeconds, double PlainLossDecibels, double JoinedLossDecibels, EqualiserFitResult? Equaliser, IReadOnlyList<Finding> Findings, Explanation Explanation);
