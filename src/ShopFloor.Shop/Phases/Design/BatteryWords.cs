using ShopFloor.Engineering.Electrical.Budget;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Reads the kind of a battery from the words typed about it.</summary>
public static class BatteryWords
{
    /// <returns>Null when no word of it is known.</returns>
    public static BatteryChemistry? KindOf(string? words)
    {
        bool Has(string word) => words?.Contains(word, StringComparison.OrdinalIgnoreCase) == true;
        return Has("lithium") || Has("lifepo") ? BatteryChemistry.LithiumIronPhosphate
            : Has("agm") || Has("glass") ? BatteryChemistry.GlassMat
            : Has("gel") ? BatteryChemistry.Gel
            : Has("flooded") || Has("wet") || Has("lead") ? BatteryChemistry.Flooded
            : null;
    }
}
