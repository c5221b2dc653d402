using CsCheck;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Fabrication.Laminates;

namespace ShopFloor.Engineering.Tests.Fabrication;

public class LaminateTests
{
    private static readonly ClothLayer Twill = new() { Name = "Twill 200", Fibre = FibreKind.Carbon, ArealKilogramsPerSquareMeter = 0.2, Plies = 3, FibreVolumeShare = 0.5 };

    private static readonly LaminateInput Panel = new() { Layers = [Twill], SquareMeters = 1 };

    // By hand: 0.6 kg/m² / (1790 kg/m³ · 0.5) = 0.6704 mm; 0.6 + 0.0006704 · 0.5 · 1180 = 0.9955 kg/m².
    [Fact]
    public void Three_plies_of_carbon_at_half_fibre()
    {
        var result = Laminate.Compute(Panel);

        Assert.Equal(0.6704e-3, result.ThicknessMeters, 5e-8);
        Assert.Equal(0.9955, result.KilogramsPerSquareMeter, 4);
        Assert.Equal(0.3955, result.ResinKilograms, 4);
        // Krenchel (1964): half of the fibres along the length: 0.5·0.5·230 + 0.5·3.2 GPa.
        Assert.Equal(59.1e9, result.TensilePascals, 1e6);
        Assert.Equal(59.1e9, result.BendingPascals, 1e6);
    }

    // University exercise of two plies of 450 g/m² mat with two parts of resin to one of glass by mass: V_f 0.19, 1.85 mm, 2.7 kg/m².
    [Fact]
    public void Two_plies_of_mat_at_two_to_one()
    {
        var share = LaminateMaterials.VolumeShare(1 / 3.0, 2_560, 1_200);
        Assert.Equal(0.18987, share, 5);
        var mat = new ClothLayer { Name = "Mat 450", Form = ClothForm.ChoppedMat, ArealKilogramsPerSquareMeter = 0.45, Plies = 2, FibreVolumeShare = share };

        var result = Laminate.Compute(new LaminateInput { Layers = [mat], SquareMeters = 1, Resin = ResinKind.Polyester });

        Assert.Equal(1.8516e-3, result.ThicknessMeters, 5e-8);
        Assert.Equal(2.7, result.KilogramsPerSquareMeter, 9);
        Assert.Equal(1.8, result.ResinKilograms, 9);
        Assert.Equal(2, Assert.Single(result.Layers).ResinOverFibre, 9);
        // Hull and Clyne give 6 to 11 GPa for mat in polyester (from memory).
        Assert.InRange(result.TensilePascals, 6e9, 11e9);
    }

    [Fact]
    public void A_sandwich_bends_by_its_skins_apart()
    {
        // Allen, Analysis and Design of Structural Sandwich Panels (1969): D = E·t·d²/2 + E·t³/6 for two equal skins and a core without stiffness.
        var skin = Twill with { Plies = 2 };
        var result = Laminate.Compute(Panel with { Layers = [skin, new CoreLayer { Name = "Foam", ThicknessMeters = 0.01, KilogramsPerCubicMeter = 80 }, skin] });
        var (e, t) = (59.1e9, 0.4 / 895);
        var d = 0.01 + t;

        Assert.Equal(e * t * d * d / 2 + e * t * t * t / 6, result.BendingNewtonMeters, 1e-6 * result.BendingNewtonMeters);
        Assert.True(result.BendingNewtonMeters > 100 * Laminate.Compute(Panel with { Layers = [skin, skin] }).BendingNewtonMeters);
    }

    [Fact]
    public void Turned_over_it_is_as_stiff_and_twice_the_area_weighs_twice() =>
        Gen.Select(Gen.Int[1, 6], Gen.Double[0.002, 0.03], Gen.Double[0.1, 5], Gen.Enum<FibreKind>(), Gen.Enum<ClothForm>()).Sample((plies, core, area, fibre, form) =>
        {
            LaminateLayer[] layers = [new ClothLayer { Name = "A", Fibre = fibre, Form = form, ArealKilogramsPerSquareMeter = 0.3, Plies = plies }, new CoreLayer { Name = "C", ThicknessMeters = core, KilogramsPerCubicMeter = 80, Pascals = 5e7 }, Twill];
            var one = Laminate.Compute(Panel with { Layers = layers, SquareMeters = area });
            var turned = Laminate.Compute(Panel with { Layers = [.. layers.Reverse()], SquareMeters = 2 * area });
            return Close(one.BendingNewtonMeters, turned.BendingNewtonMeters) && Close(2 * one.Kilograms, turned.Kilograms) && Close(2 * one.MixedKilograms, turned.MixedKilograms)
                && Close(one.Kilograms, one.Materials.Sum(row => row.StayingKilograms));
        });

    [Fact]
    public void Cups_follow_pot_life_or_size()
    {
        // 4 m² of 0.3955 kg and 15 % lost: 1.8193 kg. 0.05 kg/min for two thirds of 12 min: 0.4 kg a cup, so 5 cups of 0.3639 kg in 100:30.
        var quick = Laminate.Compute(Panel with { SquareMeters = 4, Mix = new ResinMix { HardenerParts = 30, PotLifeMinutes = 12 } });
        Assert.Equal((5, true), (quick.Batches!.Batches, quick.Batches.LimitedByPotLife));
        Assert.Equal(1.8193 / 5 / 1.3, quick.Batches.ResinKilograms, 4);
        Assert.Equal(0.3, quick.Batches.HardenerKilograms / quick.Batches.ResinKilograms, 9);
        Assert.Equal("5 cups of 0.364 kg: the pot life allows no more at once.", quick.Findings.Single(finding => finding.Code == "resin-batches").Text.Replace('\u00a0', ' '));

        var slow = Laminate.Compute(Panel with { SquareMeters = 4, Mix = new ResinMix { HardenerParts = 30, PotLifeMinutes = 60 } });
        Assert.Equal((4, false), (slow.Batches!.Batches, slow.Batches.LimitedByPotLife));
    }

    [Fact]
    public void Cloth_is_cut_in_strips_the_way_that_takes_less()
    {
        // 2 m by 1.2 m untrimmed from a roll of 1.25 m: one strip of 2 m a ply. From 1 m with 3 cm overlap: two of 2 m along, or three of 1.2 m across.
        var input = Panel with { SquareMeters = null, LengthMeters = 2, WidthMeters = 1.2, ClothWasteShare = 0 };
        Assert.Equal(6, Laminate.Compute(input with { Layers = [Twill with { RollMeters = 1.25 }] }).Materials[0].Quantity, 9);
        Assert.Equal(3 * 3.6, Laminate.Compute(input with { Layers = [Twill with { RollMeters = 1 }] }).Materials[0].Quantity, 9);
    }

    [Fact]
    public void A_bag_takes_film_and_tape_and_paint_leaves_its_solids()
    {
        // Edge of 2 m by 1 m: 6 m; two coats of 0.15 kg/m² on 2 m², 40 % lost, half of it solid: 1 kg to get, 0.3 kg stay.
        var result = Laminate.Compute(Panel with
        {
            SquareMeters = null, LengthMeters = 2, WidthMeters = 1, Process = LaminateProcess.VacuumBag,
            Surface = [new AreaMaterial { Name = "Clear coat", KilogramsPerSquareMeter = 0.15, Coats = 2, WasteShare = 0.4, StayingShare = 0.5, Hazard = AreaHazard.Isocyanate }],
        });

        Assert.Equal(6 * 1.4, result.Materials.Single(row => row.Name == "Sealant tape").Quantity, 9);
        Assert.Equal(3, result.Materials.Single(row => row.Name == "Bagging film").Quantity, 9);
        Assert.Equal((1, 0.3), (Math.Round(result.Materials[^1].Quantity, 9), Math.Round(result.Materials[^1].StayingKilograms, 9)));
        Assert.Contains(result.Cautions, caution => caution.Title == "isocyanate");
        Assert.Contains(result.Cautions, caution => caution.Title == "carbon conducts");
        Assert.DoesNotContain(result.Cautions, caution => caution.Title == "styrene");
    }

    [Fact]
    public void Polyester_brings_styrene_and_peroxide() =>
        Assert.Equal(["resin heats itself", "styrene", "peroxide hardener", "carbon conducts"], Laminate.Compute(Panel with { Resin = ResinKind.Polyester }).Cautions.Select(caution => caution.Title).Where(title => title != "dust"));

    [Fact]
    public void Carbon_near_a_connector_and_an_open_core_are_warned_of()
    {
        var result = Laminate.Compute(Panel with { NearElectrics = true, Layers = [Twill, new CoreLayer { Name = "Foam", ThicknessMeters = 0.01, KilogramsPerCubicMeter = 80 }] });

        Assert.Equal(["carbon-conducts", "core-open"], result.Findings.Where(finding => finding.Severity == Severity.Warn).Select(finding => finding.Code));
    }

    [Fact]
    public void Bad_input_is_refused_by_name()
    {
        Assert.Equal("Twill 200, mass of the cloth in kg/m²: 200 is not accepted; enter 0.01 to 3.", Assert.Single((Panel with { Layers = [Twill with { ArealKilogramsPerSquareMeter = 200 }] }).Validate()).Message);
        Assert.Equal("SquareMeters", Assert.Single((Panel with { SquareMeters = null }).Validate()).Field);
        Assert.Equal("Mix.PotLifeMinutes", Assert.Single((Panel with { Mix = new ResinMix { HardenerParts = 30, PotLifeMinutes = double.NaN } }).Validate()).Field);
        Assert.Equal("Layers: there is no cloth; enter at least one.", Assert.Single((Panel with { Layers = [new CoreLayer { Name = "Foam", ThicknessMeters = 0.01, KilogramsPerCubicMeter = 80 }] }).Validate()).Message);
    }

    private static bool Close(double a, double b) => Math.Abs(a - b) <= 1e-9 * Math.Abs(b);
}
