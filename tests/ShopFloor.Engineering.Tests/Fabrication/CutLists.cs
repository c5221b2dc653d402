using CsCheck;
using ShopFloor.Engineering.Fabrication.Nesting;

namespace ShopFloor.Engineering.Tests.Fabrication;

/// <summary>Cut lists to try nesting on, in whole millimetres.</summary>
public static class CutLists
{
    public static CutPart Part(string id, double lengthMillimeters, double widthMillimeters, int quantity = 1, bool mayTurn = true) => new()
    {
        Id = id, Name = id, LengthMeters = lengthMillimeters / 1000, WidthMeters = widthMillimeters / 1000, Quantity = quantity, MayTurn = mayTurn, MaterialId = "board", ThicknessMeters = 0.018,
    };

    public static StockSheet Sheet(double lengthMillimeters, double widthMillimeters, string id = "sheet") => new()
    {
        Id = id, Name = id, LengthMeters = lengthMillimeters / 1000, WidthMeters = widthMillimeters / 1000, MaterialId = "board", ThicknessMeters = 0.018,
    };

    /// <summary>Parts of a sheet of 2440 × 1220 mm.</summary>
    public static Gen<NestingInput> Any(int most) =>
        Gen.Select(
            Gen.Select(Gen.Int[40, 1200], Gen.Int[40, 1200], Gen.Int[1, 4], Gen.Bool).Array[1, most],
            Gen.Int[0, 5],
            Gen.Int[0, 12],
            Gen.Select(Gen.Int[300, 1400], Gen.Int[200, 1200]).Array[0, 2])
        .Select((parts, kerf, trim, offcuts) => new NestingInput
        {
            Parts = [.. parts.Select((part, n) => Part($"p{n}", part.Item1, Math.Min(part.Item2, 1190), part.Item3, part.Item4))],
            Stock = [Sheet(2440, 1220), .. offcuts.Select((size, n) => Sheet(size.Item1, size.Item2, $"o{n}") with { IsOffcut = true, Quantity = 1 })],
            KerfMeters = kerf / 1000.0,
            TrimMeters = trim / 1000.0,
        });
}
