using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Staff;

public sealed class FirstOwnerTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    private FirstOwner FirstOwner => _shop.Get<FirstOwner>();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task The_code_of_the_console_makes_the_first_owner_once()
    {
        Assert.True(await FirstOwner.IsNeededAsync(CancellationToken.None));

        var first = await FirstOwner.SetUpAsync(Form(), CancellationToken.None);
        var second = await FirstOwner.SetUpAsync(Form(form => form.UserName = "stranger"), CancellationToken.None);

        Assert.True(first.Succeeded, first.Message);
        Assert.Contains("already set up", second.Message, StringComparison.Ordinal);
        Assert.False(await FirstOwner.IsNeededAsync(CancellationToken.None));
        Assert.Equal(ShopRole.Owner, Assert.Single(await _shop.Get<People>().ListAsync(_shop.Owner, CancellationToken.None)).Role);
    }

    [Fact]
    public async Task A_stranger_cannot_guess_the_code_and_after_ten_tries_even_the_right_one_is_refused()
    {
        for (var miss = 0; miss < 10; miss++)
        {
            var wrong = await FirstOwner.SetUpAsync(Form(form => form.SetUpCode = "AAAAA-AAAAA"), CancellationToken.None);
            Assert.Equal(nameof(FirstOwnerForm.SetUpCode), Assert.Single(wrong.Problems).Field);
        }

        var right = await FirstOwner.SetUpAsync(Form(), CancellationToken.None);

        Assert.Contains("Too many wrong codes", right.Message, StringComparison.Ordinal);
        Assert.True(await FirstOwner.IsNeededAsync(CancellationToken.None));
    }

    private FirstOwnerForm Form(Action<FirstOwnerForm>? change = null)
    {
        var form = new FirstOwnerForm
        {
            SetUpCode = FirstOwner.SetUpCode.ToLowerInvariant(),
            ShopName = "Copper Bay",
            DisplayName = "First Owner",
            UserName = "first",
            Password = "violet-gravel-lantern",
        };
        change?.Invoke(form);
        return form;
    }
}
