namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>Reads the chemistry of a battery from the words typed about it. The one list of these words.</summary>
public static class BatteryWords
{
    // Sealed and valve-regulated without more is taken as glass mat, the commoner of the two in cars; from memory.
    private static readonly (BatteryChemistry Chemistry, string[] Words)[] _words =
    [
        (BatteryChemistry.LithiumIronPhosphate, ["lithium", "LiFePO", "LFP", "Li-ion"]),
        (BatteryChemistry.GlassMat, ["AGM", "glass"]),
        (BatteryChemistry.Gel, ["gel"]),
        (BatteryChemistry.GlassMat, ["VRLA", "sealed"]),
        (BatteryChemistry.Flooded, ["flood", "wet", "lead", "EFB"]),
    ];

    /// <summary>The chemistry meant by the words of a data sheet, capitals or not; any lithium counts as lithium iron phosphate.</summary>
    /// <param name="words">The words, such as "AGM" or "lithium iron phosphate"; null gives null.</param>
    /// <returns>Null when no word of it is known.</returns>
    public static BatteryChemistry? ChemistryOf(string? words)
    {
        foreach (var (chemistry, each) in _words)
        {
            if (each.Any(word => words?.Contains(word, StringComparison.OrdinalIgnoreCase) == true))
                return chemistry;
        }

        return null;
    }
}
