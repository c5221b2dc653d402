using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Tests;

/// <summary>A whole shop on its own SQLite file in a folder of its own, with a clock that stands still until told.</summary>
public sealed class TestShop : IAsyncLifetime
{
    private readonly string _root = Path.Combine(Path.GetTempPath(), "shopfloor-tests", Guid.CreateVersion7().ToString("N"));
    private ServiceProvider? _services;

    public FakeTimeProvider Time { get; } = new(new DateTimeOffset(2031, 3, 3, 8, 0, 0, TimeSpan.Zero));

    public Actor Owner { get; } = new(Guid.CreateVersion7(), "Odile Owner", ShopRole.Owner, ActorVia.Desk);

    public Actor Desk { get; } = new(Guid.CreateVersion7(), "Dora Desk", ShopRole.FrontDesk, ActorVia.Desk);

    public Actor Technician { get; } = new(Guid.CreateVersion7(), "Tom Tech", ShopRole.Technician, ActorVia.Tablet);

    public Actor SecondTechnician { get; } = new(Guid.CreateVersion7(), "Tess Tech", ShopRole.Technician, ActorVia.Tablet);

    public ShopFolder Folder => new(_root);

    public ShopStore Store => Get<ShopStore>();

    public TService Get<TService>()
        where TService : notnull => _services!.GetRequiredService<TService>(); // set in InitializeAsync, before any test

    public async Task InitializeAsync()
    {
        var services = new ServiceCollection();
        services.AddSingleton<TimeProvider>(Time);
        services.AddShop(Folder);
        services.AddSingleton<IHandoverPrint, FactsPrint>();

        // Whatever the database layer would only warn of fails the test that makes it do so.
        services.ConfigureDbContext<ShopDbContext>(options => options.ConfigureWarnings(warnings => warnings.Default(WarningBehavior.Throw)));
        _services = services.BuildServiceProvider(validateScopes: true);
        await Get<ShopDatabase>().PrepareAsync(CancellationToken.None);
    }

    public async Task DisposeAsync()
    {
        await _services!.DisposeAsync(); // set in InitializeAsync
        SqliteConnection.ClearAllPools();
        Directory.Delete(_root, recursive: true);
    }
}
