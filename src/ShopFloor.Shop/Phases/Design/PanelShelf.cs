using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>A board or a sheet material as designs see it: nothing of money.</summary>
/// <param name="Id">Its part of the catalogue, or the line of the parts list where it was typed.</param>
/// <param name="Name">Name, no two alike.</param>
/// <param name="Caution">What its part says to take care of.</param>
/// <param name="OnList">Whether the parts list has it.</param>
public sealed record ShelfMaterial(Guid Id, string Name, double? ThicknessMeters, double? KilogramsPerSquareMeter, string Caution, bool OnList)
{
    public bool HasThickness => ThicknessMeters > 0;
}

/// <summary>A material with what the job and the catalogue say about it.</summary>
/// <param name="Key">As <see cref="ShelfMaterial.Id"/>.</param>
/// <param name="Facts">Of the parts list where it is there, else of the catalogue.</param>
internal sealed record ShelfPart(Guid Key, PartFacts Facts, CataloguePart? Known, JobPart? Line)
{
    /// <summary>
    /// Mass of a square metre: by density where it is known, since the mass on a line a design wrote is that of what goes into the car.
    /// </summary>
    public double? KilogramsPerSquareMeter => Facts.Data switch
    {
        MaterialData { DensityKilogramsPerCubicMeter: { } density, ThicknessMillimeters: { } thickness } => density * thickness / 1000,
        TreatmentData { MassPerSquareMeter: { } mass } => mass,
        _ when Known is { Unit: PartUnit.SquareMeter } known => known.UnitMassKilograms,
        _ => Line is { Unit: PartUnit.SquareMeter, PlanRunId: "" } ? Line.UnitMassKilograms : null,
    };
}

/// <summary>Materials of one kind a job can use: those on its parts list first, then the rest of the catalogue.</summary>
internal sealed class PanelShelf(IReadOnlyList<ShelfPart> parts)
{
    public IReadOnlyList<ShelfPart> Parts => parts;

    public static async Task<PanelShelf> ReadAsync(ShopDbContext db, Guid jobId, PartKind kind, CancellationToken cancellationToken)
    {
        var known = await db.CatalogueParts.AsNoTracking().Where(part => part.Kind == kind).OrderBy(part => part.Name).ToListAsync(cancellationToken);
        var lines = await PartsList.InOrder(db, jobId).AsNoTracking().Where(part => part.Kind == kind && part.Direction == PartDirection.Installed).ToListAsync(cancellationToken);
        var used = lines
            .GroupBy(line => line.CataloguePartId ?? line.Id)
            .Select(group => (group.Key, Line: group.OrderBy(line => line.PlanRunId.Length > 0).First()))
            .ToList();
        return new PanelShelf(
        [
            .. used.Select(each => new ShelfPart(each.Key, each.Line, known.Find(part => part.Id == each.Key), each.Line)),
            .. known.Where(part => used.TrueForAll(each => each.Key != part.Id)).Select(part => new ShelfPart(part.Id, part, part, null)),
        ]);
    }

    public ShelfPart? Find(Guid? key) => parts.FirstOrDefault(part => part.Key == key);

    public IReadOnlyList<ShelfMaterial> Materials()
    {
        var names = new HashSet<string>();
        return [.. parts.Select(part => new ShelfMaterial(part.Key, Distinct(part.Facts.Name, names), ThicknessOf(part.Facts.Data), part.KilogramsPerSquareMeter, CautionOf(part.Facts.Data), part.Line is not null))];
    }

    private static string Distinct(string name, HashSet<string> names)
    {
        for (var number = 1; ; number++)
        {
            var tried = number == 1 ? name : $"{name} ({number})";
            if (names.Add(tried))
            {
                return tried;
            }
        }
    }

    private static double? ThicknessOf(PartData data) => data switch
    {
        MaterialData material => material.ThicknessMillimeters / 1000,
        TreatmentData treatment => treatment.ThicknessMillimeters / 1000,
        _ => null,
    };

    private static string CautionOf(PartData data) => data is MaterialData { Caution: { } caution } ? caution : "";
}
