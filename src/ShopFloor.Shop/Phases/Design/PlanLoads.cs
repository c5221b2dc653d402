using System.Globalization;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Reads the electrical role of parts.</summary>
internal static class PlanLoads
{
    /// <summary>Lamps are rated at the nominal voltage of the vehicle, not at its charging voltage (common practice, no source).</summary>
    private const double NominalVolts = 12;

    /// <summary>Id of the load of one unit of a line. The first keeps the part's own id, so a second unit never renames it.</summary>
    public static string IdOf(JobPart part, int unit) =>
        unit == 1 ? part.Id.ToString() : string.Create(CultureInfo.InvariantCulture, $"{part.Id}-{unit}");

    public static IEnumerable<Consumer> Of(IReadOnlyList<JobPart> installed, ElectricalSettingsForm settings, List<Finding> findings)
    {
        foreach (var part in installed)
        {
            switch (part.Data)
            {
                case AmplifierData amplifier:
                    var units = (int)part.Quantity;
                    for (var unit = 1; unit <= units; unit++)
                    {
                        yield return Amplifier(part, amplifier, settings, unit, units);
                    }

                    break;
                case ProcessorData processor when processor.WorkingAmperes is not 0:
                    yield return Fixed(part, processor.WorkingAmperes, processor.FuseAmperes);
                    break;
                case SourceData source when source.WorkingAmperes is not 0:
                    yield return Fixed(part, source.WorkingAmperes, source.FuseAmperes);
                    break;
                case LightingData lighting:
                    yield return Lighting(part, lighting);
                    break;
                case AccessoryData { WorkingAmperes: null }:
                    findings.Add(new Finding(
                        "accessory-current-missing",
                        Severity.Warn,
                        part.Id.ToString(),
                        part.Name,
                        "Whether it takes current is not known, so it is not in the plan.",
                        "Enter its working current; 0 for a part that takes none.",
                        "needed for current and voltage drop"));
                    break;
                case AccessoryData accessory when accessory.WorkingAmperes is > 0:
                    yield return Fixed(part, accessory.WorkingAmperes, accessory.FuseAmperes);
                    break;
                default:
                    break; // takes no current, or carries that of others
            }
        }
    }

    private static Consumer Amplifier(JobPart part, AmplifierData data, ElectricalSettingsForm settings, int unit, int units) => new(part, new ElectricalLoad
    {
        Id = IdOf(part, unit),
        Name = units > 1 ? $"{part.Name} ({unit} of {units})" : part.Name,
        Kind = LoadKind.Amplifier,
        Amplifier = new AmplifierLoad
        {
            RatedOutputWatts = data.TotalRatedWatts,
            Class = data.Class,
            FullPowerEfficiency = data.EfficiencyPercent / 100,
            IdleAmperes = data.IdleAmperes,
            CrestFactorDecibels = settings.CrestFactorDecibels,
        },
        MakerFuseAmperes = data.FuseAmperes,
    });

    private static Consumer Fixed(JobPart part, double? amperesEach, double? makerFuse)
    {
        var count = (double)part.Quantity;
        return new Consumer(part, new ElectricalLoad
        {
            Id = IdOf(part, 1),
            Name = part.Name,
            Kind = LoadKind.Fixed,
            Fixed = new FixedLoad { RatedAmperes = amperesEach * count },
            // The maker's fuse is for one; several on one run have no maker's fuse.
            MakerFuseAmperes = part.Quantity == 1 ? makerFuse : null,
        });
    }

    private static Consumer Lighting(JobPart part, LightingData data)
    {
        var watts = part.Unit == PartUnit.Meter && data.Watts is null ? data.WattsPerMeter : data.TotalWatts;
        return Fixed(part, watts / NominalVolts, data.FuseAmperes);
    }

    /// <summary>A load with the part it comes from; its run is filled in by the builder.</summary>
    internal sealed record Consumer(JobPart Part, ElectricalLoad Load);
}
