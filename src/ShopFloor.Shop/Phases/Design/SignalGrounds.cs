using ShopFloor.Engineering.Electrical;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Where the devices of a signal path are grounded: as the part says; else where the plan lays a return beside the supply.</summary>
internal sealed class SignalGrounds(ElectricalSettingsForm settings, IReadOnlyDictionary<string, RunChoiceForm> choices, IReadOnlyList<JobPart> installed)
{
    /// <summary>Null when neither says.</summary>
    public string? Of(JobPart part)
    {
        var typed = part.Data switch
        {
            AmplifierData data => data.GroundPoint,
            ProcessorData data => data.GroundPoint,
            SourceData data => data.GroundPoint,
            _ => null,
        };
        if (!string.IsNullOrWhiteSpace(typed))
        {
            return typed.Trim().ToLowerInvariant();
        }

        var choice = choices.GetValueOrDefault(part.Id.ToString());
        if ((choice?.Return ?? settings.Return) != ReturnPath.DedicatedConductor || choice?.From == FeedSources.VehicleCircuit)
        {
            return null;
        }

        return installed.FirstOrDefault(other => other.Id.ToString() == choice?.From) is { } source ? $"the negative of {source.Name}" : "the distribution's negative";
    }
}
