using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Phases.Parts;
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
        services.AddSingleton<JobDesk>();
        services.AddSingleton<PartsList>();
        services.AddSingleton<CatalogueDesk>();
        services.AddSingleton<CatalogueImport>();
        services.AddSingleton<ElectricalPlans>();
        services.AddSingleton<WeightPlans>();
        services.AddSingleton<Purchasing>();
        return services;
    }
}
