using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Nesting;

/// <summary>A cut list, the stock and the saw.</summary>
public sealed record NestingInput
{
    /// <summary>Most parts in all, by quantity.</summary>
    public const int MostParts = 500;

    /// <summary>Most kinds of sheets and offcuts.</summary>
    public const int MostStock = 100;

    /// <summary>Parts, 1 to 500 with their quantities.</summary>
    public required IReadOnlyList<CutPart> Parts { get; init; }

    /// <summary>Sheets and offcuts, 1 to 100 lines.</summary>
    public required IReadOnlyList<StockSheet> Stock { get; init; }

    /// <summary>Width the saw takes away at a cut, m (0 to 0.02). 3.2 mm is a common saw blade; common practice, no source.</summary>
    public double KerfMeters { get; init; } = 0.0032;

    /// <summary>Width taken off each edge of a whole sheet before it is used, kerf included, m (0 to 0.1). Offcuts are not trimmed.</summary>
    public double TrimMeters { get; init; }

    /// <summary>Longer side an offcut needs to be kept, m (0 to 10). 300 mm: common practice, no source.</summary>
    public double KeptLengthMeters { get; init; } = 0.3;

    /// <summary>Shorter side an offcut needs to be kept, m (0 to 10). 100 mm: common practice, no source.</summary>
    public double KeptWidthMeters { get; init; } = 0.1;

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        text ??= UnitText.Invariant;
        var checks = new InputChecks(text);
        if (Parts.Count == 0)
            checks.Add(nameof(Parts), "Parts: nothing was entered; enter at least one.");
        if (Parts.Count > MostParts || Parts.Sum(part => Math.Clamp((long)part.Quantity, 0, 1000)) > MostParts)
            checks.Add(nameof(Parts), $"Parts: {Parts.Sum(part => Math.Clamp((long)part.Quantity, 0, 1000))} are not accepted; enter at most {MostParts}, or nest the materials one by one.");
        if (Stock.Count > MostStock)
            checks.Add(nameof(Stock), $"Sheets: {Stock.Count} lines are not accepted; enter at most {MostStock}.");
        checks.InRange(nameof(KerfMeters), "Width of the cut", KerfMeters, 0, 0.02, QuantityKind.SmallLength);
        checks.InRange(nameof(TrimMeters), "Trimmed off each edge", TrimMeters, 0, 0.1, QuantityKind.SmallLength);
        checks.InRange(nameof(KeptLengthMeters), "Length of an offcut to keep", KeptLengthMeters, 0, 10, QuantityKind.SmallLength);
        checks.InRange(nameof(KeptWidthMeters), "Width of an offcut to keep", KeptWidthMeters, 0, 10, QuantityKind.SmallLength);
        for (var i = 0; i < Parts.Count; i++)
            Parts[i].Check(checks, $"{nameof(Parts)}[{i}].");
        for (var i = 0; i < Stock.Count; i++)
            Stock[i].Check(checks, $"{nameof(Stock)}[{i}].");
        checks.Distinct(nameof(Parts), "Parts", Parts.Select(part => part.Id));
        checks.Distinct(nameof(Stock), "Sheets", Stock.Select(sheet => sheet.Id));
        if (checks.Problems.Count == 0)
            CheckFit(checks, text);
        return checks.Problems;
    }

    internal IEnumerable<StockSheet> StockFor(CutPart part) => Stock.Where(sheet => Same(sheet, part));

    internal (double Length, double Width) Usable(StockSheet sheet)
    {
        var trim = sheet.IsOffcut ? 0 : TrimMeters;
        return (sheet.LengthMeters - 2 * trim, sheet.WidthMeters - 2 * trim);
    }

    internal static bool Same(StockSheet sheet, CutPart part) =>
        sheet.MaterialId == part.MaterialId && Microns.Of(sheet.ThicknessMeters) == Microns.Of(part.ThicknessMeters);

    private void CheckFit(InputChecks checks, UnitText text)
    {
        for (var i = 0; i < Parts.Count; i++)
        {
            var part = Parts[i];
            var stock = StockFor(part).ToList();
            if (stock.Count == 0)
            {
                checks.Add($"{nameof(Parts)}[{i}].{nameof(CutPart.MaterialId)}", $"{part.Name}: there is no sheet of \u201c{part.MaterialId}\u201d, {text.Millimeters(part.ThicknessMeters)}; add one to the stock.");
                continue;
            }

            if (stock.Any(sheet => Fits(part, sheet)))
                continue;
            var largest = stock.MaxBy(sheet => sheet.LengthMeters * sheet.WidthMeters)!;
            var (length, width) = Usable(largest);
            checks.Add($"{nameof(Parts)}[{i}].{(part.Outline is null ? nameof(CutPart.LengthMeters) : nameof(CutPart.Outline))}",
                $"{part.Name}: {text.Millimeters(part.Size.Length)} \u00d7 {text.Millimeters(part.Size.Width)} does not fit any sheet the way its grain and turning allow; the largest, \u201c{largest.Name}\u201d, leaves {text.Millimeters(length)} \u00d7 {text.Millimeters(width)}.");
        }
    }

    private bool Fits(CutPart part, StockSheet sheet)
    {
        var (asIs, turned) = sheet.WaysOf(part);
        var (length, width) = (Microns.Of(part.Size.Length), Microns.Of(part.Size.Width));
        var (sheetLength, sheetWidth) = (Microns.Of(Usable(sheet).Length), Microns.Of(Usable(sheet).Width));
        return (asIs && length <= sheetLength && width <= sheetWidth) || (turned && width <= sheetLength && length <= sheetWidth);
    }
}
