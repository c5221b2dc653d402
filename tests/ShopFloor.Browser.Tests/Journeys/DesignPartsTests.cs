using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class DesignPartsTests(DemoShop shop)
{
    private static readonly (string Part, string Heading)[] Parts =
    [
        ("Budgets", "Alternator with music playing"), ("Lighting and accessories", "Light strips"), ("Speaker and signal runs", "Loudspeakers"), ("Signal path", "Gain sheet"),
        ("Enclosures", "Side box in the boot"), ("Cut list and templates", "False floor and side box"), ("Composites and finish", "Trim over the side box"), ("Treatment and rattles", "Rattles"),
        ("Added weight", "Axles and wheels"), ("Restraint", "False floor with the amplifiers"), ("Service access", "How to reach it"),
    ];

    [Theory]
    [InlineData(1366, 768, false)]
    [InlineData(1024, 768, true)]
    [InlineData(390, 844, true)]
    public Task Every_part_fits_the_screen_and_the_finger(int width, int height, bool touch) => shop.TellAsync(async journey =>
    {
        var owner = await journey.EnterAsync(Person.Owner, new Screen($"{width}", width, height, touch));
        var job = await owner.FindJobAsync(DemoJobs.InTuning);
        await owner.GoAsync($"/jobs/{job}/design");
        foreach (var (part, heading) in Parts)
        {
            await owner.Button(part).ClickAsync();
            await Expect(owner.Page.GetByRole(AriaRole.Heading, new() { Name = heading }).First).ToBeVisibleAsync();
            Assert.True(await owner.SidewaysAsync() == 0, $"{part} at {width}: {await owner.WidestAsync()}");
            if (touch)
            {
                var small = await owner.Page.EvaluateAsync<string[]>("[...document.querySelectorAll('main button')].filter(each => each.offsetParent && each.getBoundingClientRect().height < 44).map(each => each.textContent.trim())");
                Assert.Empty(small);
            }

            await journey.StepAsync(owner, part);
        }
    });
}
