namespace ShopFloor.Shop.Catalogue;

/// <summary>What sort of thing a part is; decides which technical data it carries and which roles it plays.</summary>
public enum PartKind
{
    Amplifier,
    Loudspeaker,
    Processor,
    Source,
    Cable,
    Fuse,
    Distribution,
    Lighting,
    Battery,
    Treatment,
    Material,
    Accessory,
    Capacitor,
}

/// <summary>What a quantity of a part counts.</summary>
public enum PartUnit
{
    Piece,
    Meter,
    SquareMeter,
    Kilogram,
    Litre,
    Set,
}

public static class PartUnits
{
    public static string Symbol(this PartUnit unit) => unit switch
    {
        PartUnit.Piece => "pc",
        PartUnit.Meter => "m",
        PartUnit.SquareMeter => "m²",
        PartUnit.Kilogram => "kg",
        PartUnit.Litre => "l",
        PartUnit.Set => "set",
        _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, null),
    };

    public static string Text(this PartUnit unit) => unit switch
    {
        PartUnit.Piece => "Pieces",
        PartUnit.Meter => "Metres",
        PartUnit.SquareMeter => "Square metres",
        PartUnit.Kilogram => "Kilograms",
        PartUnit.Litre => "Litres",
        PartUnit.Set => "Sets",
        _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, null),
    };
}
