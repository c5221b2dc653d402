using ShopFloor.Documents.Plots;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Enclosures;

/// <summary>The plots of an enclosure, all alternatives in each, for screen and paper.</summary>
public static class EnclosurePlots
{
    public const string Level = "level";
    public const string Excursion = "excursion";
    public const string Largest = "largest";
    public const string Impedance = "impedance";
    public const string Delay = "delay";
    public const string Port = "port";
    public const string Phase = "phase";
    public const string Heat = "heat";
    public const string Radiator = "radiator";

    private const double MetersPerInch = 0.0254;
    private const double MetersPerFoot = 0.3048;

    /// <summary>Plots that say something about these alternatives, with the words of their tabs.</summary>
    public static IReadOnlyList<(string Key, string Words)> Kinds(EnclosureView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        return
        [
            (Level, "Level"), (Excursion, "Excursion"), (Largest, "Largest level"), (Impedance, "Impedance"), (Phase, "Phase"), (Delay, "Group delay"), (Heat, "Coil power"),
            .. view.Alternatives.Any(each => each.Alternative.HasPort) ? new[] { (Port, "Air in the port") } : [],
            .. view.Alternatives.Any(each => each.Alternative.Kind == EnclosureKind.PassiveRadiator) ? new[] { (Radiator, "Radiator") } : [],
        ];
    }

    /// <param name="key">One of <see cref="Kinds"/>.</param>
    /// <param name="shown">Alternative whose limits are told where only one can be.</param>
    public static Plot Of(EnclosureView view, string key, int shown, UnitText text, UnitSystem units)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(text);
        var short_ = units == UnitSystem.Us ? ("in", MetersPerInch) : ("mm", 0.001);
        var speed = units == UnitSystem.Us ? ("ft/s", MetersPerFoot) : ("m/s", 1.0);
        return key switch
        {
            Level => LevelPlot(view),
            Excursion => ExcursionPlot(view, short_.Item1, short_.Item2, text),
            Largest => LargestPlot(view, shown),
            Impedance => ImpedancePlot(view),
            Phase => PhasePlot(view),
            Delay => DelayPlot(view),
            Heat => HeatPlot(view, shown, text),
            Radiator => RadiatorPlot(view, short_.Item1, short_.Item2, text, shown),
            Port => PortPlot(view, speed.Item1, speed.Item2, text, shown),
            _ => throw new ArgumentOutOfRangeException(nameof(key), key, "There is no such plot."),
        };
    }

    public static string Words(LevelLimit limit) => limit switch
    {
        LevelLimit.Amplifier => "amplifier",
        LevelLimit.Excursion => "excursion",
        LevelLimit.Power => "coil power",
        LevelLimit.PortSpeed => "port",
        LevelLimit.RadiatorExcursion => "radiator",
        _ => throw new ArgumentOutOfRangeException(nameof(limit), limit, "Unknown limit."),
    };

    private static Plot LevelPlot(EnclosureView view)
    {
        var inCar = view.Cabin is not null;
        List<PlotSeries> series = [.. Each(view, (result, point, at) => result.InCarDecibels is { } car ? car[at] : point.LevelDecibels, inCar ? ", in the car" : "")];
        if (inCar)
            series.AddRange(Each(view, (_, point, _) => point.LevelDecibels, ", free").Select(one => one with { Mark = "", Stroke = one.Stroke.Thin }));
        return new Plot(Level, inCar ? $"Level at the power it gets, in the car ({CabinWords(view)}) and in free air at 1 m" : "Level at 1 m in half-space at the power it gets", PlotAxis.Around("dB", Values(series), 40, false, 60), series);
    }

    private static Plot ExcursionPlot(EnclosureView view, string unit, double meters, UnitText text)
    {
        List<PlotSeries> series = [.. Each(view, (_, point, _) => point.ExcursionMeters / meters, "")];
        var linear = view.Driver?.Data.XmaxMillimeters / 1000;
        var end = view.Driver?.Data.MechanicalMillimeters / 1000;
        List<PlotLimit> limits = [];
        if (linear is { } x)
            limits.Add(new PlotLimit($"linear {text.Millimeters(x)}", x / meters));
        if (end is { } most)
            limits.Add(new PlotLimit($"breaks {text.Millimeters(most)}", most / meters));
        return new Plot(Excursion, "Excursion of the cone one way", PlotAxis.Around(unit, Values(series).Concat(limits.Select(limit => limit.Value * 1.08)), 2 * 0.001 / meters, true), series) { Limits = limits };
    }

    private static Plot LargestPlot(EnclosureView view, int shown)
    {
        List<PlotSeries> series = [.. Each(view, (result, _, at) => (result.Largest[at].LevelDecibels ?? double.NaN) + (result.InCarDecibels is { } car ? car[at] - result.Response[at].LevelDecibels : 0), "")];
        return new Plot(
            Largest,
            view.Cabin is null ? "Largest level at 1 m, and what ends it" : $"Largest level in the car ({CabinWords(view)}), and what ends it",
            PlotAxis.Around("dB", Values(series), 30, false, 60),
            series) { Bands = Bands(view.Alternatives[shown].Result) };
    }

    private static Plot ImpedancePlot(EnclosureView view)
    {
        List<PlotSeries> series = [.. Each(view, (_, point, _) => point.ImpedanceOhms, "")];
        var values = Values(series).DefaultIfEmpty(1).ToList();
        return new Plot(Impedance, "Impedance at the terminals", new PlotAxis("Ω", Math.Pow(10, Math.Floor(Math.Log10(values.Min()))), Math.Pow(10, Math.Ceiling(Math.Log10(values.Max())))) { Logarithmic = true }, series);
    }

    /// <summary>Where the gain of the cabin comes from, in two words.</summary>
    public static string CabinWords(EnclosureView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        return view.Cabin?.Measured is null ? "cabin estimated" : "cabin measured";
    }

    // Turns on beyond half a circle, so that a curve does not jump.
    private static Plot PhasePlot(EnclosureView view)
    {
        List<PlotSeries> series = [.. view.Alternatives.Select((each, index) => new PlotSeries(each.Letter, [.. Unwrapped(each.Result?.Response ?? [])], PlotStroke.Of(index)) { Mark = each.Letter })];
        return new Plot(Phase, "Phase of the sound against the voltage, filters included", PlotAxis.Around("°", Values(series), 180, false, 900), series);
    }

    private static IEnumerable<PlotPoint> Unwrapped(IReadOnlyList<ResponsePoint> response)
    {
        var phase = response.Count > 0 ? response[0].PhaseDegrees : 0;
        for (var n = 0; n < response.Count; n++)
        {
            if (n > 0)
                phase += Math.IEEERemainder(response[n].PhaseDegrees - response[n - 1].PhaseDegrees, 360);
            yield return new PlotPoint(response[n].Hertz, phase);
        }
    }

    private static Plot HeatPlot(EnclosureView view, int shown, UnitText text)
    {
        List<PlotSeries> series = [.. Each(view, (_, point, _) => point.Watts, "")];
        var rated = view.Alternatives[shown].Result?.Driver.RatedWatts;
        return new Plot(Heat, "Power into the coils: heat", PlotAxis.Around("W", Values(series).Append((rated ?? 0) * 1.08), 10, true), series) { Limits = rated is { } watts ? [new PlotLimit($"bears {text.Watts(watts)} for long", watts)] : [] };
    }

    private static Plot RadiatorPlot(EnclosureView view, string unit, double meters, UnitText text, int shown)
    {
        List<PlotSeries> series = [.. Each(view, (_, point, _) => (point.RadiatorMeters ?? double.NaN) / meters, "")];
        List<PlotLimit> limits = view.Alternatives[shown].Alternative is { Kind: EnclosureKind.PassiveRadiator, RadiatorXmaxMeters: { } bears } ? [new PlotLimit($"made for {text.Millimeters(bears)}", bears / meters)] : [];
        return new Plot(Radiator, "Excursion of the radiator one way", PlotAxis.Around(unit, Values(series).Concat(limits.Select(limit => limit.Value * 1.08)), 0.002 / meters, true), series) { Limits = limits };
    }

    private static Plot DelayPlot(EnclosureView view)
    {
        List<PlotSeries> series = [.. view.Alternatives.Select((each, index) => new PlotSeries(each.Letter, [.. (each.Result?.GroupDelay ?? []).Select(point => new PlotPoint(point.Hertz, point.Seconds * 1000))], PlotStroke.Of(index)) { Mark = each.Letter })];
        return new Plot(Delay, "Group delay", PlotAxis.Around("ms", Values(series).Select(value => Math.Clamp(value, 0, 100)), 10, true), series);
    }

    private static Plot PortPlot(EnclosureView view, string unit, double meters, UnitText text, int shown)
    {
        List<PlotSeries> series = [.. Each(view, (result, point, at) => view.Alternatives.First(each => each.Result == result).Alternative.HasPort ? (point.PortMetersPerSecond ?? double.NaN) / meters : double.NaN, "")];
        var asked = view.Alternatives[shown].Alternative is { HasPort: true } own ? own : view.Alternatives.First(each => each.Alternative.HasPort).Alternative;
        var limit = EnclosureStudies.PortLimit(asked);
        return new Plot(Port, "Air in the port, peak", PlotAxis.Around(unit, Values(series).Append(limit / meters * 1.08), 5 / meters, true), series) { Limits = [new PlotLimit($"heard above {text.Number(limit / meters)} {unit}", limit / meters)] };
    }

    private static IEnumerable<PlotSeries> Each(EnclosureView view, Func<EnclosureStudyResult, ResponsePoint, int, double> value, string tail) =>
        view.Alternatives.Select((each, index) => new PlotSeries(
            each.Letter + tail,
            each.Result is { } result ? [.. result.Response.Select((point, at) => new PlotPoint(point.Hertz, value(result, point, at)))] : [],
            PlotStroke.Of(index)) { Mark = each.Letter });

    private static IEnumerable<double> Values(IEnumerable<PlotSeries> series) => series.SelectMany(one => one.Points).Select(point => point.Value).Where(double.IsFinite);

    private static List<PlotBand> Bands(EnclosureStudyResult? result)
    {
        List<PlotBand> bands = [];
        foreach (var point in result?.Largest ?? [])
        {
            if (point.Limit is not { } limit)
                continue;
            var words = Words(limit);
            if (bands.Count > 0 && bands[^1].Text == words && bands[^1].ToHertz < point.Hertz)
                bands[^1] = bands[^1] with { ToHertz = point.Hertz };
            else
                bands.Add(new PlotBand(bands.Count > 0 ? bands[^1].ToHertz : point.Hertz, point.Hertz, words));
        }

        return [.. bands.Where(band => band.ToHertz > band.FromHertz)];
    }
}
