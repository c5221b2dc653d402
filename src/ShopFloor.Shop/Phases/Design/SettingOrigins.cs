using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Where the plan's defaults come from, for the form that changes them.</summary>
public static class SettingOrigins
{
    private static readonly Dictionary<string, string> Origins = new()
    {
        [nameof(ElectricalSettingsForm.SupplyVolts)] = $"Charging voltage of a 12 V vehicle: {Unsourced.CommonPractice}. Measure it.",
        [nameof(ElectricalSettingsForm.Table)] = "What a conductor may carry. The owner enters further tables in the settings.",
        [nameof(ElectricalSettingsForm.Sizes)] = "Sizes a table does not list get the current of the next smaller one by copper of the same resistance; nothing is interpolated.",
        [nameof(ElectricalSettingsForm.Metal)] = "Copper-clad aluminium: 62.9 % of copper's conductivity (ASTM B566 class 10A, least value).",
        [nameof(ElectricalSettingsForm.StockedSizesOnly)] = "Stocked are the sizes of power and ground cables in the catalogue.",
        [nameof(ElectricalSettingsForm.CrestFactorDecibels)] = "9 dB below a full sine, the one-eighth power of 16 CFR 432.3 and EN 60065:1993, 4.2.6.",
        [nameof(ElectricalSettingsForm.InsulationCelsius)] = "Plain PVC vehicle cable, from memory. Read the print on the cable.",
        [nameof(ElectricalSettingsForm.MaxDropPercent)] = "ABYC E-11 uses 3 % for electronics.",
        [nameof(ElectricalSettingsForm.CabinCelsius)] = $"A closed car in the sun: {Unsourced.CommonPractice}.",
        [nameof(ElectricalSettingsForm.BundledConductors)] = "One cable on its own. 33 CFR 183.425 note 2 counts three or more.",
        [nameof(ElectricalSettingsForm.LoadingPercent)] = "Fuse makers' selection guides: 75 to 80 %.",
        [nameof(ElectricalSettingsForm.FuseLossPercentPerCelsius)] = "In hot surroundings a fuse opens sooner. 0.2 % is a derating guide for small fuses; 0 leaves the margin to the loading above.",
        [nameof(ElectricalSettingsForm.BranchFusesAtDistribution)] = "A fused distribution; without one, each branch wants its fuse within the distance of 33 CFR 183.455(b).",
        [nameof(ElectricalSettingsForm.Return)] = $"Through the body: {Unsourced.CommonPractice}.",
        [nameof(ElectricalSettingsForm.BodyMilliohms)] = $"Empty takes {ElectricalDefaults.BodyReturnOhms * 1000:0.#} mΩ, from memory. Measure the drop under load.",
        [nameof(ElectricalSettingsForm.BaseLoadAmperes)] = $"Empty takes {ElectricalDefaults.VehicleBaseAmperes:0} A, lights and fan on, from memory. Measure it.",
        [nameof(ElectricalSettingsForm.BatteryRestVolts)] = "Empty takes 12.65 V, a rested full lead-acid battery (BCI). The check-in's reading is that of the day.",
        [nameof(ElectricalSettingsForm.BatteryMilliohms)] = "Empty takes 6 mΩ, a healthy starting battery, from memory. A battery tester shows it.",
    };

    /// <returns>Where the default of a property of <see cref="ElectricalSettingsForm"/> comes from, or an empty string.</returns>
    public static string Of(string property) => Origins.GetValueOrDefault(property, "");
}
