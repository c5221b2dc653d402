namespace ShopFloor.Engineering.Electrical;

/// <summary>A run being sized: the values every size is judged with.</summary>
internal sealed class RunCase
{
    // Above this, protection of what hangs on the run is given away for a form that interrupts more. Rule of this program, no source.
    private const double MostOversize = 2;

    private readonly IReadOnlyList<FuseSeries> _all;
    private readonly IReadOnlyList<FuseSeries> _reaching;
    private readonly IReadOnlyList<FuseSeries> _reserve;
    private readonly RouteFactors _factors;

    public RunCase(RunSizingInput input, RunBudget budget)
    {
        Input = input;
        Budget = budget;
        var run = input.Run;
        Length = run.LengthMeters!.Value; // validated, or checked by the plan
        _factors = new RouteFactors(input.Rules.Table, run);
        Music = input.MusicAmperes ?? input.ContinuousAmperes;
        MinimumFuse = FuseRatings.MinimumRating(
            input.ContinuousAmperes, input.Rules.ContinuousLoading, Math.Max(25, run.AmbientCelsius), input.Rules.FuseDeratingPerCelsius);
        _all = input.FedFromBattery ? input.Rules.BatteryFuses : input.Rules.Fuses;
        _all = run.Fitted is { } fitted ? FuseRatings.WithFigure(_all, fitted) : _all;
        var reserve = run.Fitted is { } kept ? FuseRatings.WithFigure(input.Rules.ReserveFuses, kept) : input.Rules.ReserveFuses;
        _reaching = Reaching(_all);
        _reserve = input.ProspectiveAmperes is null ? [] : Reaching(reserve);
        Sizes = [.. input.Rules.Table.Rows.Where(r => input.Rules.AvailableSizes.Contains(r.Conductor.Label))];
    }

    public RunSizingInput Input { get; }

    public RunBudget Budget { get; }

    public double Length { get; }

    public double ColumnCelsius => _factors.ColumnCelsius;

    public double AmbientFactor => _factors.Ambient;

    public double BundlingFactor => _factors.Bundling;

    public double EffectiveAmbient => _factors.EffectiveAmbient;

    public double Music { get; }

    /// <summary>The current the drop limit is kept at, A.</summary>
    public double DropAmperes => Input.Rules.DropBasis == DropBasis.MusicCurrent ? Music : Input.ContinuousAmperes;

    public double MinimumFuse { get; }

    public double MinimumArea => _factors.MinimumArea;

    public double BodyOhms => _factors.BodyOhms;

    public double TerminationOhms => _factors.TerminationOhms;

    /// <summary>What no thicker conductor lessens, Ω.</summary>
    public double FixedOhms => _factors.FixedOhms;

    public double ConductorMeters => _factors.ConductorMeters;

    /// <summary>Sizes that may be chosen, thinnest first.</summary>
    public IReadOnlyList<AmpacityRow> Sizes { get; }

    public double TableAmperes(AmpacityRow row) => _factors.TableAmperes(row);

    public double Derated(AmpacityRow row) => _factors.Derated(row);

    public bool Carries(AmpacityRow row) => FuseRatings.AtLeast(Derated(row), Input.ContinuousAmperes);

    public bool IsThickEnough(AmpacityRow row) => _factors.IsThickEnough(row);

    public RunDrop Drop(AmpacityRow row, double amperes) => _factors.Drop(row, amperes, Input.SupplyVolts);

    public FuseChoice? SmallestFuse(double least, double most) => Preferred(series => FuseRatings.Smallest(series, least, most, Input.SupplyVolts));

    public FuseChoice? LargestFuse(double least, double most) => Preferred(series => FuseRatings.Largest(series, least, most, Input.SupplyVolts));

    /// <summary>The fuse of a form that interrupts the short circuit, unless that makes it far larger than the load asks for or its maker allows.</summary>
    private FuseChoice? Preferred(Func<IReadOnlyList<FuseSeries>, FuseChoice?> pick)
    {
        var any = pick(_all);
        if (any is null)
            return null;
        var most = Math.Max(any.RatingAmperes, Math.Min(MostOversize * any.RatingAmperes, Input.MakerFuseAmperes ?? double.MaxValue));
        FuseChoice? Within(IReadOnlyList<FuseSeries> forms) => pick(forms) is { } fuse && FuseRatings.AtLeast(most, fuse.RatingAmperes) ? fuse : null;
        return Within(_reaching) ?? Within(_reserve) ?? any;
    }

    private IReadOnlyList<FuseSeries> Reaching(IReadOnlyList<FuseSeries> forms) => Input.ProspectiveAmperes is { } fault
        ? [.. forms.Where(s => FuseRatings.AtLeast(s.InterruptAmperes, fault))]
        : forms;
}
