using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Safety;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Laminates;

/// <summary>What is to be looked at in a laminate.</summary>
internal static class LaminateFindings
{
    public static IReadOnlyList<SafetyText> Cautions(LaminateInput input)
    {
        var hazards = new List<MaterialHazard> { MaterialHazard.CuringHeat, MaterialHazard.Dust };
        var fibres = input.Layers.OfType<ClothLayer>().Select(cloth => cloth.Fibre).ToHashSet();
        if (fibres.Contains(FibreKind.Carbon))
            hazards.Add(MaterialHazard.CarbonFibre);
        hazards.AddRange(input.Resin switch
        {
            ResinKind.Epoxy => [MaterialHazard.Epoxy],
            ResinKind.Polyurethane => [MaterialHazard.Isocyanate],
            _ => new[] { MaterialHazard.Styrene, MaterialHazard.Peroxide },
        });
        hazards.AddRange(input.Surface.SelectMany(surface => surface.Hazard switch
        {
            AreaHazard.Solvent => [MaterialHazard.Solvent],
            AreaHazard.Isocyanate => [MaterialHazard.Isocyanate],
            AreaHazard.Styrene => [MaterialHazard.Styrene, MaterialHazard.Peroxide],
            _ => Array.Empty<MaterialHazard>(),
        }));
        return WorkSafety.Materials(hazards);
    }

    public static IReadOnlyList<Finding> Find(LaminateInput input, LayerResult[] layers, ResinBatches? batches, UnitText text)
    {
        var findings = new FindingList("laminate", "Laminate");
        if (input.NearElectrics && input.Layers.OfType<ClothLayer>().Any(cloth => cloth.Fibre == FibreKind.Carbon))
        {
            findings.Add("carbon-conducts", Severity.Warn, "Carbon fibre conducts, and a battery, fuse or airbag connector is near.",
                "Close the edges, keep a layer of glass between, keep it off terminals and restraint wiring.", Unsourced.CommonPractice);
        }

        if (batches is { Batches: > 1 })
        {
            findings.Add("resin-batches", Severity.Note,
                $"{batches.Batches} cups of {text.Kilograms(batches.ResinKilograms + batches.HardenerKilograms)}: {(batches.LimitedByPotLife ? "the pot life allows no more at once" : "a larger cup heats itself")}.",
                "Weigh all the resin first, add hardener cup by cup.", Unsourced.CommonPractice);
        }

        var skins = input.Layers.Select((layer, n) => (layer, n)).Where(pair => pair.layer is CoreLayer).Select(pair => pair.n).ToList();
        if (skins.Count > 0 && (skins[0] == 0 || skins[^1] == input.Layers.Count - 1))
        {
            findings.Add("core-open", Severity.Warn, "A core lies on the outside: it has a skin on one side only.", "Add cloth on both sides, or it bends and drinks water.", Unsourced.CommonPractice);
        }

        for (var n = 0; n < layers.Length; n++)
        {
            var most = input.Process == LaminateProcess.HandLayUp ? 0.5 : 0.65;
            if (layers[n].FibreVolumeShare > most)
            {
                findings.About($"layer-{n}", layers[n].Name, "fibre-share-high", Severity.Warn,
                    $"A fibre share of {text.Percent(100 * layers[n].FibreVolumeShare)} is more than this process usually reaches ({text.Percent(100 * most)}).",
                    "Weigh a sample; dry cloth is weak.", "from memory");
            }
        }

        return findings.Sorted;
    }
}
