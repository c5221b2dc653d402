using AngleSharp.Dom;
using Bunit;
using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Layout;
using ShopFloor.Web.Settings;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Settings;

public sealed class ProcessorsPageTests : ComponentTest, IClassFixture<ProcessorsPageTests.Host>
{
    private readonly ShopApplication _shop;

    public ProcessorsPageTests(Host host)
    {
        _shop = host.Shop;
        Services.AddSingleton(_shop.Get<ProcessorProfiles>());
    }

    [Fact]
    public void A_copy_of_the_generic_one_is_kept_with_what_was_typed()
    {
        var page = Page();
        page.Find("[aria-label='Copy Generic processor']").Click();
        Field(page, "Name").Change("Ten outputs");
        Field(page, "Sample rate").Change("96");
        Field(page, "Filters of a channel").Change("31");
        Field(page, "Step of the delay").Change("10.4");
        Field(page, "Sign of a1 and a2").Change("1");
        Tick(page, "Linkwitz-Riley");
        Tick(page, "24");
        Tick(page, "12");
        Press(page, "Save processor");

        page.WaitForElement("[aria-label='Edit Ten outputs']");
        var kept = Kept("Ten outputs");
        Assert.Equal((96_000, 31, FeedbackSign.Added), (kept.SampleRateHertz, kept.FiltersPerChannel, kept.FeedbackSign));
        Assert.Equal(10.4e-6, kept.DelayStepSeconds!.Value, 1e-12); // typed above
        Assert.Equal([CrossoverShape.LinkwitzRiley], kept.Shapes);
        Assert.Equal([12, 24], kept.SlopesDecibelsPerOctave);
    }

    [Fact]
    public void What_cannot_be_is_told_at_its_field_and_nothing_is_kept()
    {
        var page = Page();
        Press(page, "New processor");
        Field(page, "Sample rate").Change("2");
        Assert.Contains("Accepted: 8 to 768", page.Find(".field-problem").TextContent, StringComparison.Ordinal);
        Press(page, "Save processor");
        Assert.Contains("Sample rate", page.Find("[role=alert]").TextContent, StringComparison.Ordinal);

        Field(page, "Sample rate").Change("48");
        Field(page, "Lowest Q").Change("20");
        Press(page, "Save processor");

        page.WaitForAssertion(() => Assert.Equal(2, page.FindAll(".field-problem").Count));
        Assert.Equal("true", Field(page, "Name").GetAttribute("aria-invalid"));
        Assert.Equal("true", Field(page, "Highest Q").GetAttribute("aria-invalid"));
    }

    [Fact]
    public async Task A_removed_processor_is_brought_back_as_it_was()
    {
        var outcome = await _shop.Get<ProcessorProfiles>().SaveAsync(_shop.Actor(ShopRole.Owner), null, ProcessorProfiles.Generic with { Name = "Old one", Channels = 6 }, UnitText.Invariant, default);
        Assert.True(outcome.Succeeded, outcome.Message);
        var page = Page();
        Assert.Empty(page.FindAll("[aria-label='Remove Generic processor']"));

        await page.Find("[aria-label='Remove Old one']").ClickAsync();
        page.WaitForAssertion(() => Assert.Empty(page.FindAll("[aria-label='Edit Old one']")));
        await page.Find("[aria-label='Bring back Old one']").ClickAsync();

        page.WaitForAssertion(() => Assert.Single(page.FindAll("[aria-label='Edit Old one']")));
        Assert.Equal(6, Kept("Old one").Channels);
        Assert.Empty(page.FindAll("[aria-label='Bring back Old one']"));
    }

    [Fact]
    public async Task The_limits_of_the_verification_are_typed_in_the_units_they_are_read_in()
    {
        var page = Page();
        await page.Find("section[aria-label='Limits of a tuning'] button").ClickAsync();
        Field(page, "Left and right differ by at most").Change("1");
        Field(page, "Arrivals differ by at most").Change("100 µs");
        Press(page, "Save");

        page.WaitForAssertion(() => Assert.Contains("0.1 ms", page.Find("section[aria-label='Limits of a tuning'] dl").TextContent, StringComparison.Ordinal));
        var kept = (await _shop.Get<ProcessorProfiles>().LimitsAsync(_shop.Actor(ShopRole.Technician), default)).Limits;
        Assert.Equal(1, kept.LeftRightDecibels);
        Assert.Equal(0.0001, kept.ArrivalSeconds, 1e-12);
    }

    private static void Press(IRenderedComponent<ProcessorsPage> page, string text) => page.FindAll("button").Single(button => button.TextContent.Trim() == text).Click();

    private static void Tick(IRenderedComponent<ProcessorsPage> page, string text) => page.FindAll("label.check").Single(label => label.TextContent.Trim() == text).QuerySelector("input")!.Change(true); // every mark has its box

    private static IElement Field(IRenderedComponent<ProcessorsPage> page, string label) =>
        page.Find($"#{page.FindAll("label[for]").Single(each => each.TextContent.Trim().StartsWith(label, StringComparison.Ordinal)).GetAttribute("for")}");

    private ProcessorProfile Kept(string name) => _shop.Get<ProcessorProfiles>().ListAsync(_shop.Actor(ShopRole.Owner), default).GetAwaiter().GetResult().Single(profile => profile.Name == name);

    private IRenderedComponent<ProcessorsPage> Page()
    {
        var page = Render<ProcessorsPage>(parameters => parameters.AddCascadingValue(new Viewer(_shop.Actor(ShopRole.Owner), UnitSystem.Metric, TimeZoneInfo.Utc, "EUR", "Shop")));
        page.WaitForElement("section[aria-label='Limits of a tuning']");
        return page;
    }

    public sealed class Host : IAsyncLifetime
    {
        public ShopApplication Shop { get; } = new();

        public Task InitializeAsync() => Shop.InitializeAsync();

        public Task DisposeAsync() => ((IAsyncLifetime)Shop).DisposeAsync();
    }
}
