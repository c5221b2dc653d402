using System.Globalization;
using System.Text;
using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class EnclosureTests(DemoShop shop)
{
    [Fact]
    public Task A_box_is_dragged_larger_and_the_curve_follows_a_surface_gives_its_volume() => shop.TellAsync(async journey =>
    {
        var owner = await journey.EnterAsync(Person.Owner, new Screen("1366", 1366, 768, false));
        var job = await owner.FindJobAsync(DemoJobs.InTuning);
        await owner.GoAsync($"/jobs/{job}/design");
        await owner.Button("Enclosures").ClickAsync();
        var curve = owner.Page.Locator("[data-plot=level] polyline").First;
        await curve.WaitForAsync();
        var before = await curve.GetAttributeAsync("points");

        // Driver data live with the part.
        await owner.Button("Enter driver data").ClickAsync();
        await owner.Field("Linear excursion one way (Xmax)").FillAsync("16");
        await owner.Part("Tarnum 250 dual-coil woofer").Or(owner.Page.Locator(".side-panel")).First.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).ClickAsync();
        await Expect(owner.Page.Locator(".side-panel")).ToHaveCountAsync(0);
        await owner.Button("Excursion").ClickAsync();
        await Expect(owner.Page.Locator("[data-plot=excursion]")).ToContainTextAsync("linear 16");

        var handle = owner.Page.Locator("[data-pad-handle]");
        await handle.ScrollIntoViewIfNeededAsync();
        var box = (await handle.BoundingBoxAsync())!;
        await owner.Page.Mouse.MoveAsync(box.X + 22, box.Y + 22);
        await owner.Page.Mouse.DownAsync();
        await owner.Page.Mouse.MoveAsync(box.X + 102, box.Y + 22, new() { Steps = 20 });
        await owner.Page.Mouse.UpAsync();
        await Expect(curve).Not.ToHaveAttributeAsync("points", before!);
        await Expect(owner.Page.GetByText("Not saved")).ToBeVisibleAsync();
        await handle.PressAsync("ArrowLeft");
        await journey.StepAsync(owner, "enclosure");
        await owner.Button("Discard").ClickAsync();
        await Expect(curve).ToHaveAttributeAsync("points", before!);

        await owner.Page.SetInputFilesAsync("[data-file-kind=Mesh] [data-file-input]", new FilePayload { Name = "inside.stl", MimeType = "model/stl", Buffer = Encoding.ASCII.GetBytes(Cube(300)) });
        // 0.3 m cubed is 27 l.
        await Expect(owner.Page.Locator(".data-point").Filter(new() { HasText = "Encloses" })).ToContainTextAsync("27");
        await owner.Page.GetByRole(AriaRole.Button, new() { Name = "Take as net volume of A" }).ClickAsync();
        // Less 2.4 l of the driver and 0.7 l of bracing.
        await Expect(owner.Page.GetByLabel("Net volume", new() { Exact = true })).ToHaveValueAsync(23.9.ToString(CultureInfo.InvariantCulture));
        // A wheel arch of 300 mm across and 100 mm deep takes π·0.3²/4·0.1 m³, 7.07 l.
        await owner.Page.GetByText("Shapes added or taken away").ClickAsync();
        await owner.Page.GetByRole(AriaRole.Button, new() { Name = "+ Cylinder" }).ClickAsync();
        await owner.Field("Diameter").FillAsync("300");
        await owner.Field("Length").FillAsync("100");
        await Expect(owner.Page.Locator("details.shape > summary")).ToContainTextAsync("7.07");
        // The cabin as measured is told in the plot's title.
        await Expect(owner.Page.Locator("[data-plot=level] figcaption")).ToContainTextAsync("cabin estimated");
        await owner.Page.SetInputFilesAsync("[data-file-kind=MeasurementTable] [data-file-input]", new FilePayload { Name = "car.txt", MimeType = "text/plain", Buffer = Encoding.ASCII.GetBytes("Hz\tdB\n10\t20\n40\t9\n100\t2\n200\t0\n") });
        await Expect(owner.Page.Locator("[data-plot=level] figcaption")).ToContainTextAsync("cabin measured");
        Assert.Equal(0, await owner.SidewaysAsync());

        var paper = await owner.Page.APIRequest.GetAsync(new Uri(new Uri(owner.Page.Url), $"/documents/jobs/{job}/enclosures.pdf").ToString());
        Assert.Equal("application/pdf", paper.Headers["content-type"]);
    });

    // Twelve triangles that face outwards.
    private static string Cube(int side)
    {
        int[][] faces = [[0, 2, 3, 1], [4, 5, 7, 6], [0, 1, 5, 4], [2, 6, 7, 3], [0, 4, 6, 2], [1, 3, 7, 5]];
        var text = new StringBuilder("solid cube\n");
        foreach (var face in faces)
        {
            foreach (var triangle in new[] { new[] { face[0], face[1], face[2] }, [face[0], face[2], face[3]] })
            {
                text.Append("facet normal 0 0 0\nouter loop\n");
                foreach (var corner in triangle)
                    text.Append(CultureInfo.InvariantCulture, $"vertex {(corner & 1) * side} {(corner >> 1 & 1) * side} {(corner >> 2) * side}\n");
                text.Append("endloop\nendfacet\n");
            }
        }

        return text.Append("endsolid cube\n").ToString();
    }
}
