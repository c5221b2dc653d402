using Microsoft.Playwright;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Browser.Tests.Running;

/// <summary>One story with one or more people at screens of their own.</summary>
public sealed class Journey(DemoShop shop, string name) : IAsyncDisposable
{
    private static readonly bool KeepSteps = Environment.GetEnvironmentVariable("SHOPFLOOR_SHOTS") == "1";
    private readonly List<Visitor> _visitors = [];

    /// <summary>Somebody who signed in with a password.</summary>
    public async Task<Visitor> EnterAsync(Person person, Screen screen, Uri? through = null) =>
        await OpenAsync(person.UserName, screen, await shop.SignedInAsync(person), through);

    /// <summary>Somebody who signed in with a password, at another browser than that of the other journeys.</summary>
    public async Task<Visitor> EnterAsync(Person person, Screen screen, IBrowser browser, params string[] permissions) =>
        await OpenAsync(person.UserName, screen, await shop.SignedInAsync(person), null, browser, permissions);

    /// <summary>Somebody without any sign-in: a client, a stranger.</summary>
    public Task<Visitor> EnterAsync(string who, Screen screen) => OpenAsync(who, screen, null, null);

    /// <summary>Somebody whose browser already keeps something, such as a client's link.</summary>
    public Task<Visitor> EnterWithAsync(string who, Screen screen, string state) => OpenAsync(who, screen, state, null);

    /// <summary>A technician at the registered tablet, by PIN.</summary>
    public async Task<Visitor> TakeTabletAsync(Person person, Uri? through = null)
    {
        var visitor = await OpenAsync(person.UserName, Screen.Tablet, await shop.RegisteredTabletAsync(), through);
        await visitor.GoAsync("/tablet");
        await visitor.Link(person.Name).ClickAsync();
        foreach (var digit in DemoPeople.Pin)
            await visitor.Button(digit.ToString()).ClickAsync(); // the sixth sends it

        await visitor.Page.GetByRole(AriaRole.Heading, new() { Name = "Your work", Level = 1 }).WaitForAsync();
        return visitor;
    }

    /// <summary>A picture of a main step, when pictures were asked for.</summary>
    public async Task StepAsync(Visitor visitor, string step)
    {
        if (KeepSteps)
            await visitor.KeepPictureAsync($"{name}-{step}", wholePage: false);
    }

    /// <summary>Fails when any browser had something to complain about.</summary>
    public void DemandQuiet()
    {
        var complaints = _visitors.SelectMany(visitor => visitor.Complaints.Select(complaint => $"{visitor.Who}: {complaint}")).ToList();
        Assert.True(complaints.Count == 0, $"The browser complained:\n{string.Join('\n', complaints)}");
    }

    public async Task KeepPicturesAsync()
    {
        foreach (var visitor in _visitors)
            await visitor.KeepPictureAsync($"failed-{name}-{visitor.Who}", wholePage: true);
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var visitor in _visitors)
            await visitor.Page.Context.DisposeAsync();
    }

    private async Task<Visitor> OpenAsync(string who, Screen screen, string? state, Uri? through, IBrowser? browser = null, string[]? permissions = null)
    {
        var context = await (browser ?? shop.Browser).NewContextAsync(new(screen.Options) { StorageState = state, BaseURL = (through ?? shop.Address).ToString(), Permissions = permissions });
        context.SetDefaultTimeout(20_000);
        context.SetDefaultNavigationTimeout(40_000);
        var visitor = new Visitor(who, screen, await context.NewPageAsync());
        _visitors.Add(visitor);
        return visitor;
    }
}
