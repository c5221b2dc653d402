using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Engineering.Fabrication.Laminates;
using ShopFloor.Engineering.Fabrication.Nesting;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;
using TemplateForm = ShopFloor.Shop.Phases.Design.TemplateForm;

namespace ShopFloor.Shop.Demo;

/// <summary>What the demo's shop makes by hand.</summary>
internal static class DemoPanels
{
    /// <summary>The false floor of birch, the side box and its ring of fibreboard.</summary>
    public static async Task TheEstateAsync(IServiceProvider services, Actor actor, Guid job)
    {
        var (lists, designs) = (services.GetRequiredService<CutLists>(), services.GetRequiredService<JobDesigns>());
        var page = await lists.GetAsync(actor, job, default);
        var birch = page.Materials.First(material => material.Name == DemoCatalogue.Birch).Id;
        var board = page.Materials.First(material => material.Name == DemoCatalogue.Fibreboard).Id;
        var form = new CutListForm
        {
            Zone = VehicleZones.BootFloorLeft,
            TrimMeters = 0.005,
            Made = new MadeNotes { GluedWith = "Polyurethane wood glue and 4 × 40 mm screws; the floor lies loose in its edge strip", ComesOff = "Hatch by its ring, floor left, then right: no tool. The box by two bolts M8 behind the hatch.", Care = "Wipe with a damp cloth; not more than 100 kg on the hatch." },
            Remarks = "Grain of the floor runs across the car. Edges of the hatch rounded 3 mm.",
            Parts =
            [
                new CutRow { Name = "Floor, left", MaterialId = birch, LengthMeters = 0.86, WidthMeters = 0.46, Grain = PartGrain.Along },
                new CutRow { Name = "Floor, right", MaterialId = birch, LengthMeters = 0.86, WidthMeters = 0.46, Grain = PartGrain.Along },
                new CutRow { Name = "Hatch", MaterialId = birch, LengthMeters = 0.4, WidthMeters = 0.3, Grain = PartGrain.Along },
                new CutRow { Name = "Bearer", MaterialId = birch, Quantity = 4, LengthMeters = 0.8, WidthMeters = 0.06 },
                new CutRow { Name = "Box, front and back", MaterialId = board, Quantity = 2, LengthMeters = 0.658, WidthMeters = 0.398 },
                new CutRow { Name = "Box, top and bottom", MaterialId = board, Quantity = 2, LengthMeters = 0.658, WidthMeters = 0.125 },
                new CutRow { Name = "Box, side", MaterialId = board, Quantity = 2, LengthMeters = 0.36, WidthMeters = 0.125 },
                new CutRow { Name = "Ring", MaterialId = board, Shape = CutShape.Ring, LengthMeters = 0.292, InnerMeters = 0.231 },
            ],
            Stock =
            [
                new SheetRow { MaterialId = birch, LengthMeters = 1.525, WidthMeters = 1.525, Grain = SheetGrain.Along },
                new SheetRow { MaterialId = board, LengthMeters = 1.22, WidthMeters = 0.61 },
                new SheetRow { MaterialId = board, LengthMeters = 0.72, WidthMeters = 0.42, IsOffcut = true, Quantity = 1 },
            ],
        };
        var list = DemoScript.Must(await designs.AddAsync(actor, job, "False floor and side box", form, default));
        DemoScript.Must(await lists.PutOnListAsync(actor, job, list, default));
        var woofer = (await services.GetRequiredService<PartsList>().RowsAsync(actor, job, default)).First(row => row.Name == DemoCatalogue.Woofer).Id;
        DemoScript.Must(await designs.AddAsync(actor, job, "Ring of the side box", new TemplateForm { LoudspeakerPartId = woofer, ThicknessMeters = 0.019, FirstHoleDegrees = 22.5 }, default));
        DemoScript.Must(await designs.AddAsync(
            actor,
            job,
            "Trim over the side box",
            new LaminateForm
            {
                SquareMeters = 0.42,
                Process = LaminateProcess.VacuumBag,
                HardenerParts = 30,
                PotLifeMinutes = 40,
                Made = new MadeNotes { GluedWith = "Four clips and hook tape at the upper edge", ComesOff = "Pull at the lower edge with a plastic lever, clip by clip, then up.", Care = "Vinyl cleaner; no solvent." },
                Hours = 5,
                Zone = "boot-side-right",
                Layers =
                [
                    new LaminateRow { Name = "Glass twill 200 g", KilogramsPerSquareMeter = 0.2, Plies = 2 },
                    new LaminateRow { Name = "Foam core 3 mm", IsCore = true, ThicknessMeters = 0.003, KilogramsPerCubicMeter = 80 },
                    new LaminateRow { Name = "Glass twill 200 g", KilogramsPerSquareMeter = 0.2, Plies = 1 },
                ],
                Finish =
                [
                    new FinishRow { Name = "Contact adhesive", KilogramsPerSquareMeter = 0.15, Coats = 2, StaysPercent = 30, Hazard = AreaHazard.Solvent },
                    new FinishRow { Name = "Trim vinyl", KilogramsPerSquareMeter = 0.65, LostPercent = 25 },
                ],
            },
            default));
        await TreatmentAsync(services, actor, job);
        await RattlesAsync(services.GetRequiredService<Rattles>(), actor, job);
    }

    private static async Task TreatmentAsync(IServiceProvider services, Actor actor, Guid job)
    {
        var (treatments, designs) = (services.GetRequiredService<Treatments>(), services.GetRequiredService<JobDesigns>());
        var products = (await treatments.GetAsync(actor, job, default)).Products;
        var damping = products.First(product => product.Name == DemoCatalogue.Damping).Id;
        var absorber = products.First(product => product.Name == DemoCatalogue.Absorber).Id;
        TreatedPanelRow Door(string side) => new()
        {
            Name = $"Front door {side}, outer skin",
            SquareMeters = 0.62,
            Layers = [new TreatmentLayerRow { ProductId = damping, CoveragePercent = 45 }, new TreatmentLayerRow { ProductId = absorber, CoveragePercent = 15 }],
        };
        var form = new TreatmentForm
        {
            Zone = "front-door-left",
            Hours = 3.5,
            Made = new MadeNotes { ComesOff = "Damping stays on the skin; absorber behind the lower edge pulls off by hand." },
            Panels =
            [
                Door("left"),
                Door("right"),
                new TreatedPanelRow { Name = "Boot floor", SquareMeters = 1.1, Layers = [new TreatmentLayerRow { ProductId = damping, CoveragePercent = 35 }] },
            ],
        };
        var treatment = DemoScript.Must(await designs.AddAsync(actor, job, "Doors and boot floor", form, default));
        DemoScript.Must(await treatments.PutOnListAsync(actor, job, treatment, default));
    }

    private static async Task RattlesAsync(Rattles rattles, Actor actor, Guid job)
    {
        async Task FoundAsync(string place, double hertz, double? level) => DemoScript.Must(await rattles.FindAsync(actor, Guid.CreateVersion7(), new FoundRattle(job, place, hertz, level), null, default));
        await FoundAsync("Number plate", 45, 88);
        await FoundAsync("Rear shelf, left clip", 63.5, null);
        await FoundAsync("Door card, lower edge", 127, 92);
        var rows = (await rattles.SheetAsync(actor, job, default)).Rows;
        DemoScript.Must(await rattles.TreatAsync(actor, Guid.CreateVersion7(), job, rows[0].Id, "Foam strip behind the plate", null, default));
        DemoScript.Must(await rattles.PlayedAsync(actor, Guid.CreateVersion7(), job, rows[0].Id, stillHeard: false, null, default));
        DemoScript.Must(await rattles.TreatAsync(actor, Guid.CreateVersion7(), job, rows[1].Id, "Felt tape under the clip", null, default));
    }
}
