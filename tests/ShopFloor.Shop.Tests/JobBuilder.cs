using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests;

/// <summary>Opens jobs for tests; each test changes only what it is about.</summary>
internal static class JobBuilder
{
    public static OpenJob SomeJob(Action<OpenJob>? change = null)
    {
        var command = new OpenJob
        {
            NewClient = new ClientDetails { Name = "Clea Client", Phone = "555 0100", Email = "clea@example.org" },
            NewVehicle = new VehicleDetails { Make = "Verano", Model = "Lince", ModelYear = 2028, Plate = "AB 123" },
            Card = new JobCardDetails { Title = "Better sound", Wish = "Clear voices, bass I can feel" },
        };
        change?.Invoke(command);
        return command;
    }

    public static async Task<Guid> OpenJobAsync(this TestShop shop, Action<OpenJob>? change = null)
    {
        var outcome = await shop.Get<JobDesk>().OpenAsync(shop.Desk, SomeJob(change), CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
        return outcome.Value;
    }
}
