using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Demo;

/// <summary>What feeds what in the demo's jobs, and what their budgets assume.</summary>
internal static class DemoLinks
{
    /// <summary>The filter chosen for a loudspeaker of a job.</summary>
    public static Action<JobPartDetails> Filter(double? highPassHertz, double? lowPassHertz) => part =>
    {
        var data = (LoudspeakerData)part.Data;
        (data.HighPassHertz, data.LowPassHertz) = (highPassHertz, lowPassHertz);
    };

    /// <summary>The usual links, as one tap suggests them.</summary>
    public static async Task SuggestAsync(IServiceProvider services, Actor actor, Guid job)
    {
        var links = services.GetRequiredService<SignalLinks>();
        DemoScript.Must(await links.SuggestAsync(actor, job, SignalKind.Sound, default));
        DemoScript.Must(await links.SuggestAsync(actor, job, SignalKind.TurnOn, default));
    }

    public static async Task WithCablesAsync(IServiceProvider services, Actor actor, Guid job)
    {
        await SuggestAsync(services, actor, job);
        DemoScript.Must(await services.GetRequiredService<SignalPlans>().PutCablesOnListAsync(actor, job, default));
    }

    /// <summary>The woofer on its own amplifier, tweeter and midrange sharing a channel through a crossover, the rest channel by channel.</summary>
    public static async Task TheEstateAsync(IServiceProvider services, Actor actor, Guid job)
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
        await SuggestAsync(services, actor, job);
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

    /// <summary>Camping: the amplifier hangs on the second battery, and an evening is asked of it.</summary>
    public static async Task TheSuvAsync(IServiceProvider services, Actor actor, Guid job)
    {
        await SuggestAsync(services, actor, job);
        var plans = services.GetRequiredService<ElectricalPlans>();
        var parts = (await services.GetRequiredService<PartsList>().RowsAsync(actor, job, default)).ToLookup(row => row.Name);
        var battery = parts[DemoCatalogue.SecondBattery].First().Id.ToString();
        DemoScript.Must(await plans.EditChoiceAsync(actor, job, parts[DemoCatalogue.SixChannel].First().Id.ToString(), Guid.Empty, new RunChoiceForm { From = battery }, default));
        DemoScript.Must(await services.GetRequiredService<BudgetPlans>().EditSettingsAsync(
            actor, job, Guid.Empty, new BudgetSettingsForm { ReserveMinutes = 150, ParkedDays = 5 }, default));
    }
}
