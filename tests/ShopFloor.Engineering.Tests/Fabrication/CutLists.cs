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
}
