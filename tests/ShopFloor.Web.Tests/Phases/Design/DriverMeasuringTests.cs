using System.Globalization;
using System.Text;
using Bunit;
using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;
using ShopFloor.Web.Layout;
using ShopFloor.Web.Phases.Design;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Phases.Design;

public sealed class DriverMeasuringTests : ComponentTest, IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly ShopApplication _shop = new();
    private Guid _job;
    private Guid _woofer;

    async Task IAsyncLifetime.InitializeAsync()
    {
        await _shop.InitializeAsync();
        var owner = _shop.Actor(ShopRole.Owner);
        _job = (await _shop.Get<JobDesk>().OpenAsync(
            owner,
            new OpenJob
            {
                NewClient = new ClientDetails { Name = "Clea Client", Phone = "555 0100", Email = "clea@example.org" },
                NewVehicle = new VehicleDetails { Make = "Verano", Model = "Lince", ModelYear = 2028, Plate = "AB 123" },
                Card = new JobCardDetails { Title = "Better sound", Wish = "Bass" },
            },
            None)).Value;
        _woofer = (await _shop.Get<PartsList>().AddAsync(
            owner, _job, new JobPartDetails { Name = "Woofer", Kind = PartKind.Loudspeaker, UnitPrice = 98_765, Data = new LoudspeakerData { NominalOhms = 4, Coils = 1, PistonSquareCentimeters = 330 } }, None)).Value;
        Services.AddSingleton(_shop.Get<DriverMeasurements>());
    }

    async Task IAsyncLifetime.DisposeAsync()
    {
        await ((IAsyncLifetime)_shop).DisposeAsync();
        await DisposeAsync();
    }

    [Fact]
    public async Task A_file_that_was_dropped_is_shown_as_it_is_read_with_the_fit_over_the_curve()
    {
        var panel = Panel(ShopRole.FrontDesk);
        var file = await FileAsync(Sweep());

        await panel.Find("[data-file-kind=ImpedanceTable] [data-file-value]").ChangeAsync(file.ToString());

        panel.WaitForAssertion(() => Assert.Equal(2, panel.FindAll("[data-plot=driver] .plot-wide [data-key^='series:']").Count), TimeSpan.FromSeconds(20));
        Assert.Contains("columns apart by semicolons, decimal comma", panel.Find(".sweep-columns summary").TextContent, StringComparison.Ordinal);
        Assert.Equal("28", Shown(panel, "Resonance fs")); // fs of the driver that was swept
        Assert.Equal("0.52", Shown(panel, "Qes"));
        Assert.Contains(panel.FindAll("button"), button => button.TextContent == "Keep and write to the part");
        // What is no sweep is told and leaves what was read.
        await panel.Find("[data-file-kind=ImpedanceTable] [data-file-value]").ChangeAsync((await FileAsync("no numbers here")).ToString());
        panel.WaitForAssertion(() => Assert.Contains("No line holds a frequency and ohms.", panel.Find("[role=alert] span").TextContent, StringComparison.Ordinal));
        Assert.Equal("28", Shown(panel, "Resonance fs"));
    }

    [Fact]
    public async Task A_technician_keeps_a_measurement_without_writing_to_the_part_and_sees_no_money()
    {
        var panel = Panel(ShopRole.Technician);
        await panel.Find("[data-file-kind=ImpedanceTable] [data-file-value]").ChangeAsync((await FileAsync(Sweep())).ToString());
        panel.WaitForAssertion(() => Assert.False(Button(panel, "Keep the measurement").HasAttribute("disabled")), TimeSpan.FromSeconds(20));

        await Button(panel, "Keep the measurement").ClickAsync(new());

        panel.WaitForAssertion(() => Assert.Contains("Its figures are not on the part yet.", panel.Markup, StringComparison.Ordinal), TimeSpan.FromSeconds(20));
        Assert.DoesNotContain(panel.FindAll("button"), button => button.TextContent == "Write to the part");
        Assert.DoesNotContain("98,765", panel.Markup, StringComparison.Ordinal);
    }

    private static AngleSharp.Dom.IElement Button(IRenderedComponent<DriverMeasuring> panel, string words) => panel.FindAll("button").Single(button => button.TextContent == words);

    private static string Shown(IRenderedComponent<DriverMeasuring> panel, string label) =>
        panel.FindAll(".data-point").Single(card => card.QuerySelector(".data-point-label")!.TextContent == label).QuerySelector(".data-point-value")!.ChildNodes[0].TextContent.Trim();

    private IRenderedComponent<DriverMeasuring> Panel(ShopRole role) => Render<DriverMeasuring>(parameters => parameters
        .Add(shown => shown.JobId, _job)
        .Add(shown => shown.PartId, _woofer)
        .AddCascadingValue(new Viewer(_shop.Actor(role), UnitSystem.Metric, TimeZoneInfo.Utc, "EUR", "Shop")));

    private async Task<Guid> FileAsync(string text)
    {
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(text));
        return (await _shop.Get<JobFiles>().AddAsync(_shop.Actor(ShopRole.Technician), _job, JobFileKind.ImpedanceTable, "sweep.txt", stream, None)).Value;
    }

    // fs 28 Hz, Qes 0.52, Qms 6; decimal commas.
    private static string Sweep()
    {
        var driver = DriverCompletion.Complete(new DriverSheet { ResonanceHertz = 28, Qes = 0.52, Qms = 6, VasCubicMeters = 0.062, PistonSquareMeters = 0.033, ReOhms = 3.4, LeHenries = 1.2e-3 }, Air.Standard).Parameters!;
        return "Hz;Ohm;deg\n" + string.Join('\n', EnclosureResponse.Over(driver, new ClosedBox { NetCubicMeters = 1e9 }, Air.Standard, 1, EnclosureResponse.LogSpaced(8, 500, 80))
            .Select(point => string.Create(CultureInfo.InvariantCulture, $"{point.Hertz:0.000};{point.ImpedanceOhms:0.0000};{point.ImpedanceDegrees:0.000}").Replace('.', ',')));
    }
}
