using ShopFloor.Engineering.Electrical;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Web.Tests.Phases.Design;

/// <summary>A plan made from parts as a job's is, without a database.</summary>
internal sealed class SomePlan
{
    private readonly List<JobPart> _parts = [];
    private readonly Dictionary<string, RunChoiceForm> _choices = [];

    public string Add(PartKind kind, string name, PartData data, string zone = VehicleZones.BootFloorRight)
    {
        var part = new JobPart(Guid.Empty, new JobPartDetails { Kind = kind, Name = name, Zone = zone, Data = data }, null, _parts.Count);
        _parts.Add(part);
        return part.Id.ToString();
    }

    public string Load(string name, double? amperes, string zone = VehicleZones.BootFloorRight) => Add(PartKind.Accessory, name, new AccessoryData { WorkingAmperes = amperes }, zone);

    public SomePlan Hang(string runId, string source)
    {
        _choices[runId] = new RunChoiceForm { From = source };
        return this;
    }

    public ElectricalPlanView View()
    {
        var vehicle = new Vehicle(Guid.CreateVersion7(), new VehicleDetails { Make = "Verano", Model = "Lince" }, DateTimeOffset.UnixEpoch);
        var settings = new ElectricalSettingsForm();
        var basis = ElectricalPlanBuilder.Build(_parts, vehicle, settings, _choices);
        var result = basis.Input is { } input ? ElectricalPlan.Compute(input) : null;
        return new ElectricalPlanView
        {
            JobId = Guid.Empty,
            Settings = settings,
            SettingsVersion = Guid.Empty,
            Sources = basis.Sources,
            Input = basis.Input,
            Result = result,
            Runs = [.. basis.Runs.Select(place =>
            {
                var load = result?.Loads.FirstOrDefault(found => found.LoadId == place.RunId);
                return new PlanRun(place, Guid.Empty, load?.Branch ?? result?.Points.FirstOrDefault(found => found.PointId == place.RunId)?.Run, load);
            })],
            Findings = [.. basis.Findings, .. result?.Findings ?? []],
        };
    }
}
