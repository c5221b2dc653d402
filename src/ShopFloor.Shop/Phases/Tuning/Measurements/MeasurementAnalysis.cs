using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Engineering.Tuning.Analysis;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Tuning.Measurements;

/// <summary>What the measurements of a seat say.</summary>
public sealed class MeasurementAnalysis(ShopStore store, TuningMeasurements measurements)
{
    /// <summary>How far left and right may differ before it is told, dB. Common practice, no source.</summary>
    public const double SideToleranceDecibels = 3;

    /// <param name="preset">Name of the preset in the car then; empty for none.</param>
    public Task<SeatAnalysis> GetAsync(Actor actor, Guid jobId, ListeningSeat seat, string preset, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                var responses = await measurements.ResponsesAsync(db, jobId, seat, preset, cancellationToken);
                List<ReadMeasurement> single = [];
                List<string> problems = [];
                foreach (var design in (await JobDesigns.ListAsync<MeasurementForm>(db, jobId, cancellationToken)).Where(design => design.Form.Seat == seat && design.Form.Preset == preset))
                {
                    var (reading, problem) = await measurements.ReadAsync(db, jobId, design.Form, cancellationToken);
                    if (reading is not null)
                    {
                        single.Add(new ReadMeasurement(design.Id, design.Name, design.Form, reading));
                    }
                    else
                    {
                        problems.Add($"{design.Name}: {problem}");
                    }
                }

                return new SeatAnalysis(responses, single, Pairs(responses), problems);
            },
            cancellationToken);
    }

    /// <summary>Coherence of the repeats of one channel at one place; null without two that have a phase.</summary>
    public static CoherenceResult? CoherenceOf(IReadOnlyList<ReadMeasurement> measured, string channelId, MicrophonePlace place)
    {
        List<FrequencyResponse> repeats = [.. measured.Where(one => one.Form.ChannelId == channelId && one.Form.Place == place && one.Reading.Response.PhaseRadians is not null).Select(one => one.Reading.Response)];
        return repeats.Count < 2 || repeats.Max(one => one.Hertz[0]) * 2 > repeats.Min(one => one.Hertz[^1]) ? null : Coherence.OfRepeats(repeats);
    }

    private static List<SidePair> Pairs(List<ChannelResponse> responses)
    {
        List<SidePair> pairs = [];
        foreach (var left in responses.Where(one => one.Channel.Side == StageSide.Left))
        {
            if (responses.Find(one => one.Channel.Id == left.Channel.PairId) is { } right)
            {
                var usable = (Left: UsableBand.Of(left.Mean), Right: UsableBand.Of(right.Mean));
                var (from, to) = (Math.Max(usable.Left.FromHertz, usable.Right.FromHertz), Math.Min(usable.Left.ToHertz, usable.Right.ToHertz));
                pairs.Add(new SidePair(left, right, to > 1.3 * from ? SideDifference.Of(left.Mean, right.Mean, fromHertz: from, toHertz: to) : null));
            }
        }

        return pairs;
    }
}

/// <param name="Responses">Every channel measured there, averaged.</param>
/// <param name="Single">Every measurement there.</param>
/// <param name="Problems">Measurements that cannot be read, in words.</param>
public sealed record SeatAnalysis(IReadOnlyList<ChannelResponse> Responses, IReadOnlyList<ReadMeasurement> Single, IReadOnlyList<SidePair> Pairs, IReadOnlyList<string> Problems);

public sealed record ReadMeasurement(Guid Id, string Name, MeasurementForm Form, MeasurementReading Reading);

/// <param name="Difference">Null where both share less than a third of an octave.</param>
public sealed record SidePair(ChannelResponse Left, ChannelResponse Right, SideDifferenceResult? Difference);
