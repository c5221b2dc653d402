using Microsoft.Playwright;
using ShopFloor.Browser.Tests.Running;
using ShopFloor.Shop.Staff;
using static Microsoft.Playwright.Assertions;

namespace ShopFloor.Browser.Tests.Journeys;

[Collection(DemoShopGroup.Name)]
public sealed class FrontDeskTests(DemoShop shop)
{
    // The ninth character is the check digit by 49 CFR 565.15(c), worked out by hand: 7 is right for this number, 2 is wrong.
    private const string RightNumber = "9ZZAA1BB7C1000417";
    private const string WrongNumber = "9ZZAA1BB2C1000417";

    [Fact]
    public Task The_front_desk_signs_in_and_a_wrong_password_is_told_with_the_name_kept() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync("desk", Screen.Desktop);
        desk.Expect("401");
        await desk.GoAsync("/board");
        await desk.Field("Sign-in name").FillAsync(Person.Desk.UserName);
        await desk.Field("Password").FillAsync("not this one at all");
        await desk.Button("Sign in").ClickAsync();

        await Expect(desk.Page.GetByRole(AriaRole.Alert).First).ToContainTextAsync("do not fit together");
        await Expect(desk.Field("Sign-in name")).ToHaveValueAsync(Person.Desk.UserName);

        await desk.Field("Password").FillAsync(DemoPeople.Password);
        await desk.Button("Sign in").ClickAsync();
        await Expect(desk.Heading("Board")).ToBeVisibleAsync();
        await Expect(desk.Page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("/board$"));
        await journey.StepAsync(desk, "board");
    });

    [Fact]
    public Task A_job_is_opened_for_a_new_client_after_a_wrong_vehicle_number_was_put_right() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        await desk.GoAsync("/jobs/new");
        await desk.Field("Name").FillAsync("Wanda Ostrel");
        await desk.Field("Phone").FillAsync("555 0199");
        await desk.Field("Make").FillAsync("Halden");
        await desk.Field("Model").FillAsync("Marsk");
        await desk.Field("Vehicle identification number").FillAsync(WrongNumber);
        await Expect(desk.Field("Vehicle identification number")).ToHaveAttributeAsync("aria-invalid", "true");
        await desk.Field("Short title").FillAsync("Wide stage, small boot");
        await desk.Button("Open the job").ClickAsync();

        await Expect(desk.Field("Vehicle identification number")).ToHaveAccessibleDescriptionAsync(new System.Text.RegularExpressions.Regex("check|ninth"));
        await Expect(desk.Field("Vehicle identification number")).ToHaveValueAsync(WrongNumber);
        await Expect(desk.Field("Name")).ToHaveValueAsync("Wanda Ostrel");
        await Expect(desk.Field("Reason to take this number all the same")).ToBeVisibleAsync();
        await journey.StepAsync(desk, "wrong-number");

        await desk.Field("Vehicle identification number").FillAsync(RightNumber);
        await Expect(desk.Field("Vehicle identification number")).Not.ToHaveAttributeAsync("aria-invalid", "true");
        await desk.SendJobAsync();
        await Expect(desk.Part("Vehicle")).ToContainTextAsync(RightNumber);
        await Expect(desk.Part("Client")).ToContainTextAsync("Wanda Ostrel");
        await journey.StepAsync(desk, "opened");
    });

    [Fact]
    public Task A_client_already_on_file_is_offered_while_the_name_is_typed_and_taken_over_with_the_car() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Desktop);
        await desk.GoAsync("/jobs/new");
        await desk.Field("Name").PressSequentiallyAsync("Jasper Okon");
        var offer = desk.Page.GetByRole(AriaRole.Button).Filter(new() { HasText = "Jasper Okonvale" });
        await Expect(offer).ToBeVisibleAsync();
        await journey.StepAsync(desk, "offered");
        await offer.ClickAsync();
        await desk.Page.GetByRole(AriaRole.Button).Filter(new() { HasText = "MB 417 Q" }).ClickAsync();
        await desk.Field("Short title").FillAsync("A year later: more bass");
        await desk.SendJobAsync();

        await Expect(desk.Part("Client")).ToContainTextAsync("Jasper Okonvale");
        await Expect(desk.Part("Vehicle")).ToContainTextAsync("MB 417 Q");
    });

    [Fact]
    public Task The_car_is_checked_in_and_what_the_client_signed_is_closed() => shop.TellAsync(async journey =>
    {
        var desk = await journey.EnterAsync(Person.Desk, Screen.Tablet);
        var job = await desk.OpenJobAsync("Check-in with everything", "Perdita Sand", "MB 001 K");
        await desk.Button("Check-in").ClickAsync();

        await desk.Button("Dent").ClickAsync();
        await desk.Field("Note for the next mark").FillAsync("4 cm, no paint lost");
        await desk.Page.Locator("[data-outline]").ClickAsync(new() { Position = new() { X = 200, Y = 180 } });
        await Expect(desk.Page.Locator(".outline-list li")).ToHaveCountAsync(1);
        await Expect(desk.Page.Locator(".outline-list li").First).ToContainTextAsync("4 cm, no paint lost");
        await desk.Button("Add mark there").ClickAsync();
        await Expect(desk.Page.Locator(".outline-list li")).ToHaveCountAsync(2);
        await journey.StepAsync(desk, "marks");

        await desk.Page.Locator("input[type=file]").SetInputFilesAsync(TestFiles.Photo());
        await Expect(desk.Page.GetByRole(AriaRole.Button, new() { Name = "Check-in photo" }).Or(desk.Page.GetByRole(AriaRole.Link, new() { Name = "Check-in photo" })).Or(desk.Page.GetByAltText("Check-in photo")).First).ToBeVisibleAsync();
        desk.Expect("422|400|415");
        await desk.Page.Locator("input[type=file]").SetInputFilesAsync(TestFiles.NoPhoto());
        await Expect(desk.Page.Locator(".notice").Filter(new() { HasText = "holiday.jpg" })).ToBeVisibleAsync();
        await journey.StepAsync(desk, "no-photo");
        await desk.Page.Locator(".notice").Filter(new() { HasText = "holiday.jpg" }).GetByRole(AriaRole.Button, new() { Name = "Close" }).ClickAsync();

        await desk.Field("Battery voltage, engine off").FillAsync("12.6");
        await desk.Field("Fuel or charge").FillAsync("55");
        await desk.Page.GetByLabel("Airbag", new() { Exact = true }).CheckAsync();
        await desk.Field("Belongings left in the car").FillAsync("Two umbrellas");
        await desk.Field("Notes").FillAsync("Wet inside");
        await desk.Field("Notes").BlurAsync();
        await Expect(desk.Page.GetByText(new System.Text.RegularExpressions.Regex("^Saved \\d\\d:\\d\\d:\\d\\d$"))).ToBeVisibleAsync();

        await desk.Button("Factory functions").ClickAsync();
        var count = desk.Page.Locator(".function-count");
        await Expect(count).ToContainTextAsync("0 of");
        await desk.Page.Locator(".function").First.GetByRole(AriaRole.Group, new() { Name = "Before" }).GetByRole(AriaRole.Button, new() { Name = "Works" }).ClickAsync();
        await Expect(count).ToContainTextAsync("Before: 1 of");
        await desk.Page.Locator(".function").Nth(1).GetByRole(AriaRole.Group, new() { Name = "Before" }).GetByRole(AriaRole.Button, new() { Name = "Faulty" }).ClickAsync();
        await Expect(count).ToContainTextAsync("Before: 2 of");
        await journey.StepAsync(desk, "functions");

        await desk.Button("Check-in").ClickAsync();
        await Expect(desk.Field("Battery voltage, engine off")).ToHaveValueAsync("12.6");
        await Expect(desk.Field("Belongings left in the car")).ToHaveValueAsync("Two umbrellas");
        await Expect(desk.Button("Sign the check-in")).ToBeDisabledAsync();
        await desk.SignByHandAsync();
        await desk.Button("Sign the check-in").ClickAsync();

        await Expect(desk.Page.GetByText("Signed by Perdita Sand")).ToBeVisibleAsync();
        await Expect(desk.Field("Battery voltage, engine off")).ToBeDisabledAsync();
        await Expect(desk.Button("Add mark there")).ToHaveCountAsync(0);
        await Expect(desk.Page.Locator("input[type=file]")).ToHaveCountAsync(0);
        await desk.Page.Locator("main").EvaluateAsync("main => scrollTo(0, 0)");
        await journey.StepAsync(desk, "signed");

        var paper = await desk.Page.APIRequest.GetAsync($"/documents/jobs/{job}/check-in.pdf");
        Assert.Equal(200, paper.Status);
        var words = Pdf.Words(await paper.BodyAsync());
        Assert.Contains("Perdita Sand", words);
        Assert.Contains("Two umbrellas", words);
        Assert.Contains("no paint lost", words);
    });
}
