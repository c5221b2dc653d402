using System.ComponentModel.DataAnnotations;
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

/// <summary>How the current comes back to the battery.</summary>
public enum ReturnPath
{
    VehicleBody,
    OwnConductor,
}

/// <summary>The form of the plan's assumptions. Defaults say where they come from on the screen.</summary>
public sealed record ElectricalSettingsForm
{
    [Display(Name = "Supply voltage at the battery, engine running (V)")]
    public double SupplyVolts { get; set; } = 13.8;

    [Display(Name = "Crest factor of the music (dB)")]
    public double CrestFactorDecibels { get; set; } = 12;

    [Display(Name = "Insulation withstands (°C)")]
    public int InsulationCelsius { get; set; } = 105;

    [Display(Name = "Largest voltage drop, battery to load (%)")]
    public double MaxDropPercent { get; set; } = 3;

    [Display(Name = "Cabin temperature the cables see (°C)")]
    public double CabinCelsius { get; set; } = 30;

    [Display(Name = "Current-carrying cables bundled together")]
    public int BundledConductors { get; set; } = 1;

    [Display(Name = "Continuous load over fuse rating (%)")]
    public double LoadingPercent { get; set; } = 80;

    [Display(Name = "Distribution sits in")]
    public string DistributionZone { get; set; } = VehicleZones.BootFloorLeft;

    [Display(Name = "Current comes back through")]
    public ReturnPath Return { get; set; }

    [Display(Name = "Resistance of the body between rear and battery (mΩ)")]
    public double BodyMilliohms { get; set; } = 2;

    [Display(Name = "Current the car itself takes (A)")]
    public double BaseLoadAmperes { get; set; } = 35;

    public List<Problem> Problems() => new Check()
        .Range(SupplyVolts, nameof(SupplyVolts), "The supply voltage", 9, 60, "V")
        .Range(CrestFactorDecibels, nameof(CrestFactorDecibels), "The crest factor", 3.01, 30, "dB")
        .Range(MaxDropPercent, nameof(MaxDropPercent), "The voltage drop", 0.1, 20, "%")
        .Range(CabinCelsius, nameof(CabinCelsius), "The cabin temperature", -40, 100, "°C")
        .Range(BundledConductors, nameof(BundledConductors), "The number of bundled cables", 1, 100, "")
        .Range(LoadingPercent, nameof(LoadingPercent), "The loading", 40, 100, "%")
        .Range(BodyMilliohms, nameof(BodyMilliohms), "The body's resistance", 0, 100, "mΩ")
        .Range(BaseLoadAmperes, nameof(BaseLoadAmperes), "The car's own current", 0, 500, "A")
        .That(VehicleZones.Exists(DistributionZone), nameof(DistributionZone), $"'{DistributionZone}' is no place in the vehicle.")
        .That(InsulationCelsius is 60 or 75 or 80 or 90 or 105 or 125 or 200, nameof(InsulationCelsius), $"The insulation is {InsulationCelsius} °C; the table has 60, 75, 80, 90, 105, 125 and 200 °C.")
        .Problems;
}
