using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Options;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Staff.Secrets;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Phases.Parts;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Phases.Tuning;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Photos;

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
        services.AddStaff(folder);
        services.AddSingleton<JobBoard>();
        services.AddSingleton<JobPhotos>();
        services.AddSingleton(provider => new PhotoStore(folder.Photos, provider.GetRequiredService<TimeProvider>()));
        services.AddSingleton<StageTemplates>();
        services.AddSingleton<StagePlan>();
        services.AddSingleton<StageWork>();
        services.AddSingleton<TimeClock>();
        services.AddSingleton<Blockers>();
        services.AddSingleton<WorkSheets>();
        services.AddSingleton<ClientLinks>();
        services.AddSingleton<Estimates>();
        services.AddSingleton<JobMoney>();
        services.AddSingleton<SettingsSheet>();
        services.AddSingleton<Handovers>();
        services.AddSingleton<DeliveryGate>();
        services.AddSingleton<ClientView>();
        services.AddSingleton<JobRecord>();
        services.AddSingleton<Travellers>();
        services.AddSingleton<CheckInReceipts>();
        services.AddSingleton<CheckInDesk>();
        services.AddSingleton<FactoryFunctions>();
        services.AddSingleton<PartsList>();
        services.AddSingleton<CatalogueDesk>();
        services.AddSingleton<CatalogueImport>();
        services.AddSingleton<ElectricalPlans>();
        services.AddSingleton<WeightPlans>();
        services.AddSingleton<Purchasing>();
        return services;
    }

    private static void AddStaff(this IServiceCollection services, ShopFolder folder)
    {
        services.AddSingleton<IPasswordHasher<StaffMember>>(
            new PasswordHasher<StaffMember>(Options.Create(new PasswordHasherOptions { IterationCount = PasswordIterations })));
        services.AddSingleton(_ => new PinHasher(PinPepper.ReadOrCreate(folder.PinPepper)));
        services.AddSingleton(PinGuard.Standard);
        services.AddSingleton<FirstOwner>();
        services.AddSingleton<People>();
        services.AddSingleton<DemoPeople>();
    }

    /// <summary>For PBKDF2 with HMAC-SHA-512; the OWASP Password Storage Cheat Sheet asks for at least 210,000 (from memory).</summary>
    private const int PasswordIterations = 220_000;
}
