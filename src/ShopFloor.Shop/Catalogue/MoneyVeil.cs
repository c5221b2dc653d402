using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Catalogue;

/// <summary>
/// Keeps the money of a part from those who may not see it, and keeps it unchanged when they save the rest of the form.
/// </summary>
internal static class MoneyVeil
{
    /// <summary>Blanks what the actor may not see.</summary>
    public static TFacts Veil<TFacts>(this TFacts facts, Actor actor)
        where TFacts : PartFacts
    {
        facts.UnitCost = actor.May(Permission.SeeCosts) ? facts.UnitCost : null;
        facts.UnitPrice = actor.May(Permission.SeePrices) ? facts.UnitPrice : null;
        return facts;
    }

    /// <summary>Puts the stored money back where the actor could not have typed it.</summary>
    public static TFacts KeepMoneyOf<TFacts>(this TFacts typed, PartFacts stored, Actor actor)
        where TFacts : PartFacts
    {
        typed.UnitCost = actor.May(Permission.SeeCosts) ? typed.UnitCost : stored.UnitCost;
        typed.UnitPrice = actor.May(Permission.SeePrices) ? typed.UnitPrice : stored.UnitPrice;
        return typed;
    }
}
