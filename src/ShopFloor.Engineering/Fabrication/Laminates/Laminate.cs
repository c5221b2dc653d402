using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Laminates;

/// <summary>Thickness, mass, resin, stiffness and materials of a laminate.</summary>
/// <remarks>
/// Rule of mixtures: t = m_f/(ρ_f·V_f), resin = t·(1 − V_f)·ρ_m. Modulus of a ply: η·E_f·V_f + E_m·(1 − V_f) with the efficiency of Krenchel
/// (Fibre Reinforcement, 1964), long fibres. Bending: ∫E·z² over the thickness about the neutral axis (laminated beam, strain linear over
/// the thickness); give of the core in shear is left out, so a thick soft core bends more.
/// </remarks>
public static class Laminate
{
    private const string Mixtures = "rule of mixtures; efficiency: Krenchel, Fibre Reinforcement (1964)";

    /// <summary>Plans the laminate.</summary>
    /// <param name="input">Layers, area, process and resin.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="LaminateInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static LaminateResult Compute(LaminateInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        LayerResult[] layers = [.. input.Layers.Select(layer => Work(layer, input))];
        var thickness = layers.Sum(layer => layer.Plies * layer.PlyMeters);
        var areal = layers.Sum(layer => layer.KilogramsPerSquareMeter);
        var resin = layers.Sum(layer => layer.ResinKilogramsPerSquareMeter) * input.Area;
        var mixed = resin * (1 + input.ResinWaste);
        var (membrane, bending) = Stiffness(layers);
        var batches = Batches(mixed, input.Mix);
        var materials = LaminateMaterialsList.Of(input, mixed, resin);
        var outside = input.Surface.Sum(surface => LaminateMaterialsList.Staying(surface, input.Area));
        var mass = areal * input.Area + outside;
        return new LaminateResult
        {
            SquareMeters = input.Area,
            Layers = layers,
            ThicknessMeters = thickness,
            KilogramsPerSquareMeter = areal,
            Kilograms = mass,
            ResinKilograms = resin,
            MixedKilograms = mixed,
            TensilePascals = membrane / thickness,
            BendingNewtonMeters = bending,
            BendingPascals = 12 * bending / Math.Pow(thickness, 3),
            Batches = batches,
            Materials = materials,
            Cautions = LaminateFindings.Cautions(input),
            Findings = LaminateFindings.Find(input, layers, batches, text),
            Explanation = new Explanation(
                "What does the laminate take, weigh and bear?",
                $"{text.Millimeters(thickness)}, {text.Kilograms(mass)}, {text.Kilograms(mixed)} of resin to mix",
                [
                    new ExplainedInput("Area", input.Area, "m²", input.SquareMeters is null ? "length by width, entered" : "entered"),
                    new ExplainedInput("Density of the resin", LaminateMaterials.DensityOf(input.Resin), "kg/m³", LaminateMaterials.Source),
                    new ExplainedInput("Resin lost", input.ResinWaste, "", input.ResinWasteShare is null ? "default: common practice, no source" : "entered"),
                    .. layers.Zip(input.Layers).Where(pair => pair.Second is ClothLayer).Select(pair => new ExplainedInput($"{pair.First.Name}, fibre share by volume", pair.First.FibreVolumeShare, "", ((ClothLayer)pair.Second).FibreVolumeShare is null ? $"default of the process: {LaminateMaterials.Source}" : "entered")), // filtered
                ],
                [
                    .. layers.Where(layer => layer.FibreVolumeShare > 0).Select(layer => new ExplainedStep($"{layer.Name}, one ply", "t = m_f/(ρ_f·V_f)", $"{layer.Plies} × {text.Number(1000 * layer.PlyMeters)} mm", text.Millimeters(layer.PlyMeters), Mixtures)),
                    new ExplainedStep("Resin in the part", "m_r = A·Σ t·(1 − V_f)·ρ_m", $"{text.Number(input.Area)} m² × {text.Number(resin / input.Area)} kg/m²", text.Kilograms(resin), Mixtures),
                    new ExplainedStep("Resin to mix", "m = m_r·(1 + w)", $"{text.Number(resin)} × (1 + {text.Number(input.ResinWaste)})", text.Kilograms(mixed), "sum"),
                    new ExplainedStep("Bending stiffness of one metre of width", "D = Σ E·(z₂³ − z₁³)/3 about the neutral axis", $"{layers.Length} layers", $"{text.Number(bending)} N·m", "laminated beam; the core's give in shear left out"),
                ],
                [],
                null),
        };
    }

    private static LayerResult Work(LaminateLayer layer, LaminateInput input)
    {
        if (layer is CoreLayer core)
        {
            var mass = core.ThicknessMeters * core.KilogramsPerCubicMeter + core.ResinKilogramsPerSquareMeter;
            return new LayerResult(core.Name, 1, core.ThicknessMeters, 0, core.Pascals, core.ResinKilogramsPerSquareMeter, mass);
        }

        var cloth = (ClothLayer)layer; // only two kinds
        var share = cloth.FibreVolumeShare ?? LaminateMaterials.FibreVolumeShare(input.Process, cloth.Form);
        var ply = LaminateMaterials.PlyMeters(cloth.ArealKilogramsPerSquareMeter, cloth.FibreKilogramsPerCubicMeter ?? LaminateMaterials.DensityOf(cloth.Fibre), share);
        var resin = cloth.Plies * ply * (1 - share) * LaminateMaterials.DensityOf(input.Resin);
        var modulus = LaminateMaterials.Efficiency(cloth.Form) * share * (cloth.FibrePascals ?? LaminateMaterials.ModulusOf(cloth.Fibre)) + (1 - share) * LaminateMaterials.ModulusOf(input.Resin);
        return new LayerResult(cloth.Name, cloth.Plies, ply, share, modulus, resin, cloth.Plies * cloth.ArealKilogramsPerSquareMeter + resin);
    }

    // Σ E·t, and ∫E·z² about the neutral axis.
    private static (double Membrane, double Bending) Stiffness(LayerResult[] layers)
    {
        var (membrane, moment, second, z) = (0.0, 0.0, 0.0, 0.0);
        foreach (var layer in layers)
        {
            var top = z + layer.Plies * layer.PlyMeters;
            membrane += layer.Pascals * (top - z);
            moment += layer.Pascals * (top * top - z * z) / 2;
            second += layer.Pascals * (top * top * top - z * z * z) / 3;
            z = top;
        }

        return (membrane, second - moment * moment / membrane);
    }

    private static ResinBatches? Batches(double mixed, ResinMix? mix)
    {
        if (mix is null)
            return null;
        // A third of the pot life is kept for mixing and the last of the cup: common practice, no source.
        var byTime = mix.WetOutKilogramsPerMinute * mix.PotLifeMinutes * 2 / 3;
        var most = Math.Min(byTime, mix.CupKilograms);
        var count = (int)Math.Ceiling(mixed / most - 1e-9);
        var each = mixed / count;
        var hardener = each * mix.HardenerParts / (mix.ResinParts + mix.HardenerParts);
        return new ResinBatches(count, each - hardener, hardener, each / mix.WetOutKilogramsPerMinute, byTime < mix.CupKilograms);
    }
}
