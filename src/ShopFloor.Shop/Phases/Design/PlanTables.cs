using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Conductors;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Chooses the tables, sizes and fuses a plan works with from its settings and the shop's shelf.</summary>
public static class PlanTables
{
    private static readonly ConductorMaterial Clad = ConductorMaterial.CopperCladAluminium10A;

    /// <summary>The table the settings name, as it was printed; the usual one when the named one is gone.</summary>
    public static AmpacityTable Printed(ElectricalSettingsForm settings, AmpacityTable? own)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return own ?? PublishedTables.All.FirstOrDefault(table => table.Name == settings.Table) ?? PublishedTables.Cfr33Part183425;
    }

    public static string SizesText(SizeSystem system) => system switch
    {
        SizeSystem.Awg => "AWG",
        SizeSystem.VehicleMetric => "mm², vehicle cable (ISO 6722, ISO 19642)",
        SizeSystem.Class5Metric => "mm², flexible class 5 (IEC 60228)",
        _ => throw new ArgumentOutOfRangeException(nameof(system), system, null),
    };

    internal static SizingRules Rules(ElectricalSettingsForm settings, PlanShelf shelf, List<Finding> findings)
    {
        var printed = Printed(settings, shelf.Own);
        if (settings.Table.Length > 0 && shelf.Own is null && printed.Name != settings.Table)
        {
            findings.Add(Found("table-gone", Severity.Stop, $"The ampacity table this plan asks for is not there; it is reckoned with {printed.Name}.", "Choose a table in the assumptions."));
        }
        else if (shelf.OwnIsRemoved)
        {
            findings.Add(Found("table-removed", Severity.Warn, $"The shop has taken the table {printed.Name} away; this plan still uses it.", "Choose another table in the assumptions, or bring it back in the settings."));
        }

        var copper = SizedTable.Copper(printed, settings.Sizes);
        if (copper is null)
        {
            findings.Add(Found("table-without-sizes", Severity.Stop, $"{printed.Name} has no row for sizes in {SizesText(settings.Sizes)}; its own sizes are used.", "Choose other sizes or another table."));
        }

        var table = copper ?? printed;
        var clad = SizedTable.Clad(printed, settings.Sizes, Clad);
        return new SizingRules
        {
            Table = table,
            AvailableSizes = Available(table, "copper", settings, shelf, findings),
            CopperClad = clad is null ? null : new CableFamily(clad, Available(clad, "copper-clad aluminium", settings, shelf, settings.Metal == Catalogue.CableMetal.CopperCladAluminium ? findings : [])),
            Fuses = Figures(FuseRatings.All, shelf),
            BatteryFuses = Figures(new SizingRules().BatteryFuses, shelf),
            ReserveFuses = Figures(new SizingRules().ReserveFuses, shelf),
            MaxDropPercent = settings.MaxDropPercent,
            DropBasis = DropBasis.MusicCurrent,
            ContinuousLoading = settings.LoadingPercent / 100,
            FuseDeratingPerCelsius = settings.FuseLossPercentPerCelsius / 100,
        };
    }

    private static List<string> Available(AmpacityTable table, string metal, ElectricalSettingsForm settings, PlanShelf shelf, List<Finding> findings)
    {
        var all = table.Rows.Select(row => row.Conductor).ToList();
        if (settings.StockedSizesOnly)
        {
            var stocked = all.Where(size => shelf.Cables.Any(cable => PlanShelf.IsSize(cable, size))).Select(size => size.Label).ToList();
            if (stocked.Count > 0)
            {
                return stocked;
            }

            findings.Add(Found(
                "no-size-stocked", Severity.Warn, $"Only stocked sizes are to be used, but the catalogue has no {metal} power or ground cable of a size in {SizesText(settings.Sizes)}; every size of the table is considered.",
                "Enter the cables the shop keeps in the catalogue, with their size."));
        }

        // Gauges the trade seldom keeps are offered by hand only.
        var usual = ConductorSize.CommonlyStocked;
        var kept = all.Where(size => size.SizeSystem != SizeSystem.Awg || usual.Any(label => size.Label == label || size.Label.StartsWith(label + " ", StringComparison.Ordinal))).Select(size => size.Label).ToList();
        return kept.Count > 0 ? kept : [.. all.Select(size => size.Label)];
    }

    /// <summary>The least figure of the catalogue for a form and rating stands for all of that form and rating.</summary>
    private static IReadOnlyList<FuseSeries> Figures(IReadOnlyList<FuseSeries> series, PlanShelf shelf) =>
        shelf.Fuses.GroupBy(fuse => (fuse.Form, fuse.RatingAmperes)).Select(same => same.MinBy(fuse => fuse.InterruptAmperes)!) // a group has one
            .Aggregate(series, FuseRatings.WithFigure);

    private static Finding Found(string code, Severity severity, string text, string remedy) =>
        new(code, severity, "electrical-plan", "Assumptions of the plan", text, remedy, "the shop's tables and catalogue");
}
