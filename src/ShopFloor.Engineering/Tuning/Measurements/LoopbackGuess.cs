using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Tuning.Measurements;

/// <summary>Which channel of a recording is the electrical loopback.</summary>
/// <param name="Channel">Its number from 0; null while none stands out.</param>
/// <param name="DirectToRestDecibels">Of each channel: what of its response to the sweep comes at once, against the rest within half a second, dB.</param>
public sealed record LoopbackGuessResult(int? Channel, IReadOnlyList<double> DirectToRestDecibels);

/// <summary>Tells the loopback among the channels of a recording: a cable returns the sweep as one pulse, a microphone with all that rings and reflects.</summary>
/// <remarks>The limits are common practice, no source.</remarks>
public static class LoopbackGuess
{
    private const double LeastDecibels = 8;
    private const double LeastAheadDecibels = 6;

    /// <summary>Compares the channels.</summary>
    /// <param name="sweep">The sweep that was played.</param>
    /// <param name="channels">The channels, at the sweep's sample rate, each at least as long as the sweep; a silent one counts as none.</param>
    /// <exception cref="ArgumentOutOfRangeException">The sweep or a channel has a problem.</exception>
    public static LoopbackGuessResult Of(ExponentialSweep sweep, IReadOnlyList<double[]> channels)
    {
        ArgumentNullException.ThrowIfNull(sweep);
        ArgumentNullException.ThrowIfNull(channels);
        InputChecks.ThrowIfAny(sweep.Validate());
        double[] decibels = [.. channels.Select(channel =>
        {
            if (Array.TrueForAll(channel, sample => sample == 0))
                return double.NegativeInfinity;
            var recording = new SweepRecording { Sweep = sweep, Recorded = channel };
            InputChecks.ThrowIfAny(recording.Validate());
            return SweepDeconvolution.DirectToRestDecibels(recording);
        })];
        var order = Enumerable.Range(0, decibels.Length).OrderByDescending(at => decibels[at]).ToList();
        // Beside a silent channel the other one is the microphone, however dry.
        var stands = order.Count > 1 && double.IsFinite(decibels[order[1]]) && decibels[order[0]] >= LeastDecibels && decibels[order[0]] - decibels[order[1]] >= LeastAheadDecibels;
        return new LoopbackGuessResult(stands ? order[0] : null, decibels);
    }
}
