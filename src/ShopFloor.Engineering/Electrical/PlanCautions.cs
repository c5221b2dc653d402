using ShopFloor.Engineering.Safety;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Cautions that belong beside every electrical plan.</summary>
internal static class PlanCautions
{
    public static IReadOnlyList<string> For(ElectricalPlanInput input) =>
    [
        .. WorkSafety.Supply(input.HybridOrElectric).Select(caution => caution.Text),
        "Fuse each feed close to its source. Fit the fuse last, after checking the run for shorts to the body.",
        WorkSafety.RestraintRule,
        $"{input.Rules.Table.Name}: {input.Rules.Table.Statement}",
        "Efficiencies, idle currents, ambient and fuse forms marked \u201ccommon practice\u201d or \u201cfrom memory\u201d are starting values: read the marking and the maker's data.",
    ];
}
