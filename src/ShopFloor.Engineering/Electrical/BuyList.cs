namespace ShopFloor.Engineering.Electrical;

/// <summary>Gathers what has to be bought for the runs of a plan.</summary>
internal static class BuyList
{
    /// <summary>Net lengths by size and insulation class, thickest first. Runs for which no size fits are left out: nothing is decided yet.</summary>
    public static IReadOnlyList<ConductorToBuy> Conductors(IReadOnlyList<PlanNode> nodes) =>
    [
        .. from node in nodes
           let run = node.Result
           where run is { DecidedBy: not SizeDecision.NoneFits }
           group run by (run.Conductor, node.Run.InsulationCelsius) into size
           orderby size.Key.Conductor.AreaSquareMillimeters descending, size.Key.InsulationCelsius
           select new ConductorToBuy(
               size.Key.Conductor.Label,
               size.Key.InsulationCelsius,
               size.Sum(r => r.LengthMeters),
               size.Sum(r => r.ConductorMeters - r.LengthMeters),
               size.Sum(r => r.CableKilograms)),
    ];

    /// <summary>Fuses by rating and form, largest first.</summary>
    public static IReadOnlyList<FuseToBuy> Fuses(IReadOnlyList<RunSizingResult> runs) =>
    [
        .. from fuse in runs.Select(r => r.Fuse).OfType<FuseChoice>()
           group fuse by (fuse.RatingAmperes, fuse.Form, fuse.FormName) into same
           orderby same.Key.RatingAmperes descending, same.Key.FormName
           select new FuseToBuy(same.Key.RatingAmperes, same.Key.Form, same.Key.FormName, same.Count()),
    ];
}
