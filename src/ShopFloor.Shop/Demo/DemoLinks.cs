using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;

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
