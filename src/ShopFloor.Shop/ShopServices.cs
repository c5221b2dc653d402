using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Options;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Phases.Parts;
using ShopFloor.Shop.Phases.Tuning;
using ShopFloor.Shop.Phases.Tuning.Factory;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Phases.Tuning.Placement;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Staff.Secrets;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Backup;
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
        services.AddStaff(folder);
        return services
            .AddReference()
            .AddJobs(folder)
            .AddIntake()
            .AddDesign()
            .AddEstimate()
            .AddParts()
            .AddBuild()
            .AddTuning()
            .AddHandover();
    }

    private static IServiceCollection AddReference(this IServiceCollection services) => services
        .AddSingleton<ClientFile>()
        .AddSingleton<ClientLinks>()
        .AddSingleton<CatalogueDesk>()
        .AddSingleton<CatalogueImport>();

    private static IServiceCollection AddJobs(this IServiceCollection services, ShopFolder folder) => services
        .AddSingleton(provider => new PhotoStore(folder.Photos, provider.GetRequiredService<TimeProvider>()))
        .AddSingleton<JobBoard>()
        .AddSingleton<JobCards>()
        .AddSingleton<JobDesigns>()
        .AddSingleton<JobFiles>()
        .AddSingleton<JobMoney>()
        .AddSingleton<JobPhotos>()
        .AddSingleton<JobRecord>()
        .AddSingleton<JobSearch>()
        .AddSingleton<PartsList>();

    private static IServiceCollection AddIntake(this IServiceCollection services) => services
        .AddSingleton<JobDesk>()
        .AddSingleton<CheckInDesk>()
        .AddSingleton<CheckInReceipts>()
        .AddSingleton<FactoryFunctions>();

    private static IServiceCollection AddDesign(this IServiceCollection services) => services
        .AddSingleton<PlanHistory>()
        .AddSingleton<ElectricalPlans>()
        .AddSingleton<PlanReleases>()
        .AddSingleton<OwnTables>()
        .AddSingleton<CableCosts>()
        .AddSingleton<FeedEditing>()
        .AddSingleton<WiringSchedules>()
        .AddSingleton<FeedStates>()
        .AddSingleton<WeightPlans>()
        .AddSingleton<RestraintPlans>()
        .AddSingleton<ServicePlans>()
        .AddSingleton<LighterParts>()
        .AddSingleton<BudgetPlans>()
        .AddSingleton<LightingPlans>()
        .AddSingleton<SignalLinks>()
        .AddSingleton<SignalPlans>()
        .AddSingleton<SignalPaths>()
        .AddSingleton<Enclosures>()
        .AddSingleton<DriverMeasurements>()
        .AddSingleton<MeshFiles>()
        .AddSingleton<CutLayouts>()
        .AddSingleton<CutLists>()
        .AddSingleton<OffcutRack>()
        .AddSingleton<Templates>()
        .AddSingleton<Laminates>()
        .AddSingleton<Treatments>()
        .AddSingleton<JobSources>()
        .AddSingleton<SourceConnections>()
        .AddSingleton<SignalJoining>();

    private static IServiceCollection AddEstimate(this IServiceCollection services) => services
        .AddSingleton<Estimates>();

    private static IServiceCollection AddParts(this IServiceCollection services) => services
        .AddSingleton<Purchasing>();

    private static IServiceCollection AddBuild(this IServiceCollection services) => services
        .AddSingleton<Rattles>()
        .AddSingleton<StageTemplates>()
        .AddSingleton<StagePlan>()
        .AddSingleton<StageWork>()
        .AddSingleton<MeasuredValues>()
        .AddSingleton<SignalTables>()
        .AddSingleton<TimeClock>()
        .AddSingleton<Blockers>()
        .AddSingleton<Travellers>()
        .AddSingleton<WorkSheets>();

    private static IServiceCollection AddTuning(this IServiceCollection services) => services
        .AddSingleton<ProcessorProfiles>()
        .AddSingleton<TuningPresets>()
        .AddSingleton<TuningBench>()
        .AddSingleton<BenchDrafts>()
        .AddSingleton<IStageGate, TuningGate>()
        .AddSingleton<ITunedChannels, TunedChannels>()
        .AddSingleton<TuningChannels>()
        .AddSingleton<TuningMeasurements>()
        .AddSingleton<MeasurementDrafts>()
        .AddSingleton<FactoryMeasurements>()
        .AddSingleton<FactorySignals>()
        .AddSingleton<IFactorySound, FactorySound>()
        .AddSingleton<PlacementStudies>()
        .AddSingleton<MeasurementAnalysis>()
        .AddSingleton<SettingsSheet>();

    private static IServiceCollection AddHandover(this IServiceCollection services) => services
        .AddSingleton<Handovers>()
        .AddSingleton<DeliveryGate>()
        .AddSingleton<JobForClient>();

    private static void AddStaff(this IServiceCollection services, ShopFolder folder)
    {
        services.AddSingleton<IPasswordHasher<StaffMember>>(
            new PasswordHasher<StaffMember>(Options.Create(new PasswordHasherOptions { IterationCount = PasswordIterations })));
        services.AddSingleton(_ => new PinHasher(PinPepper.ReadOrCreate(folder.PinPepper)));
        services.AddSingleton(PinGuard.Standard);
        services.AddSingleton<ShopBackup>();
        services.AddSingleton<BackupDesk>();
        services.AddSingleton<ShopVerification>();
        services.AddSingleton<FirstOwner>();
        services.AddSingleton<People>();
        services.AddSingleton<Tablets>();
        services.AddSingleton<PinSignIn>();
        services.AddSingleton<ApiTokens>();
        services.AddSingleton<ShopSettingsDesk>();
        services.AddSingleton<DemoPeople>();
    }

    /// <summary>For PBKDF2 with HMAC-SHA-512; the OWASP Password Storage Cheat Sheet asks for at least 210,000 (from memory).</summary>
    private const int PasswordIterations = 220_000;
}
