using System.Numerics;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;

namespace ShopFloor.Engineering.Tuning.Alignment;

/// <summary>What was chosen for one side of a junction.</summary>
/// <param name="Inverted">Whether the lower drivers, and all below them, were turned.</param>
/// <param name="DelaySeconds">How much later the lower drivers, and all below them, play than by arrival; earlier is negative, s.</param>
/// <param name="LossDecibels">What the drivers lose by not being in phase through the crossover, dB rms over frequency and places.</param>
/// <param name="DeviationDecibels">Deviation of the sum from the target's shape there, dB rms.</param>
public sealed record JunctionSideChoice(bool Inverted, double DelaySeconds, double LossDecibels, double DeviationDecibels);

/// <summary>What was chosen for a junction.</summary>
/// <param name="JunctionId">Which one.</param>
/// <param name="Name">Its name.</param>
/// <param name="Crossover">The crossover.</param>
/// <param name="Sides">Its sides, in order.</param>
/// <param name="Judged">How many combinations were judged.</param>
/// <param name="NextBest">The best of another frequency, shape or slope; null when pinned.</param>
/// <param name="NextBestDecibels">How much worse that one is, dB; null when pinned.</param>
public sealed record JunctionChoice(string JunctionId, string Name, Crossover Crossover, IReadOnlyList<JunctionSideChoice> Sides, int Judged, Crossover? NextBest, double? NextBestDecibels);

/// <summary>Chooses crossovers, polarities and fine delays by the complex sum to be expected at the seat, an octave to either side of the crossover, over all places of the microphone.</summary>
/// <remarks>The highest junction first; what is changed at a junction is changed for everything below it too, so that lower ones are not put out again.</remarks>
internal sealed class CrossoverSearch
{
    /// <summary>An inverted driver must be better by this, dB: a plain wiring is worth something.</summary>
    private const double TurnedCostDecibels = 0.1;

    private readonly IReadOnlyList<TunedDriver> _drivers;
    private readonly IReadOnlyList<Junction> _junctions;
    private readonly FrequencyGrid _grid;
    private readonly Dictionary<string, Complex[][]> _raw;
    private readonly double[] _target;
    private readonly double _delayStep;
    private readonly Dictionary<(Crossover, bool), Complex[]> _halves = [];

    public CrossoverSearch(IReadOnlyList<TunedDriver> drivers, IReadOnlyList<Junction> junctions, TargetCurve target, double sampleRateHertz, double delayStepSeconds)
    {
        (_drivers, _junctions, _delayStep) = (drivers, junctions, delayStepSeconds);
        _grid = FrequencyGrid.LogSpaced(20, Math.Min(20_000, 0.45 * sampleRateHertz), 240, sampleRateHertz);
        _raw = drivers.ToDictionary(driver => driver.Id, driver => driver.On(_grid.Hertz));
        _target = [.. _grid.Hertz.Select(f => target.At(f).Decibels)];
    }

    /// <summary>Chooses.</summary>
    /// <param name="channels">Settings to begin with, delays by arrival; crossovers already there count as neighbours.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancellation">Ends it.</param>
    public (IReadOnlyList<ChannelSetting> Channels, IReadOnlyList<JunctionChoice> Choices) Run(IReadOnlyList<ChannelSetting> channels, IProgress<TuningProgress>? progress, CancellationToken cancellation)
    {
        var now = channels.ToDictionary(channel => channel.Id);
        var choices = new JunctionChoice[_junctions.Count];
        for (var at = _junctions.Count - 1; at >= 0; at--)
        {
            cancellation.ThrowIfCancellationRequested();
            choices[at] = Choose(_junctions[at], now, cancellation);
            Apply(at, choices[at], now);
            progress?.Report(new TuningProgress("choosing crossovers", (_junctions.Count - at) / (double)_junctions.Count, choices[at].Sides.Max(side => side.LossDecibels)));
        }

        // Delays can only be waited, so the one that plays first sets the zero.
        var earliest = now.Values.Where(channel => !IsRearFill(channel.Id)).Min(channel => channel.DelaySeconds);
        return ([.. channels.Select(channel => now[channel.Id] with { DelaySeconds = Math.Max(0, now[channel.Id].DelaySeconds - earliest) })], choices);
    }

    private bool IsRearFill(string id) => _drivers.Any(driver => driver.Id == id && driver.IsRearFill);

    private JunctionChoice Choose(Junction junction, Dictionary<string, ChannelSetting> now, CancellationToken cancellation)
    {
        var others = junction.Sides.SelectMany(side => side.LowerIds.Concat(side.UpperIds)).Distinct().ToDictionary(
            id => id, id => Chain(now[id] with { HighPass = junction.Sides.Any(side => side.UpperIds.Contains(id)) ? null : now[id].HighPass, LowPass = junction.Sides.Any(side => side.LowerIds.Contains(id)) ? null : now[id].LowPass }));
        List<(Crossover Crossover, double Cost, List<JunctionSideChoice> Sides)> judged = [];
        var count = 0;
        foreach (var crossover in junction.Pinned is { } pinned ? [pinned] : CrossoverCandidates.Of(junction, _drivers))
        {
            cancellation.ThrowIfCancellationRequested();
            int[] region = [.. Enumerable.Range(0, _grid.Hertz.Count).Where(i => _grid.Hertz[i] >= crossover.Hertz / 2 && _grid.Hertz[i] <= crossover.Hertz * 2)];
            var sides = junction.Sides.Select(side => Best(side, junction, crossover, region, others, ref count)).ToList();
            judged.Add((crossover, sides.Average(side => side.Cost), [.. sides.Select(side => side.Choice)]));
        }

        var order = judged.OrderBy(one => one.Cost).ToList();
        var next = order.ElementAtOrDefault(1);
        return new JunctionChoice(junction.Id, junction.Name, order[0].Crossover, order[0].Sides, count, next.Crossover, order.Count > 1 ? next.Cost - order[0].Cost : null);
    }

    private (JunctionSideChoice Choice, double Cost) Best(JunctionSide side, Junction junction, Crossover crossover, int[] region, Dictionary<string, Complex[]> others, ref int count)
    {
        var lower = Sum(side.LowerIds, Half(crossover, false), region, others);
        var upper = Sum(side.UpperIds, Half(crossover, true), region, others);
        (JunctionSideChoice Choice, double Cost)? best = null;
        // Within a quarter of a period either way: farther off is another wave.
        var reach = junction.DelayPinned ? 0 : (int)Math.Min(1000, Math.Floor(0.25 / crossover.Hertz / _delayStep));
        var stride = Math.Max(1, reach / 6);
        for (var step = -reach / stride * stride; step <= reach; step += stride)
        {
            foreach (var inverted in junction.PolarityPinned ? [false] : new[] { false, true })
            {
                count++;
                var delay = step * _delayStep;
                var (loss, deviation) = Judge(lower, upper, region, delay, inverted ? -1 : 1);
                var cost = Math.Sqrt(loss * loss + deviation * deviation / 4) + (inverted ? TurnedCostDecibels : 0);
                if (best is null || cost < best.Value.Cost - 1e-9)
                    best = (new JunctionSideChoice(inverted, delay, loss, deviation), cost);
            }
        }

        return best!.Value; // delay 0, normal, is always judged
    }

    /// <summary>Loss against sounds in phase, and deviation from the target's shape; both as the root of the mean square over frequencies and places.</summary>
    private (double Loss, double Deviation) Judge(Complex[][] lower, Complex[][] upper, int[] region, double delay, double sign)
    {
        double lost = 0, deviation = 0;
        var turns = new Complex[region.Length];
        for (var k = 0; k < region.Length; k++)
            turns[k] = Complex.FromPolarCoordinates(sign, -2 * Math.PI * _grid.Hertz[region[k]] * delay);
        for (var place = 0; place < lower.Length; place++)
        {
            double sum = 0, squares = 0;
            for (var k = 0; k < region.Length; k++)
            {
                var (a, b) = (lower[place][k] * turns[k], upper[place][k]);
                var together = Math.Max((a + b).Magnitude, 1e-12);
                var loss = 20 * Math.Log10(together / Math.Max(a.Magnitude + b.Magnitude, 1e-12));
                lost += loss * loss;
                var level = 20 * Math.Log10(together) - _target[region[k]];
                sum += level;
                squares += level * level;
            }

            deviation += squares - sum * sum / region.Length;
        }

        var count = (double)lower.Length * region.Length;
        return (Math.Sqrt(lost / count), Math.Sqrt(Math.Max(0, deviation / count)));
    }

    private Complex[][] Sum(IReadOnlyList<string> ids, Complex[] half, int[] region, Dictionary<string, Complex[]> others) =>
        [.. Enumerable.Range(0, _drivers[0].Positions.Count).Select(place => region.Select(i => half[i] * ids.Aggregate(Complex.Zero, (sum, id) => sum + _raw[id][place][i] * others[id][i])).ToArray())];

    private Complex[] Half(Crossover crossover, bool highPass)
    {
        if (!_halves.TryGetValue((crossover, highPass), out var half))
            _halves[(crossover, highPass)] = half = _grid.Response(CrossoverSections.Of(crossover, highPass, _grid.SampleRateHertz));
        return half;
    }

    private Complex[] Chain(ChannelSetting channel) => channel.Response(_grid);

    private void Apply(int at, JunctionChoice choice, Dictionary<string, ChannelSetting> now)
    {
        var junction = _junctions[at];
        foreach (var (side, chosen) in junction.Sides.Zip(choice.Sides))
        {
            foreach (var id in side.LowerIds)
                now[id] = now[id] with { LowPass = choice.Crossover };
            foreach (var id in side.UpperIds)
                now[id] = now[id] with { HighPass = choice.Crossover };
            foreach (var id in Below(at, side.LowerIds))
                now[id] = now[id] with { DelaySeconds = now[id].DelaySeconds + chosen.DelaySeconds, Inverted = now[id].Inverted ^ chosen.Inverted };
        }
    }

    /// <summary>The drivers and all that meet only them at lower junctions; what plays for both sides is aligned at its own junction.</summary>
    private HashSet<string> Below(int at, IReadOnlyList<string> ids)
    {
        HashSet<string> below = [.. ids];
        for (var lower = at - 1; lower >= 0; lower--)
        {
            foreach (var side in _junctions[lower].Sides.Where(side => side.UpperIds.All(below.Contains)))
                below.UnionWith(side.LowerIds);
        }

        return below;
    }
}
