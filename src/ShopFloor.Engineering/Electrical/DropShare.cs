using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>How much of the drop allowed from battery to load a run may have.</summary>
internal static class DropShare
{
    /// <summary>Budget of a run whose size was settled with the others: what the runs before it leave of the limit.</summary>
    public static RunBudget Left(double limitVolts, double upstreamVolts, UnitText text)
    {
        var left = limitVolts - upstreamVolts;
        var step = new ExplainedStep(
            "Drop left for this run and those behind it", "U_left = U_limit − U_upstream", $"{text.Number(limitVolts)} − {text.Number(upstreamVolts)}",
            text.Volts(left), "total from battery to load kept within the limit; sizes chosen together for the least cable mass");
        return new RunBudget(left, left, "Voltage drop of this run within what the runs before it leave", false, step);
    }

    /// <summary>Budget of a run that has the whole limit to itself.</summary>
    public static RunBudget Whole(double limitVolts) =>
        new(limitVolts, limitVolts, "Voltage drop there and back", false, null);
}
