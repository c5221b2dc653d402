using System.ComponentModel.DataAnnotations;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Conductors;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What the electrical plan of a job assumes. Loads, places and lengths come from the parts list.</summary>
public sealed class ElectricalSettings : IAudited, IVersioned
{
    public ElectricalSettings(Guid jobId, ElectricalSettingsForm form)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        Form = form;
    }

    private ElectricalSettings()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public Guid JobId { get; private set; }

    public ElectricalSettingsForm Form { get; private set; } = new();

    public void Apply(ElectricalSettingsForm form) => Form = form;

    string IAudited.AuditName => "Electrical plan settings";

    Guid? IAudited.AuditJobId => JobId;
}

/// <summary>The form of the plan's assumptions. Where each default comes from stands in <see cref="SettingOrigins"/>.</summary>
public sealed record ElectricalSettingsForm
{
    [Display(Name = "Supply voltage at the battery, engine running (V)")]
    public double SupplyVolts { get; set; } = ElectricalDefaults.SupplyVolts;

    /// <summary>Name of a table that comes with the program, the id of one of the shop's own, or empty for the usual one.</summary>
    [Display(Name = "Ampacity table")]
    public string Table { get; set; } = "";

    [Display(Name = "Conductor sizes")]
    public SizeSystem Sizes { get; set; }

    [Display(Name = "Conductors are of")]
    public CableMetal Metal { get; set; }

    [Display(Name = "Only sizes the shop stocks")]
    public bool StockedSizesOnly { get; set; }

    [Display(Name = "Crest factor of the music (dB)")]
    public double CrestFactorDecibels { get; set; } = ElectricalDefaults.CrestFactorDecibels;

    [Display(Name = "Insulation withstands (°C)")]
    public int InsulationCelsius { get; set; } = (int)ElectricalDefaults.InsulationCelsius;

    [Display(Name = "Largest voltage drop at music level, battery to load (%)")]
    public double MaxDropPercent { get; set; } = ElectricalDefaults.MaxDropPercent;

    [Display(Name = "Warmest place the cables pass (°C)")]
    public double CabinCelsius { get; set; } = ElectricalDefaults.AmbientCelsius;

    [Display(Name = "Current-carrying cables bundled together")]
    public int BundledConductors { get; set; } = 1;

    [Display(Name = "Continuous load over fuse rating (%)")]
    public double LoadingPercent { get; set; } = ElectricalDefaults.ContinuousLoading * 100;

    [Display(Name = "Fuse rating lost for each °C above 25 °C (%)")]
    public double FuseLossPercentPerCelsius { get; set; }

    [Display(Name = "Distribution sits in")]
    public string DistributionZone { get; set; } = VehicleZones.BootFloorLeft;

    [Display(Name = "Branch fuses sit in the distribution")]
    public bool BranchFusesAtDistribution { get; set; } = true;

    [Display(Name = "Current comes back through")]
    public ReturnPath Return { get; set; } = ReturnPath.VehicleBody;

    [Display(Name = "Measured resistance of the body, rear to battery (mΩ)")]
    public double? BodyMilliohms { get; set; }

    [Display(Name = "Current the car itself takes (A)")]
    public double? BaseLoadAmperes { get; set; }

    [Display(Name = "The car's battery: voltage at rest (V)")]
    public double? BatteryRestVolts { get; set; }

    [Display(Name = "The car's battery: internal resistance (mΩ)")]
    public double? BatteryMilliohms { get; set; }

    public List<Problem> Problems() => new Check()
        .Range(SupplyVolts, nameof(SupplyVolts), "The supply voltage", 9, 49.9, "V")
        .Range(CrestFactorDecibels, nameof(CrestFactorDecibels), "The crest factor", 3.01, 30, "dB")
        .Range(MaxDropPercent, nameof(MaxDropPercent), "The voltage drop", 0.1, 20, "%")
        .Range(CabinCelsius, nameof(CabinCelsius), "The temperature", -40, 150, "°C")
        .Range(BundledConductors, nameof(BundledConductors), "The number of bundled cables", 1, 100, "")
        .Range(FuseLossPercentPerCelsius, nameof(FuseLossPercentPerCelsius), "The fuse rating lost per °C", 0, 0.5, "%")
        .Range(LoadingPercent, nameof(LoadingPercent), "The loading", 50, 100, "%")
        .Range(BodyMilliohms, nameof(BodyMilliohms), "The body's resistance", 0, 100, "mΩ")
        .Range(BaseLoadAmperes, nameof(BaseLoadAmperes), "The car's own current", 0, 500, "A")
        .Range(BatteryRestVolts, nameof(BatteryRestVolts), "The battery's voltage at rest", 6, 60, "V")
        .Range(BatteryMilliohms, nameof(BatteryMilliohms), "The battery's internal resistance", 0.5, 500, "mΩ")
        .That(VehicleZones.Exists(DistributionZone), nameof(DistributionZone), $"'{DistributionZone}' is no place in the vehicle.")
        .Range(InsulationCelsius, nameof(InsulationCelsius), "The insulation", 40, 250, "°C")
        .Longest(Table, nameof(Table), "The ampacity table", Limits.Name)
        .That(Sizes is SizeSystem.Awg or SizeSystem.VehicleMetric or SizeSystem.Class5Metric, nameof(Sizes), $"'{Sizes}' is no size system of the plan; accepted are {SizeSystem.Awg}, {SizeSystem.VehicleMetric} and {SizeSystem.Class5Metric}.")
        .That(Enum.IsDefined(Metal), nameof(Metal), $"'{Metal}' is no metal of cables.")
        .Problems;
}
