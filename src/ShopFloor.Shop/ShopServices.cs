using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Phases.Tuning;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop;

/// <summary>Registers the business: storage and every use case.</summary>
public static class ShopServices
{
    public static IServiceCollection AddShop(this IServiceCollection services, ShopFolder folder)
    {
        services.TryAddSingleton(TimeProvider.System);
        services.AddSingleton(folder);
        services.AddSingleton<WriteGate>();
        services.AddSingleton<JobChangeFeed>();
        services.AddDbContextFactory<ShopDbContext>(options => options.UseSqlite(folder.ConnectionString));
        services.AddSingleton<ShopDatabase>();
        services.AddSingleton<ShopStore>();
        services.AddSingleton<ClientFile>();
        services.AddSingleton<JobCards>();
        services.AddSingleton<JobSearch>();
        services.AddSingleton<JobDesk>();
        services.AddSingleton<ClientLinks>();
        services.AddSingleton<Estimates>();
        services.AddSingleton<JobMoney>();
        services.AddSingleton<SettingsSheet>();
        services.AddSingleton<Handovers>();
        services.AddSingleton<DeliveryGate>();
        services.AddSingleton<JobForClient>();
        services.AddSingleton<JobRecord>();
        services.AddSingleton<Travellers>();
        services.AddSingleton<CheckInReceipts>();
        services.AddSingleton<CheckInDesk>();
        services.AddSingleton<FactoryFunctions>();
        return services;
    }
}
