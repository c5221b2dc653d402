using AngleSharp.Dom;
using Bunit;
using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Engineering.Electrical;
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
using ShopFloor.Web.Settings;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Phases.Design;

/// <summary>The panels over a shop of their own: what is chosen there is what the plan is reckoned with.</summary>
public sealed class PlanPanelsTests : ComponentTest, IClassFixture<PlanPanelsTests.Host>
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly ShopApplication _shop;

    public PlanPanelsTests(Host host)
    {
        _shop = host.Shop;
        Services.AddSingleton(_shop.Get<ElectricalPlans>());
        Services.AddSingleton(_shop.Get<PlanReleases>());
        Services.AddSingleton(_shop.Get<OwnTables>());
        Services.AddSingleton(_shop.Get<CableCosts>());
        Services.AddSingleton(_shop.Get<FeedEditing>());
        Services.AddSingleton(_shop.Get<PartsList>());
    }

    [Fact]
    public async Task Table_and_sizes_of_a_job_are_chosen_in_its_assumptions()
    {
        var job = await JobAsync();
        var panel = Render<SettingsPanel>(parameters => parameters.AddCascadingValue(ViewerOf(ShopRole.Owner)).Add(p => p.JobId, job).Add(p => p.Plan, Plan(job)));

        Choose(panel, "Ampacity table", PublishedTables.FaaAc43Table119Bundled.Name);
        Choose(panel, "Conductor sizes", "mm², flexible class 5 (IEC 60228)");
        await panel.Find("footer .button-primary").ClickAsync();

        panel.WaitForAssertion(() =>
        {
            var view = Plan(job);
            // The table starts at 105 °C, so the insulation went up with it.
            Assert.Equal((PublishedTables.FaaAc43Table119Bundled.Name, 105), (view.Settings.Table, view.Settings.InsulationCelsius));
            Assert.All(view.Runs, run => Assert.EndsWith("mm² class 5", run.Sizing!.Conductor.Label, StringComparison.Ordinal));
        });
    }

    [Fact]
    public async Task Copper_clad_aluminium_brings_its_caution_and_its_own_sizes_where_it_is_chosen()
    {
        var job = await JobAsync();
        var panel = RunPanelOf(job);
        Assert.DoesNotContain("Caution", panel.Markup, StringComparison.Ordinal);

        Choose(panel, "Conductor is of", "copper-clad aluminium");

        Assert.Contains("Use terminals and crimps made for it", panel.Markup, StringComparison.Ordinal);
        Assert.Contains(Options(panel, "Conductor"), text => text == "4 AWG copper-clad aluminium 10A");
    }

    [Fact]
    public async Task The_factor_of_a_bundle_is_shown_with_the_table_it_comes_from_while_it_is_typed()
    {
        var panel = RunPanelOf(await JobAsync());

        Choose(panel, "Lies", "bundled with others");
        Field(panel, "Current-carrying cables bundled together").Change("3");

        // 33 CFR 183.425 note 2: 0.70 for three.
        Assert.Contains("0.7 for 3 together (33 CFR 183.425 table 5)", panel.Find("[role=status]").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_conduit_asks_once_and_says_what_the_table_does_not()
    {
        var panel = RunPanelOf(await JobAsync());
        Assert.Contains("In a sheath or conduit all the way to the fuse", panel.Markup, StringComparison.Ordinal);

        Choose(panel, "Lies", "in a conduit or sheath");

        Assert.DoesNotContain("In a sheath or conduit all the way to the fuse", panel.Markup, StringComparison.Ordinal);
        Assert.Contains("no factor for so few cables in a conduit", panel.Find("[role=status]").TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(ShopRole.Owner, true)]
    [InlineData(ShopRole.Technician, false)]
    public async Task The_cost_of_the_cables_is_for_those_who_may_see_costs(ShopRole role, bool sees)
    {
        var job = await JobAsync();

        var panel = Render<ElectricalPanel>(parameters => parameters.AddCascadingValue(ViewerOf(role)).Add(p => p.JobId, job).Add(p => p.Plan, Plan(job)).Add(p => p.Releases, []));

        panel.WaitForAssertion(() => Assert.Contains("sized run by run", panel.Markup, StringComparison.Ordinal));
        Assert.Equal(sees, panel.Markup.Contains("cost to the shop", StringComparison.Ordinal));
        Assert.Contains("wiring.json", panel.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_owner_pastes_a_table_sees_how_it_is_read_and_a_slip_is_named()
    {
        var page = Render<TablesPage>(parameters => parameters.AddCascadingValue(ViewerOf(ShopRole.Owner)));
        await page.WaitForElement(".button-primary").ClickAsync();
        Field(page, "Name").Change("From a data sheet");
        Field(page, "Source").Change("Data sheet 7");
        Field(page, "Sizes and currents").Change("size\t60\t105\n25 mm²\t110\t90");
        await page.Find(".table-save .button-primary").ClickAsync();
        // The message names row and column.
        page.WaitForAssertion(() => Assert.Contains("Row 1 (25 mm²), 105\u00a0°C column", page.Markup, StringComparison.Ordinal));

        Field(page, "Sizes and currents").Change("size\t60\t105\n25 mm²\t110\t165");
        Assert.Contains("Read as 1 sizes in 2 columns", page.Markup, StringComparison.Ordinal);
        await page.Find(".table-save .button-primary").ClickAsync();

        page.WaitForAssertion(() => Assert.Contains("The shop's own", page.Markup, StringComparison.Ordinal));
        Assert.Contains(await _shop.Get<OwnTables>().ListAsync(_shop.Actor(ShopRole.Owner), None), row => row.Name == "From a data sheet");
    }

    private IRenderedComponent<RunPanel> RunPanelOf(Guid job)
    {
        var plan = Plan(job);
        return Render<RunPanel>(parameters => parameters.AddCascadingValue(ViewerOf(ShopRole.Owner))
            .Add(p => p.JobId, job).Add(p => p.All, plan.Sources).Add(p => p.Settings, plan.Settings).Add(p => p.Rules, plan.Rules).Add(p => p.Run, plan.Runs[^1]));
    }

    private static IElement Field<T>(IRenderedComponent<T> panel, string label)
        where T : Microsoft.AspNetCore.Components.IComponent =>
        panel.Find("#" + panel.FindAll("label[for]").First(found => found.TextContent.Trim().StartsWith(label, StringComparison.Ordinal)
            && (found.TextContent.Trim().Length == label.Length || found.TextContent.Contains("optional", StringComparison.Ordinal))).GetAttribute("for"));

    private static List<string> Options<T>(IRenderedComponent<T> panel, string label)
        where T : Microsoft.AspNetCore.Components.IComponent => [.. Field(panel, label).Children.Select(option => option.TextContent.Trim())];

    private static void Choose<T>(IRenderedComponent<T> panel, string label, string text)
        where T : Microsoft.AspNetCore.Components.IComponent
    {
        var at = Options(panel, label).IndexOf(text);
        Assert.True(at >= 0, $"{label} offers: {string.Join(", ", Options(panel, label))}");
        Field(panel, label).Change(at.ToString(System.Globalization.CultureInfo.InvariantCulture));
    }

    private Viewer ViewerOf(ShopRole role) => new(_shop.Actor(role), ShopFloor.Engineering.Units.UnitSystem.Metric, TimeZoneInfo.Utc, "EUR", "Shop");

    private ElectricalPlanView Plan(Guid job) => _shop.Get<ElectricalPlans>().GetAsync(_shop.Actor(ShopRole.Owner), job, UnitText.Invariant, None).GetAwaiter().GetResult();

    private async Task<Guid> JobAsync()
    {
        var owner = _shop.Actor(ShopRole.Owner);
        var opened = await _shop.Get<JobDesk>().OpenAsync(owner, new OpenJob
        {
            NewClient = new ClientDetails { Name = "Clea Client", Phone = "555 0100" },
            NewVehicle = new VehicleDetails { Make = "Verano", Model = "Lince", ModelYear = 2020 },
            Card = new JobCardDetails { Title = "Panels" },
        }, None);
        var added = await _shop.Get<PartsList>().AddAsync(owner, opened.Value, new JobPartDetails
        {
            Kind = PartKind.Accessory,
            Name = "Heater",
            Quantity = 1,
            Zone = VehicleZones.BootFloorRight,
            Data = new AccessoryData { WorkingAmperes = 40 },
        }, None);
        Assert.True(added.Succeeded, added.Message);
        return opened.Value;
    }

    public sealed class Host : IAsyncLifetime
    {
        public ShopApplication Shop { get; } = new();

        public Task InitializeAsync() => Shop.InitializeAsync();

        public Task DisposeAsync() => ((IAsyncLifetime)Shop).DisposeAsync();
    }
}
