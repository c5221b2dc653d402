using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What the plan takes from beyond its job: the shop's catalogue of cables and fuses, and the ampacity table the job asks for.</summary>
/// <param name="Cables">Cables of a known size for feeds and returns.</param>
/// <param name="Fuses">Fuses whose part says what they interrupt.</param>
/// <param name="Own">The shop's table the job uses; null for one that comes with the program, or when it is gone.</param>
/// <param name="OwnIsRemoved">Whether the shop took that table away meanwhile.</param>
public sealed record PlanShelf(IReadOnlyList<CableData> Cables, IReadOnlyList<FittedFuse> Fuses, AmpacityTable? Own, bool OwnIsRemoved)
{
    public static PlanShelf Empty { get; } = new([], [], null, false);

    internal static async Task<PlanShelf> ReadAsync(ShopDbContext db, ElectricalSettingsForm settings, CancellationToken cancellationToken)
    {
        var parts = await db.CatalogueParts.AsNoTracking()
            .Where(part => part.Kind == PartKind.Cable || part.Kind == PartKind.Fuse)
            .ToListAsync(cancellationToken);
        var own = Guid.TryParse(settings.Table, out var id)
            ? await db.OwnTables.IgnoreQueryFilters().AsNoTracking().FirstOrDefaultAsync(table => table.Id == id, cancellationToken)
            : null;
        return new PlanShelf(
            [.. parts.Select(part => part.Data).OfType<CableData>().Where(cable => cable.Purpose is CablePurpose.Power or CablePurpose.Ground && PlanPartsCheck.AreaOf(cable) is not null)],
            [.. parts.Select(part => part.Data).OfType<FuseData>().Select(FittedOf).OfType<FittedFuse>()],
            own is null ? null : OwnTableText.Read(own.Form).Table,
            own?.RemovedAt is not null);
    }

    /// <summary>A fuse part as the calculation takes it; null when form, rating or interrupt rating are not said.</summary>
    internal static FittedFuse? FittedOf(FuseData fuse) => fuse is { RatingAmperes: { } rating, InterruptAmperes: { } interrupts } && SeriesOf(fuse.Form) is { } series
        ? new FittedFuse(series.Form, rating, interrupts)
        : null;

    /// <summary>The form a text names, for example "bolt-in, small".</summary>
    internal static FuseSeries? SeriesOf(string? form)
    {
        var words = SearchText.Words(form ?? "").ToHashSet(StringComparer.Ordinal);
        return words.Count == 0 ? null : FuseRatings.All.Append(FuseRatings.Strip).FirstOrDefault(series => words.SetEquals(SearchText.Words(series.Name)));
    }

    /// <summary>Whether a catalogue cable is of a size of the table.</summary>
    internal static bool IsSize(CableData cable, ConductorSize size) =>
        (cable.Metal == CableMetal.CopperCladAluminium) == size.Material.IsCopperClad
        && PlanPartsCheck.AreaOf(cable) is { } area
        && Math.Abs((area / size.AreaSquareMillimeters) - 1) < 0.005;
}
