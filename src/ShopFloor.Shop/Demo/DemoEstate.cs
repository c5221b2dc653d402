using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Demo;

/// <summary>
/// The sound of the demo's estate: an amplifier with six channels and one with a single channel, a processor with six inputs and ten
/// outputs, a player that comes in as numbers and the factory radio, and nine loudspeakers, one with two coils.
/// </summary>
public static class DemoEstate
{
    public const string Ground = "Boot floor bolt";

    public static IReadOnlyList<DemoPart> Parts { get; } =
    [
        new(DemoCatalogue.SixChannel, 1, VehicleZones.BootFloorLeft, "Lift the false floor by the two straps; the cover is held by four hand screws.", Grounded),
        new(DemoCatalogue.SingleChannel, 1, VehicleZones.BootFloorRight, "Under the same false floor, right.", Grounded),
        new(DemoCatalogue.Processor, 1, VehicleZones.BootFloorRight, "Between the amplifiers.", Grounded),
        new(DemoCatalogue.NetworkPlayer, 1, "console", "In the arm rest box.", Grounded),
        new(DemoCatalogue.RadioInterface, 1, VehicleZones.Dash, "Behind the glove box, two clips. Its ground comes with the signal loom from the boot.", Grounded),
        new(DemoCatalogue.Tweeter, 2, "pillar-left", "", DemoLinks.Filter(3_200, null)),
        new(DemoCatalogue.Midrange, 2, "pillar-right", "", DemoLinks.Filter(300, 3_200)),
        new(DemoCatalogue.Midbass, 2, "front-door-left", "", DemoLinks.Filter(75, 300)),
        new(DemoCatalogue.RearFill, 2, "rear-door-left", "", DemoLinks.Filter(150, 3_200)),
        new(DemoCatalogue.Woofer, 1, "boot-side-right", "Remove the grille by its magnets, eight screws.", DemoLinks.Filter(null, 75)),
    ];

    /// <summary>The woofer on its own amplifier, tweeter and midrange sharing a channel through a crossover, the rest channel by channel.</summary>
    public static async Task LinkAsync(IServiceProvider services, Actor actor, Guid job)
    {
        var links = services.GetRequiredService<SignalLinks>();
        var parts = (await services.GetRequiredService<PartsList>().RowsAsync(actor, job, default)).ToLookup(row => row.Name);
        Guid Of(string name) => parts[name].First().Id;
        async Task FeedAsync(string loudspeaker, int unit, string amplifier, int output, double meters, bool crossover = false) => DemoScript.Must(await links.LinkAsync(
            actor, job, SignalKind.Sound, Of(loudspeaker), unit, Guid.Empty, new SignalLinkForm { FromPartId = Of(amplifier), FromOutput = output, LengthMeters = meters, BehindCrossover = crossover }, default));
        for (var side = 0; side < 2; side++)
        {
            await FeedAsync(DemoCatalogue.Tweeter, side, DemoCatalogue.SixChannel, side, 4.6 + side, crossover: true);
            // The midranges are listed from the right.
            await FeedAsync(DemoCatalogue.Midrange, 1 - side, DemoCatalogue.SixChannel, side, 4.6 + side, crossover: true);
            await FeedAsync(DemoCatalogue.Midbass, side, DemoCatalogue.SixChannel, 2 + side, 3.9 + side);
            await FeedAsync(DemoCatalogue.RearFill, side, DemoCatalogue.SixChannel, 4 + side, 2.1 + side);
        }

        await FeedAsync(DemoCatalogue.Woofer, 0, DemoCatalogue.SingleChannel, 0, 1.2);
        await DemoLinks.SuggestAsync(services, actor, job);
        await SayRestAsync(services, actor, job, Of(DemoCatalogue.Processor));
        // The processor is steady before it switches the amplifiers on.
        foreach (var amplifier in new[] { DemoCatalogue.SixChannel, DemoCatalogue.SingleChannel })
        {
            var link = (await links.ListAsync(actor, job, default)).Single(found => found.Kind == SignalKind.TurnOn && found.ToPartId == Of(amplifier));
            DemoScript.Must(await links.LinkAsync(actor, job, SignalKind.TurnOn, Of(amplifier), 0, link.Version, link.Form with { DelaySeconds = 4.5 }, default));
        }

        DemoScript.Must(await services.GetRequiredService<BudgetPlans>().EditSettingsAsync(
            actor,
            job,
            Guid.Empty,
            new BudgetSettingsForm
            {
                AlternatorStamp = "80/180 A 13.5 V", BatteryKind = BatteryChemistry.GlassMat, EndPercent = 60, VehicleSleepMilliamperes = 22, MakersLimitMilliamperes = 50, ParkedDays = 14,
                Compartments =
                [
                    new CompartmentForm { Zone = VehicleZones.BootFloorLeft, LengthMeters = 0.7, WidthMeters = 0.45, HeightMeters = 0.14, AirflowCubicMetersPerHour = 12, Covered = true },
                    new CompartmentForm { Zone = VehicleZones.BootFloorRight, LengthMeters = 0.6, WidthMeters = 0.4, HeightMeters = 0.14, Covered = true },
                ],
            },
            default));
    }

    // Routing as it is set in the processor, and the ways of the line cables: away from the supply.
    private static async Task SayRestAsync(IServiceProvider services, Actor actor, Guid job, Guid processor)
    {
        string[] roles = ["front high", "front high", "front low", "front low", "rear", "rear"];
        DemoScript.Must(await services.GetRequiredService<SignalJoining>().RouteAsync(
            actor, job, Guid.Empty,
            new SignalRoutingForm
            {
                PartId = processor,
                Outputs =
                [
                    .. roles.Select((role, output) => new OutputRouteForm { Output = output, Takes = output % 2 == 0 ? OutputMix.Left : OutputMix.Right, Role = role }),
                    new OutputRouteForm { Output = roles.Length, Takes = OutputMix.Sum, Role = "sub" },
                ],
            },
            default));
        var links = services.GetRequiredService<SignalLinks>();
        var kinds = (await services.GetRequiredService<PartsList>().RowsAsync(actor, job, default)).ToDictionary(row => row.Id, row => row.Kind);
        foreach (var link in (await links.ListAsync(actor, job, default)).Where(link => link.Kind == SignalKind.Sound && kinds[link.ToPartId] != PartKind.Loudspeaker))
        {
            DemoScript.Must(await links.LinkAsync(actor, job, SignalKind.Sound, link.ToPartId, link.ToInput, link.Version, link.Form with { Lies = LinkLay.Free }, default));
        }
    }

    private static void Grounded(JobPartDetails part)
    {
        switch (part.Data)
        {
            case AmplifierData data:
                data.GroundPoint = Ground;
                break;
            case ProcessorData data:
                data.GroundPoint = Ground;
                break;
            case SourceData data:
                data.GroundPoint = Ground;
                data.FactoryLoad = data.Sounds == SourceSounds.Music ? FactoryLoad.NotNeeded : FactoryLoad.NeededAndFitted;
                break;
        }
    }
}

/// <summary>A part of the catalogue on a job of the demo.</summary>
public sealed record DemoPart(string Name, decimal Quantity, string Zone, string Access, Action<JobPartDetails> Change);
