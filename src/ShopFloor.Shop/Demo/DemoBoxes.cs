using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Demo;

/// <summary>The boxes of the demo's loudspeakers.</summary>
internal static class DemoBoxes
{
    /// <summary>A closed box behind the boot's side trim, beside the vented one that would not leave room for the dog.</summary>
    public static async Task TheEstateAsync(IServiceProvider services, Actor actor, Guid job)
    {
        var woofer = (await services.GetRequiredService<PartsList>().RowsAsync(actor, job, default)).First(row => row.Name == DemoCatalogue.Woofer).Id;
        var form = new EnclosureForm
        {
            LoudspeakerPartId = woofer,
            CabinLeakHertz = 22,
            Remarks = "Closed was chosen: the dog needs the floor, and the cabin lifts what the box leaves out.",
            Alternatives =
            [
                new BoxAlternative { NetCubicMeters = 0.024, Filling = BoxFilling.LinedWalls, HighPassHertz = 22, HighPassOrder = 2 },
                new BoxAlternative { Kind = EnclosureKind.Vented, NetCubicMeters = 0.042, TuningHertz = 31, PortDiameterMeters = 0.1, PortFlared = true, HighPassHertz = 25 },
            ],
            Volume = new BoxVolumeForm { WidthMeters = 0.62, HeightMeters = 0.36, DepthMeters = 0.125, BracingCubicMeters = 0.0007 },
        };
        DemoScript.Must(await services.GetRequiredService<JobDesigns>().AddAsync(actor, job, "Side box in the boot", form, default));
    }
}
