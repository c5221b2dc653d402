using System.Globalization;
using ShopFloor.Engineering.Fabrication.Laminates;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Handover;

/// <summary>What goes into a thing made by hand, and how much of it is in the car.</summary>
/// <param name="Kilograms">Null when its mass is not known.</param>
/// <param name="Detail">Layers, thickness or share covered; may be empty.</param>
public sealed record MadeMaterial(string Name, double? Kilograms, string Detail);

/// <summary>A thing made by hand, for whoever opens it. No money.</summary>
/// <param name="Kind">What it is, in plain words.</param>
/// <param name="Place">Where it sits; empty when nobody said.</param>
public sealed record MadeFact(string Name, string Kind, string Place, IReadOnlyList<MadeMaterial> Materials, string GluedWith, string ComesOff, string Care);

/// <summary>Reads how boxes, panels, composites and treatments were built from their designs.</summary>
internal static class BuildFacts
{
    public static async Task<IReadOnlyList<MadeFact>> ReadAsync(ShopDbContext db, Guid jobId, IReadOnlyList<(string Name, EnclosureView View)> boxes, CancellationToken cancellationToken)
    {
        var boards = await PanelShelf.ReadAsync(db, jobId, PartKind.Material, cancellationToken);
        var treatments = Treatments.Products(await PanelShelf.ReadAsync(db, jobId, PartKind.Treatment, cancellationToken));
        return
        [
            .. boxes.Select(box => Box(box.Name, box.View)).Where(fact => fact.Materials.Count > 0 || HasWords(fact)),
            .. (await JobDesigns.ListAsync<CutListForm>(db, jobId, cancellationToken)).Select(design => Panels(design.Name, design.Form, boards.Materials())),
            .. (await JobDesigns.ListAsync<LaminateForm>(db, jobId, cancellationToken)).Select(design => Composite(design.Name, design.Form)),
            .. (await JobDesigns.ListAsync<TreatmentForm>(db, jobId, cancellationToken)).Select(design => Treated(design.Name, design.Form, treatments)),
        ];
    }

    private static bool HasWords(MadeFact fact) => fact.GluedWith.Length + fact.ComesOff.Length + fact.Care.Length > 0;

    private static MadeFact Fact(string name, string kind, string zone, IReadOnlyList<MadeMaterial> materials, MadeNotes notes) =>
        new(name, kind, zone.Length > 0 ? VehicleZones.NameOf(zone) : "", materials, notes.GluedWith.Trim(), notes.ComesOff.Trim(), notes.Care.Trim());

    // The boards of a box stand in its cut list; here is what lies in it.
    private static MadeFact Box(string name, EnclosureView view)
    {
        List<MadeMaterial> inside = [];
        if (view.Built.Alternative.Filling != BoxFilling.None)
        {
            inside.Add(new MadeMaterial("Absorber", null, view.Built.Alternative.Filling == BoxFilling.LinedWalls ? "on the walls inside" : "fills it whole"));
        }

        return Fact(name, $"{BoxAlternative.Words(view.Built.Alternative.Kind)} enclosure", "", inside, view.Form.Made);
    }

    private static MadeFact Panels(string name, CutListForm form, IReadOnlyList<ShelfMaterial> materials)
    {
        var parts = CutListMapping.Map(form, materials, UnitText.Invariant).Input.Parts;
        return Fact(
            name, "Cut panels", form.Zone,
            [
                .. from part in parts
                   group part by part.MaterialId into same
                   let material = materials.FirstOrDefault(each => each.Name == same.Key)
                   let area = same.Sum(part => part.Quantity * part.SquareMeters)
                   select new MadeMaterial(same.Key, material?.KilogramsPerSquareMeter * area, string.Create(CultureInfo.InvariantCulture, $"{same.Sum(part => part.Quantity)} parts")),
            ],
            form.Made);
    }

    private static MadeFact Composite(string name, LaminateForm form)
    {
        var result = LaminateView.Of(form, UnitText.Invariant).Result;
        return Fact(
            name, $"Composite, {ProcessWords(form.Process)}", form.Zone,
            [.. (result?.Materials ?? []).Where(row => row.StayingKilograms > 0).GroupBy(row => row.Name).Select(rows => new MadeMaterial(rows.Key, rows.Sum(row => row.StayingKilograms), LayersOf(form, rows.Key)))],
            form.Made);
    }

    private static string LayersOf(LaminateForm form, string name)
    {
        var at = form.Layers.Select((row, index) => (row, index)).Where(each => each.row.Name == name).ToList();
        var coats = form.Finish.Where(row => row.Name == name).Sum(row => row.Coats);
        return at.Count > 0 ? string.Create(CultureInfo.InvariantCulture, $"layer {string.Join(", ", at.Select(each => each.index + 1))} from the mould, {at.Sum(each => each.row.IsCore ? 1 : each.row.Plies)}×")
            : coats > 0 ? string.Create(CultureInfo.InvariantCulture, $"{coats} coat{(coats > 1 ? "s" : "")}") : "";
    }

    private static MadeFact Treated(string name, TreatmentForm form, IReadOnlyList<TreatmentProduct> products)
    {
        var known = products.ToDictionary(product => product.Id);
        return Fact(
            name, "Damping and lining", form.Zone,
            [
                .. from panel in form.Panels
                   from layer in panel.Layers
                   let product = layer.ProductId is { } id ? known.GetValueOrDefault(id) : null
                   where product is not null
                   select new MadeMaterial(
                       $"{panel.Name}: {product.Name}", product.KilogramsPerSquareMeter * panel.SquareMeters * layer.CoveragePercent / 100,
                       string.Create(CultureInfo.InvariantCulture, $"{product.KindWords}, on {layer.CoveragePercent:0.#} % of the panel")),
            ],
            form.Made);
    }

    private static string ProcessWords(LaminateProcess process) => process switch
    {
        LaminateProcess.HandLayUp => "laid up by hand",
        LaminateProcess.VacuumBag => "under a vacuum bag",
        LaminateProcess.Infusion => "infused",
        _ => throw new ArgumentOutOfRangeException(nameof(process), process, "Unknown process."),
    };
}
