namespace ShopFloor.Engineering.Electrical;

/// <summary>Picks size and fuse for a run.</summary>
/// <param name="Row">Size.</param>
/// <param name="Fuse">Fuse, or null when none fits.</param>
/// <param name="DecidedBy">What decided the size.</param>
internal sealed record RunChoice(AmpacityRow Row, FuseChoice? Fuse, SizeDecision DecidedBy)
{
    public static RunChoice Make(RunCase run)
    {
        if (run.Input.Run.ForcedSize is { } forced)
        {
            var row = run.Input.Rules.Table.Row(forced)!; // validated
            return new RunChoice(row, FuseForForcedSize(run, row), SizeDecision.Forced);
        }

        if (SelectiveFuse(run) is { } selective && Smallest(run, selective) is { DecidedBy: not SizeDecision.NoneFits } choice)
            return choice;
        return Smallest(run, WantedFuse(run));
    }

    /// <summary>The choice for a run whose size was settled together with the other runs of its tree.</summary>
    public static RunChoice Settled(RunCase run, AmpacityRow row)
    {
        var least = Make(new RunCase(run.Input, DropShare.Whole(double.MaxValue)));
        return least.DecidedBy is SizeDecision.Forced or SizeDecision.NoneFits || row.Conductor == least.Row.Conductor
            ? least
            : least with { Row = row, DecidedBy = SizeDecision.VoltageDrop };
    }

    /// <summary>Sizes that carry the run's current and fuse and are thick enough, thinnest first; the one there is when none does.</summary>
    public static IReadOnlyList<AmpacityRow> Candidates(RunCase run)
    {
        var least = Make(new RunCase(run.Input, DropShare.Whole(double.MaxValue)));
        return least.DecidedBy is SizeDecision.Forced or SizeDecision.NoneFits
            ? [least.Row]
            : [.. run.Sizes.SkipWhile(row => row.Conductor != least.Row.Conductor)];
    }

    /// <summary>The fuse the run gets, which does not hang on its drop; null when none fits.</summary>
    public static FuseChoice? FuseOf(RunSizingInput input) => Make(new RunCase(input, DropShare.Whole(double.MaxValue))).Fuse;

    /// <summary>The fuse the size has to be thick enough for, before any size is known; null when no rating is large enough.</summary>
    public static FuseChoice? WantedFuse(RunCase run)
    {
        if (run.Input.Run.ForcedFuseAmperes is { } forced)
            return run.SmallestFuse(forced, forced) ?? new FuseChoice(forced, null, "not in the shop's list", null, null);
        var smallest = run.SmallestFuse(run.MinimumFuse, double.MaxValue);
        return run.Input.MakerFuseAmperes is { } maker ? run.LargestFuse(run.MinimumFuse, maker) ?? smallest : smallest;
    }

    /// <summary>The fuse wanted when the fuses behind the run ask for a larger one than its load; null when they do not.</summary>
    private static FuseChoice? SelectiveFuse(RunCase run) =>
        run.Input is { FuseNotBelowAmperes: { } least, Run.ForcedFuseAmperes: null } && least > run.MinimumFuse ? run.SmallestFuse(least, double.MaxValue) : null;

    private static FuseChoice? FuseForForcedSize(RunCase run, AmpacityRow row)
    {
        var derated = run.Derated(row);
        if (SelectiveFuse(run) is { } selective && FuseRatings.AtLeast(derated, selective.RatingAmperes))
            return selective;
        var wanted = WantedFuse(run);
        if (run.Input.Run.ForcedFuseAmperes is not null || (wanted is not null && FuseRatings.AtLeast(derated, wanted.RatingAmperes)))
            return wanted;
        return run.SmallestFuse(run.MinimumFuse, derated) ?? run.LargestFuse(0, derated);
    }

    private static RunChoice Smallest(RunCase run, FuseChoice? wanted)
    {
        var sizes = run.Sizes;
        var largest = sizes[^1];
        var minimum = First(sizes, run.IsThickEnough);
        var ampacity = First(sizes, run.Carries);
        var fuse = First(sizes, r => wanted is not null && FuseRatings.AtLeast(run.Derated(r), wanted.RatingAmperes));
        var drop = First(sizes, r => run.Drop(r, run.DropAmperes).Volts <= run.Budget.ChooseVolts);

        if (ampacity is null || fuse is null)
            return new RunChoice(largest, run.Input.Run.ForcedFuseAmperes is null ? null : wanted, SizeDecision.NoneFits);
        if (drop is null || minimum is null)
            return new RunChoice(largest, wanted, drop is null ? SizeDecision.VoltageDrop : SizeDecision.MinimumSize);

        var at = Math.Max(Math.Max(minimum.Value, ampacity.Value), Math.Max(fuse.Value, drop.Value));
        var decision = at switch
        {
            0 => SizeDecision.MinimumSize,
            _ when at == ampacity => SizeDecision.Ampacity,
            _ when at == fuse => SizeDecision.FuseRating,
            _ when at == drop => SizeDecision.VoltageDrop,
            _ => SizeDecision.MinimumSize,
        };
        return new RunChoice(sizes[at], wanted, decision);
    }

    private static int? First(IReadOnlyList<AmpacityRow> sizes, Func<AmpacityRow, bool> keeps)
    {
        for (var i = 0; i < sizes.Count; i++)
        {
            if (keeps(sizes[i]))
                return i;
        }

        return null;
    }
}
