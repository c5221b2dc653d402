namespace ShopFloor.Documents.Plots;

/// <summary>A plot over frequency as data: the same on screen and on paper.</summary>
/// <param name="Key">Short name for pages.</param>
/// <param name="Title">What is shown.</param>
/// <param name="Y">The upright axis.</param>
/// <param name="Series">Curves, in the order they are drawn.</param>
public sealed record Plot(string Key, string Title, PlotAxis Y, IReadOnlyList<PlotSeries> Series)
{
    public double FromHertz { get; init; } = 10;

    public double ToHertz { get; init; } = 500;

    /// <summary>Values not to be passed.</summary>
    public IReadOnlyList<PlotLimit> Limits { get; init; } = [];

    /// <summary>Stretches of frequency with a word each, along the foot.</summary>
    public IReadOnlyList<PlotBand> Bands { get; init; } = [];
}

/// <summary>An upright axis, evenly or logarithmically divided.</summary>
/// <param name="Unit">Unit symbol.</param>
/// <param name="Low">Value at the foot; above 0 on a logarithmic axis.</param>
/// <param name="High">Value at the head.</param>
public sealed record PlotAxis(string Unit, double Low, double High)
{
    public bool Logarithmic { get; init; }

    /// <summary>An axis that holds the values: its ends are whole steps, so that it rests while a curve moves a little.</summary>
    /// <param name="unit">Unit symbol.</param>
    /// <param name="values">All values; others than finite ones are left out.</param>
    /// <param name="least">Smallest height of the axis.</param>
    /// <param name="fromZero">Whether it begins at 0.</param>
    /// <param name="most">Largest height, counted from the highest value; null for all.</param>
    public static PlotAxis Around(string unit, IEnumerable<double> values, double least, bool fromZero, double? most = null)
    {
        var finite = values.Where(double.IsFinite).DefaultIfEmpty(0).ToList();
        var high = finite.Max();
        var low = fromZero ? 0 : finite.Min();
        if (most is { } held)
            low = Math.Max(low, high - held);
        if (high - low < least)
            high = low + least;
        var step = Step(high - low);
        return new PlotAxis(unit, Math.Floor(low / step + 1e-9) * step, Math.Ceiling(high / step - 1e-9) * step);
    }

    /// <summary>Where lines are drawn.</summary>
    public IReadOnlyList<double> Ticks => Logarithmic ? LogTicks.Between(Low, High) : EvenTicks();

    /// <summary>Share of the height, 0 at the foot; beyond 0 to 1 for values off the axis.</summary>
    public double Share(double value) => Logarithmic ? Math.Log(Math.Max(value, 1e-12) / Low) / Math.Log(High / Low) : (value - Low) / (High - Low);

    // 1, 2 or 5 of a power of ten: five to eight lines.
    private static double Step(double height)
    {
        var power = Math.Pow(10, Math.Floor(Math.Log10(height / 5)));
        var share = height / 5 / power;
        return power * (share <= 1 ? 1 : share <= 2 ? 2 : share <= 5 ? 5 : 10);
    }

    private List<double> EvenTicks()
    {
        var step = Step(High - Low);
        List<double> ticks = [];
        for (var n = (int)Math.Ceiling(Low / step - 1e-9); n * step <= High + 1e-9 * step; n++)
            ticks.Add(n * step);
        return ticks;
    }
}

/// <param name="Name">Word at its end and in the legend; series of one name share a row there.</param>
/// <param name="Points">Rising frequency; a value that is not a number leaves a gap.</param>
public sealed record PlotSeries(string Name, IReadOnlyList<PlotPoint> Points, PlotStroke Stroke)
{
    /// <summary>Letter beside the curve; empty for none.</summary>
    public string Mark { get; init; } = "";
}

public readonly record struct PlotPoint(double Hertz, double Value);

/// <summary>How a curve is told from the others: by colour, and by dashes where there is none.</summary>
public sealed record PlotStroke(string Colour, string Dash, double Width = 2.2)
{
    // Told apart by people who see no red or green, and in print without colour.
    private static readonly PlotStroke[] _all = [new(Look.Accent, ""), new("#1F5A8C", "8 4"), new(Look.Fine, "2 4")];

    public static PlotStroke Of(int index) => _all[index % _all.Length];

    /// <summary>The same, drawn as the lesser of two.</summary>
    public PlotStroke Thin => this with { Width = 1.1 };
}

/// <param name="Name">Short word at the line.</param>
public sealed record PlotLimit(string Name, double Value);

public sealed record PlotBand(double FromHertz, double ToHertz, string Text);
