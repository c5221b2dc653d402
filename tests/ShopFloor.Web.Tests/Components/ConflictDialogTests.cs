using Bunit;
using Microsoft.Extensions.DependencyInjection;
using MudBlazor;
using ShopFloor.Web.Components;

namespace ShopFloor.Web.Tests.Components;

public class ConflictDialogTests : ComponentTest
{
    private static readonly ConflictField[] Fields = [new("odometer", "Odometer", "48,210 km", "48,120 km"), new("fuel", "Fuel level", "", "Half")];

    [Fact]
    public async Task Saving_waits_until_every_field_is_chosen_and_returns_each_choice()
    {
        var provider = Render<MudDialogProvider>();
        var asked = await AskAsync(provider);
        Assert.True(Save(provider).HasAttribute("disabled"));

        provider.FindAll("input[type=radio]")[1].Change("on");
        Assert.Contains("1 field still to choose", provider.Markup);
        Assert.True(Save(provider).HasAttribute("disabled"));
        provider.FindAll("input[type=radio]")[2].Change("on");
        Assert.False(Save(provider).HasAttribute("disabled"));
        await Save(provider).ClickAsync(new());

        var choices = await asked;
        Assert.Equal(ConflictChoice.Theirs, choices!["odometer"]);
        Assert.Equal(ConflictChoice.Mine, choices["fuel"]);
    }

    [Theory]
    [InlineData("Keep all of mine", ConflictChoice.Mine)]
    [InlineData("Take all of Mara’s", ConflictChoice.Theirs)]
    public async Task One_press_takes_all(string words, ConflictChoice choice)
    {
        var provider = Render<MudDialogProvider>();
        var asked = await AskAsync(provider);

        await Button(provider, words).ClickAsync(new());
        await Save(provider).ClickAsync(new());

        Assert.All((await asked)!.Values, each => Assert.Equal(choice, each));
        Assert.Equal(2, (await asked)!.Count);
    }

    [Fact]
    public async Task Going_back_returns_nothing()
    {
        var provider = Render<MudDialogProvider>();
        var asked = await AskAsync(provider);

        await Button(provider, "Go back to editing").ClickAsync(new());

        Assert.Null(await asked);
    }

    [Fact]
    public async Task Both_values_are_shown_and_an_empty_one_is_said_to_be_empty()
    {
        var provider = Render<MudDialogProvider>();
        await AskAsync(provider);

        Assert.Equal(["48,210 km", "48,120 km", "(empty)", "Half"], provider.FindAll(".conflict-value").Select(value => value.TextContent));
        Assert.Contains("Mara saved this at 10:42", provider.Markup);
    }

    [Fact]
    public async Task A_reason_that_is_too_short_is_refused_and_kept()
    {
        var provider = Render<MudDialogProvider>();
        var dialogs = Services.GetRequiredService<IDialogService>();
        Task<string?> asked = Task.FromResult<string?>(null);
        await provider.InvokeAsync(() => { asked = ConfirmReasonDialog.AskAsync(dialogs, "Sign off", "The fuse stays.", "Sign off"); });
        provider.WaitForElement("textarea").Input("because");

        await Button(provider, "Sign off").ClickAsync(new());

        Assert.Contains("“because” is too short", provider.Find(".field-problem").TextContent);
        Assert.False(asked.IsCompleted);

        provider.Find("textarea").Input("  Agreed with the client on the phone.  ");
        await Button(provider, "Sign off").ClickAsync(new());

        Assert.Equal("Agreed with the client on the phone.", await asked);
    }

    private async Task<Task<IReadOnlyDictionary<string, ConflictChoice>?>> AskAsync(IRenderedComponent<MudDialogProvider> provider)
    {
        var dialogs = Services.GetRequiredService<IDialogService>();
        Task<IReadOnlyDictionary<string, ConflictChoice>?>? asked = null;
        await provider.InvokeAsync(() => { asked = ConflictDialog.AskAsync(dialogs, Fields, "Mara", "at 10:42"); });
        provider.WaitForElement(".conflict");
        return asked!; // Set by the call just above.
    }

    private static AngleSharp.Dom.IElement Save(IRenderedComponent<MudDialogProvider> provider) => Button(provider, "Save these choices");

    private static AngleSharp.Dom.IElement Button(IRenderedComponent<MudDialogProvider> provider, string words) =>
        provider.FindAll("button").Single(button => button.TextContent.Trim() == words);
}
