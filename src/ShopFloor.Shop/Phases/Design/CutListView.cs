using System.Globalization;
using ShopFloor.Engineering.Fabrication.Nesting;
using ShopFloor.Engineering.Safety;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>The cut lists of a job with the materials they may use.</summary>
/// <param name="Removed">Taken away, latest first.</param>
public sealed record CutListPage(Guid JobId, IReadOnlyList<ShelfMaterial> Materials, IReadOnlyList<LoadedDesign<CutListForm>> Designs, IReadOnlyList<LoadedDesign<CutListForm>> Removed)
{
    /// <summary>What lies on the shop's rack.</summary>
    public IReadOnlyList<OffcutRow> Offcuts { get; init; } = [];

    /// <summary>Offcuts of the rack that are kept for a list.</summary>
    public IReadOnlySet<Guid> KeptFor(Guid designId) => Offcuts.Where(row => row.ForDesignId == designId).Select(row => row.Id).ToHashSet();

    /// <summary>Offcuts a list can have: of its materials, free or kept for it, not yet in it and not what it leaves itself.</summary>
    public IEnumerable<OffcutRow> OfferedTo(CutListForm form, Guid designId)
    {
        ArgumentNullException.ThrowIfNull(form);
        var wanted = Materials.Where(material => form.Parts.Exists(part => part.MaterialId == material.Id)).ToList();
        return Offcuts.Where(row => row.FromDesignId != designId && (row.ForDesignId is null || row.ForDesignId == designId) && form.Stock.TrueForAll(stock => stock.OffcutId != row.Id) && wanted.Exists(row.Form.IsOf));
    }
}

/// <summary>A cut list ready to be laid out, or why it is not.</summary>
/// <param name="MaterialIds">By the name the input knows a material under.</param>
public sealed record CutListInput(NestingInput Input, IReadOnlyDictionary<string, ShelfMaterial> MaterialIds, IReadOnlyList<Problem> Problems);

/// <summary>A cut list laid out.</summary>
public sealed record CutListView(CutListInput Basis, NestingResult Result, IReadOnlyList<CutMaterial> Materials)
{
    public bool IsWhole => Result.Materials.All(material => material.Unplaced.Count == 0);

    /// <summary>Net mass of all parts; null while the mass of a material is not known.</summary>
    public double? Kilograms => Materials.All(material => material.PartsKilograms is not null) ? Materials.Sum(material => material.PartsKilograms) : null;
}

/// <summary>One material of a cut list.</summary>
/// <param name="SheetSquareMeters">Whole sheets together.</param>
/// <param name="PartsKilograms">Mass of the parts by their real shape; null when it is not known.</param>
public sealed record CutMaterial(ShelfMaterial Material, MaterialNesting Nesting, double SheetSquareMeters, double? PartsKilograms)
{
    /// <summary>How many sheets, and how sure that it is the least.</summary>
    public string SheetWords => Nesting switch
    {
        { WholeSheets: 0 } => "from offcuts alone",
        { Proved: true } => $"{Sheets(Nesting.WholeSheets)}, proven least",
        _ => string.Create(CultureInfo.CurrentCulture, $"{Sheets(Nesting.WholeSheets)}, at least {Nesting.LeastSheets} needed"),
    };

    private static string Sheets(int count) => count == 1 ? "1 sheet" : string.Create(CultureInfo.CurrentCulture, $"{count} sheets");
}

/// <summary>What the whole sheets of a material come to.</summary>
/// <param name="Amount">Null when the material has none.</param>
public sealed record CutAmount(Guid MaterialId, decimal? Amount);

/// <summary>The cut lists of a job as a paper of the shop; nothing of money.</summary>
public sealed record CutListSheet(Letterhead Letterhead, string JobReference, string JobTitle, string Vehicle, IReadOnlyList<(string Name, CutListForm Form, CutListInput Basis, CutListView? View)> Lists);

/// <summary>Turns a form and the materials of a job into what the nesting takes.</summary>
public static class CutListMapping
{
    /// <summary>Cautions of sawing board.</summary>
    public static IReadOnlyList<SafetyText> Cautions => WorkSafety.Materials([MaterialHazard.Dust]);

    /// <param name="kept">Offcuts of the rack that are kept for this list; null does not ask.</param>
    public static CutListInput Map(CutListForm form, IReadOnlyList<ShelfMaterial> materials, UnitText text, IReadOnlySet<Guid>? kept = null)
    {
        ArgumentNullException.ThrowIfNull(form);
        ArgumentNullException.ThrowIfNull(materials);
        var problems = new List<Problem>(form.Problems());
        problems.AddRange(form.Stock.Where(row => row.OffcutId is { } taken && kept is not null && !kept.Contains(taken)).Select(row => new Problem(nameof(CutListForm.Stock), $"Offcut {row}: it is no longer kept for this list; take it off, or take it from the rack again.")));
        var known = materials.ToDictionary(material => material.Id);
        var parts = form.Parts.Select((row, index) => Part(row, index + 1, known, problems)).OfType<CutPart>().ToList();
        var stock = form.Stock.Select((row, index) => Sheet(row, index + 1, known, problems)).OfType<StockSheet>().ToList();
        var input = new NestingInput { Parts = parts, Stock = stock, KerfMeters = form.KerfMeters, TrimMeters = form.TrimMeters };
        if (form.Parts.Count == 0)
        {
            problems.Add(new Problem(nameof(CutListForm.Parts), "Parts: nothing was entered; add the first one."));
        }
        else if (problems.Count == 0)
        {
            problems.AddRange(input.Validate(text).Select(problem => new Problem(problem.Field, problem.Message)));
        }

        return new CutListInput(input, materials.DistinctBy(material => material.Name).ToDictionary(material => material.Name), problems);
    }

    public static CutListView ViewOf(CutListInput basis, NestingResult result)
    {
        ArgumentNullException.ThrowIfNull(basis);
        ArgumentNullException.ThrowIfNull(result);
        return new CutListView(basis, result,
        [
            .. result.Materials.Select(nesting => new CutMaterial(
                basis.MaterialIds[nesting.MaterialId],
                nesting,
                nesting.Sheets.Where(sheet => !sheet.IsOffcut).Sum(sheet => sheet.LengthMeters * sheet.WidthMeters),
                basis.MaterialIds[nesting.MaterialId].KilogramsPerSquareMeter * nesting.PartsSquareMeters)),
        ]);
    }

    private static CutPart? Part(CutRow row, int number, Dictionary<Guid, ShelfMaterial> known, List<Problem> problems)
    {
        var name = string.Create(CultureInfo.InvariantCulture, $"{number} {row.Name}");
        if (Material(row.MaterialId, name, known, problems) is not { } material)
        {
            return null;
        }

        PartOutline? outline = row.Shape switch
        {
            CutShape.Disc => new DiscOutline(row.LengthMeters ?? 0),
            CutShape.Ring => new RingOutline(row.LengthMeters ?? 0, row.InnerMeters ?? 0),
            CutShape.Polygon when row.ReadCorners() is { } corners => new PolygonOutline(corners),
            _ => null,
        };
        if (row.Shape == CutShape.Polygon && outline is null)
        {
            problems.Add(new Problem(nameof(CutListForm.Parts), $"{name}, corners: '{row.Corners}' cannot be read; write pairs in mm with a decimal point, such as 0,0; 300,0; 300,150."));
            return null;
        }

        if (row.Shape == CutShape.Rectangle && (row.LengthMeters is null || row.WidthMeters is null))
        {
            problems.Add(new Problem(nameof(CutListForm.Parts), $"{name}: length and width are needed."));
            return null;
        }

        if (row.Shape is CutShape.Disc or CutShape.Ring && row.LengthMeters is null)
        {
            problems.Add(new Problem(nameof(CutListForm.Parts), $"{name}: the diameter is needed."));
            return null;
        }

        return new CutPart
        {
            Id = row.Id,
            Name = name,
            LengthMeters = outline is null ? row.LengthMeters : null,
            WidthMeters = outline is null ? row.WidthMeters : null,
            Outline = outline,
            Quantity = row.Quantity,
            Grain = row.Grain,
            MayTurn = row.MayTurn,
            MaterialId = material.Name,
            ThicknessMeters = material.ThicknessMeters ?? 0,
        };
    }

    private static StockSheet? Sheet(SheetRow row, int number, Dictionary<Guid, ShelfMaterial> known, List<Problem> problems)
    {
        var name = string.Create(CultureInfo.InvariantCulture, $"{(row.IsOffcut ? "Offcut" : "Sheet")} {number}");
        if (Material(row.MaterialId, name, known, problems) is not { } material)
        {
            return null;
        }

        if (row is not { LengthMeters: { } length, WidthMeters: { } width })
        {
            problems.Add(new Problem(nameof(CutListForm.Stock), $"{name}: length and width are needed."));
            return null;
        }

        return new StockSheet
        {
            Id = row.Id,
            Name = $"{material.Name}{(row.IsOffcut ? ", offcut" : "")}",
            LengthMeters = length,
            WidthMeters = width,
            Grain = row.Grain,
            Quantity = row.IsOffcut ? row.Quantity ?? 1 : row.Quantity,
            IsOffcut = row.IsOffcut,
            MaterialId = material.Name,
            ThicknessMeters = material.ThicknessMeters ?? 0,
        };
    }

    private static ShelfMaterial? Material(Guid? id, string name, Dictionary<Guid, ShelfMaterial> known, List<Problem> problems)
    {
        var material = id is { } key ? known.GetValueOrDefault(key) : null;
        if (material is null)
        {
            problems.Add(new Problem(nameof(CutRow.MaterialId), id is null ? $"{name}: choose its material." : $"{name}: its material is no longer in the catalogue or on the list; choose another."));
            return null;
        }

        if (!material.HasThickness)
        {
            problems.Add(new Problem(nameof(CutRow.MaterialId), $"{name}: the thickness of {material.Name} is not known; enter it with the part."));
            return null;
        }

        return material;
    }
}
