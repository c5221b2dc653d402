using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Cables of one metal a run may be chosen from.</summary>
/// <param name="Table">Ampacity table with the sizes of that metal.</param>
/// <param name="AvailableSizes">Labels of the sizes that may be chosen; each must be in the table.</param>
public sealed record CableFamily(AmpacityTable Table, IReadOnlyList<string> AvailableSizes);

/// <summary>The shop's tables and rules for choosing conductors and fuses.</summary>
public sealed record SizingRules
{
    /// <summary>Ampacity table.</summary>
    public AmpacityTable Table { get; init; } = PublishedTables.Cfr33Part183425;

    /// <summary>Labels of the sizes that may be chosen; each must be in <see cref="Table"/>.</summary>
    public IReadOnlyList<string> AvailableSizes { get; init; } = ConductorSize.CommonlyStocked;

    /// <summary>Copper-clad aluminium to choose from for runs that are made of it; null when the shop has none.</summary>
    public CableFamily? CopperClad { get; init; }

    /// <summary>Fuses at a distribution point, preferred form first.</summary>
    public IReadOnlyList<FuseSeries> Fuses { get; init; } = FuseRatings.All;

    /// <summary>Fuses at the battery, preferred form first: bolt-in forms, since a battery can exceed what a blade interrupts.</summary>
    public IReadOnlyList<FuseSeries> BatteryFuses { get; init; } =
        [FuseRatings.BoltInSmall, FuseRatings.BoltInLarge, FuseRatings.HighCurrentBlade, FuseRatings.Blade, FuseRatings.MiniBlade];

    /// <summary>Forms taken only where none of the others interrupts the short-circuit current; may be empty.</summary>
    public IReadOnlyList<FuseSeries> ReserveFuses { get; init; } = [FuseRatings.Strip];

    /// <summary>Share of a fuse's rating that may flow for hours, 0.5 to 1.</summary>
    public double ContinuousLoading { get; init; } = ElectricalDefaults.ContinuousLoading;

    /// <summary>Fuse rating lost per °C above 25 °C, 0 to 0.005; see <see cref="FuseRatings.MinimumRating"/>.</summary>
    public double FuseDeratingPerCelsius { get; init; }

    /// <summary>Voltage drop allowed from battery to load and back, percent of supply voltage, 0.1 to 20.</summary>
    public double MaxDropPercent { get; init; } = ElectricalDefaults.MaxDropPercent;

    /// <summary>The current that drop limit is kept at.</summary>
    public DropBasis DropBasis { get; init; } = DropBasis.RatedCurrent;

    /// <summary>The rules with the table and the sizes of what a run is made of.</summary>
    /// <param name="run">The run; copper-clad aluminium takes <see cref="CopperClad"/>; where there is none, the inputs refuse the run.</param>
    public SizingRules For(RunData run)
    {
        ArgumentNullException.ThrowIfNull(run);
        return run.CopperClad && CopperClad is { } clad ? this with { Table = clad.Table, AvailableSizes = clad.AvailableSizes } : this;
    }

    /// <summary>Adds a problem when a run is of copper-clad aluminium and there is none to choose from.</summary>
    internal void CheckMetal(InputChecks checks, string field, string name, RunData run)
    {
        if (run.CopperClad && CopperClad is null)
            checks.Add($"{field}.{nameof(run.CopperClad)}", $"{name}: there is no copper-clad aluminium to choose from; enter its table and sizes, or use copper.");
    }

    /// <summary>What is wrong with the rules; empty when they can be used.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.AddRange(Table.Validate(text).Select(p => p with { Field = $"{nameof(Table)}.{p.Field}" }));
        checks.InRange(nameof(ContinuousLoading), "Continuous load as a share of the fuse rating", ContinuousLoading, 0.5, 1);
        checks.InRange(nameof(FuseDeratingPerCelsius), "Fuse rating lost per °C", FuseDeratingPerCelsius, 0, 0.005);
        checks.InRange(nameof(MaxDropPercent), "Voltage drop allowed in percent", MaxDropPercent, 0.1, 20);
        checks.Known(nameof(DropBasis), "Current for the voltage drop limit", DropBasis);
        if (AvailableSizes.Count == 0)
            checks.Add(nameof(AvailableSizes), "Conductor sizes: none is chosen; choose at least one.");
        foreach (var label in AvailableSizes.Where(label => Table.Row(label) is null))
            checks.Add(nameof(AvailableSizes), $"Conductor sizes: \u201c{label}\u201d is not in {Table.Name}.");
        if (CopperClad is { } clad)
        {
            checks.AddRange(clad.Table.Validate(text).Select(p => p with { Field = $"{nameof(CopperClad)}.{nameof(clad.Table)}.{p.Field}" }));
            if (clad.AvailableSizes.Count == 0)
                checks.Add($"{nameof(CopperClad)}.{nameof(clad.AvailableSizes)}", "Copper-clad sizes: none is chosen; choose at least one.");
            foreach (var label in clad.AvailableSizes.Where(label => clad.Table.Row(label) is null))
                checks.Add($"{nameof(CopperClad)}.{nameof(clad.AvailableSizes)}", $"Copper-clad sizes: \u201c{label}\u201d is not in {clad.Table.Name}.");
        }

        CheckFuses(checks, nameof(Fuses), "Fuses", Fuses);
        CheckFuses(checks, nameof(BatteryFuses), "Fuses at the battery", BatteryFuses);
        if (ReserveFuses.Count > 0)
            CheckFuses(checks, nameof(ReserveFuses), "Fuses kept in reserve", ReserveFuses);
        return checks.Problems;
    }

    private static void CheckFuses(InputChecks checks, string field, string label, IReadOnlyList<FuseSeries> series)
    {
        if (series.Count == 0 || series.Any(s => s.RatingsAmperes.Count == 0))
            checks.Add(field, $"{label}: enter at least one form with at least one rating.");
        if (series.SelectMany(s => s.RatingsAmperes).Any(r => !double.IsFinite(r) || r <= 0))
            checks.Add(field, $"{label}: every rating must be above 0 A.");
    }
}
