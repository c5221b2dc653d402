using System.Globalization;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Fabrication.Treatment;
using ShopFloor.Engineering.Safety;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>A treatment as it is sold; nothing of money.</summary>
/// <param name="Id">As of a <see cref="ShelfMaterial"/>.</param>
/// <param name="KilogramsPerSquareMeter">Null when nobody entered it.</param>
/// <param name="SheetLengthMeters">Null when it is sold by area.</param>
public sealed record TreatmentProduct(Guid Id, string Name, TreatmentKind Kind, double? KilogramsPerSquareMeter, double? SheetLengthMeters, double? SheetWidthMeters, PartUnit Unit)
{
    public bool HasSheet => SheetLengthMeters is not null && SheetWidthMeters is not null;

    public string KindWords => Kind switch { TreatmentKind.Damping => "damps", TreatmentKind.Barrier => "blocks sound", _ => "takes up sound" };

    /// <summary>What a product does, by the words its part says: only damping is judged by its share of a panel.</summary>
    public static TreatmentKind KindOf(string? purpose) =>
        purpose is null ? TreatmentKind.Absorber
        : purpose.Contains("damp", StringComparison.OrdinalIgnoreCase) ? TreatmentKind.Damping
        : purpose.Contains("block", StringComparison.OrdinalIgnoreCase) || purpose.Contains("barrier", StringComparison.OrdinalIgnoreCase) ? TreatmentKind.Barrier
        : TreatmentKind.Absorber;
}

/// <summary>What is to get of a product.</summary>
/// <param name="Sheets">Null when it is sold by area.</param>
/// <param name="Quantity">In the unit of the product.</param>
public sealed record TreatmentRow(TreatmentProduct Product, double SquareMeters, int? Sheets, decimal Quantity, double Kilograms);

/// <summary>A treatment worked out, or why it is not.</summary>
public sealed record TreatmentView(SoundTreatmentResult? Result, IReadOnlyList<TreatmentRow> Rows, IReadOnlyList<Problem> Problems)
{
    /// <summary>Cautions of gluing on panels.</summary>
    public static IReadOnlyList<SafetyText> Cautions =>
    [
        new("keep clear", WorkSafety.TreatedPanels, true, $"{Unsourced.CommonPractice}; pressure inside the door: from memory"),
        .. WorkSafety.Materials([MaterialHazard.Solvent]),
    ];

    public static TreatmentView Of(TreatmentForm form, IReadOnlyList<TreatmentProduct> products, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(form);
        ArgumentNullException.ThrowIfNull(products);
        ArgumentNullException.ThrowIfNull(text);
        var problems = form.Problems();
        var known = products.ToDictionary(product => product.Id);
        var used = form.Panels.SelectMany(panel => panel.Layers).Select(layer => layer.ProductId).OfType<Guid>().Distinct().Where(known.ContainsKey).Select(id => known[id]).ToList();
        foreach (var panel in form.Panels)
        {
            if (panel.SquareMeters is null)
            {
                problems.Add(new Problem(nameof(TreatmentForm.Panels), $"{panel.Name}: the area is needed."));
            }

            if (panel.Layers.Exists(layer => layer.ProductId is not { } id || !known.ContainsKey(id)))
            {
                problems.Add(new Problem(nameof(TreatmentForm.Panels), $"{panel.Name}: choose what it gets, from the parts list or the catalogue."));
            }
        }

        foreach (var product in used)
        {
            if (product.KilogramsPerSquareMeter is null)
            {
                problems.Add(new Problem(nameof(TreatmentForm.Panels), $"{product.Name} has no mass per area; enter it at the part."));
            }

            if (product.Unit != PartUnit.SquareMeter && !product.HasSheet)
            {
                problems.Add(new Problem(nameof(TreatmentForm.Panels), $"{product.Name} is not sold by area and has no size of a sheet; enter length and width of a sheet at the part."));
            }
        }

        if (form.Panels.Count == 0)
        {
            problems.Add(new Problem(nameof(TreatmentForm.Panels), "Panels: nothing was entered; add the first one."));
        }

        if (problems.Count > 0)
        {
            return new TreatmentView(null, [], problems);
        }

        // Where it is sold by area the size of a sheet is not needed: its count is not read.
        var input = new SoundTreatmentInput(
            [.. used.Select(product => new TreatmentMaterial(Key(product.Id), product.Name, product.Kind, product.KilogramsPerSquareMeter!.Value, product.SheetLengthMeters ?? 1, product.SheetWidthMeters ?? 1, form.LostPercent / 100))], // asked for above
            [.. form.Panels.Select(panel => new TreatedPanel(panel.Id, panel.Name, panel.SquareMeters!.Value, [.. panel.Layers.Select(layer => new TreatmentLayer(Key(layer.ProductId!.Value), layer.CoveragePercent / 100))]))]); // asked for above
        var refused = input.Validate(text);
        if (refused.Count > 0)
        {
            return new TreatmentView(null, [], [.. refused.Select(problem => new Problem(problem.Field, problem.Message))]);
        }

        var result = SoundTreatment.Compute(input, text);
        return new TreatmentView(result, [.. result.Materials.Select(total => RowOf(total, known[Guid.Parse(total.MaterialId, CultureInfo.InvariantCulture)], form.LostPercent / 100))], []);
    }

    private static TreatmentRow RowOf(TreatmentTotal total, TreatmentProduct product, double lost)
    {
        int? sheets = product.HasSheet ? total.Sheets : null;
        var quantity = product.Unit != PartUnit.SquareMeter ? total.Sheets
            : Math.Ceiling((decimal)(sheets is { } count ? count * product.SheetLengthMeters!.Value * product.SheetWidthMeters!.Value : total.SquareMeters / (1 - lost)) * 100 - 0.000001m) / 100; // HasSheet
        return new TreatmentRow(product, total.SquareMeters, sheets, Math.Max(0.01m, quantity), total.Kilograms);
    }

    private static string Key(Guid id) => id.ToString("N");
}

/// <summary>The treatments of a job with the products they may use.</summary>
public sealed record TreatmentPage(Guid JobId, IReadOnlyList<TreatmentProduct> Products, IReadOnlyList<LoadedDesign<TreatmentForm>> Designs, IReadOnlyList<LoadedDesign<TreatmentForm>> Removed);

/// <summary>The treatments and rattles of a job as a paper of the shop; nothing of money.</summary>
public sealed record TreatmentSheet(
    Letterhead Letterhead, string JobReference, string JobTitle, string Vehicle, IReadOnlyList<TreatmentProduct> Products, IReadOnlyList<(string Name, TreatmentForm Form, TreatmentView View)> Treatments, IReadOnlyList<RattleRow> Rattles);
