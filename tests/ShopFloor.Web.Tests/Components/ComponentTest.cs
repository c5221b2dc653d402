using System.Globalization;
using Bunit;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using MudBlazor.Services;
using ShopFloor.Web.Components;

namespace ShopFloor.Web.Tests.Components;

/// <summary>A component under test with a fixed culture and a clock that only the test moves.</summary>
public abstract class ComponentTest : BunitContext, IAsyncLifetime
{
    private readonly CultureInfo _before = CultureInfo.CurrentCulture;

    protected ComponentTest()
    {
        CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("en-US");
        JSInterop.Mode = JSRuntimeMode.Loose;
        Services.AddMudServices();
        Services.AddSingleton<TimeProvider>(Clock);
    }

    protected FakeTimeProvider Clock { get; } = new();

    protected static UnitScale Millimetres { get; } = new("mm", "millimetres", 0.001, 1);

    // The inch is 25.4 mm exactly (international yard and pound agreement, 1959).
    protected static UnitScale Inches { get; } = new("in", "inches", 0.0254, 3);

    Task IAsyncLifetime.InitializeAsync() => Task.CompletedTask;

    // Some of MudBlazor's services can only be disposed asynchronously, so this goes before the usual Dispose.
    Task IAsyncLifetime.DisposeAsync() => DisposeAsync().AsTask();

    protected override void Dispose(bool disposing)
    {
        CultureInfo.CurrentCulture = _before;
        base.Dispose(disposing);
    }
}
