using System.Numerics;
using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Verification;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Tuning.Measurements;

namespace ShopFloor.Shop.Phases.Tuning.Presets;

/// <summary>What the channels of a side come to, as measured one by one.</summary>
internal static class BenchSides
{
    private const double LowestTimedHertz = 1_000;

    /// <summary>Whether all channels of the front have phase and arrival at places they have in common, so that they can be summed as they sound.</summary>
    public static bool HasPhase(IReadOnlyList<ChannelResponse> measured) => Common([.. measured.Where(one => one.Channel.Role != DriverRole.Rear)]).Count > 0;

    /// <returns>dB at each frequency, the mean power of the places; null while no channel of that side is measured.</returns>
    public static double[]? Of(IReadOnlyList<ChannelResponse> measured, StageSide side, IReadOnlyList<double> hertz)
    {
        var front = measured.Where(one => one.Channel.Role != DriverRole.Rear).ToList();
        var played = front.Where(one => one.Channel.Side == side || one.Channel.Side == StageSide.Both).ToList();
        if (played.TrueForAll(one => one.Channel.Side != side))
        {
            return null;
        }

        var places = Common(front);
        return
        [
            .. hertz.Select(f => 10 * Math.Log10(1e-30 + (places.Count == 0
                ? played.Sum(one => Covers(one, f) ? Math.Pow(10, one.Mean.DecibelsAt(f) / 10) : 0)
                : places.Average(place => Power(played.Aggregate(Complex.Zero, (sum, one) => sum + At(one.Places.First(each => each.Place == place), f))))))),
        ];
    }

    /// <summary>Where each channel of a pair arrives against the middle of its pair, so that the span of all is the largest difference of left and right.
    /// Only pairs that play above 1 kHz: a low one takes longer to swing up than the limit is wide. Common practice, no source.</summary>
    public static IReadOnlyList<VerifiedArrival> Arrivals(IReadOnlyList<ChannelResponse> measured, IReadOnlyList<ChannelSetting> settings)
    {
        var high = settings.Where(setting => !(setting.LowPass?.Hertz < LowestTimedHertz)).Select(setting => setting.Id).ToHashSet();
        var timed = measured.Where(one => high.Contains(one.Channel.Id) && one.Channel.BandToHertz > LowestTimedHertz && one.Places[0] is { ArrivalSeconds: not null, Clock: ArrivalClock.Loopback }).ToList();
        return
        [
            .. from one in timed
               where one.Channel.Role != DriverRole.Rear
               let other = timed.Find(each => each.Channel.Id == one.Channel.PairId && each.Places[0].Place == one.Places[0].Place)
               where other is not null
               let own = one.Places[0].ArrivalSeconds!.Value // timed
               select new VerifiedArrival(one.Channel.Id, one.Channel.Name, (own - other.Places[0].ArrivalSeconds!.Value) / 2), // as above
        ];
    }

    private static List<MicrophonePlace> Common(List<ChannelResponse> front) => front.Count == 0
        ? []
        : [.. front.Select(one => one.Places.Where(place => place is { ArrivalSeconds: not null, Response.PhaseRadians: not null, Clock: ArrivalClock.Loopback or ArrivalClock.File }).Select(place => place.Place)).Aggregate((one, two) => one.Intersect(two))];

    private static Complex At(PlaceResponse place, double hertz) =>
        hertz < place.Response.Hertz[0] * 0.99 || hertz > place.Response.Hertz[^1] * 1.01 ? 0 : place.Response.At(hertz) * Complex.FromPolarCoordinates(1, -2 * Math.PI * hertz * place.ArrivalSeconds!.Value); // in Common

    private static double Power(Complex value) => (value.Real * value.Real) + (value.Imaginary * value.Imaginary);

    private static bool Covers(ChannelResponse one, double hertz) => hertz >= one.Mean.Hertz[0] * 0.99 && hertz <= one.Mean.Hertz[^1] * 1.01;
}
