using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Staff;

public sealed class ApiTokensTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    private ApiTokens Tokens => _shop.Get<ApiTokens>();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task A_token_acts_within_its_scope_and_nothing_beyond()
    {
        var token = await CreateAsync(form => form.Scope = [Permission.SeeJobs, Permission.EditJobCards]);

        var actor = await Tokens.ActorOfAsync(token.Text, CancellationToken.None);

        Assert.NotNull(actor);
        Assert.Equal(
            [Permission.SeeJobs, Permission.EditJobCards],
            Enum.GetValues<Permission>().Where(actor.May));
    }

    [Fact]
    public async Task An_expired_a_revoked_and_a_made_up_token_act_as_nobody()
    {
        var expiring = await CreateAsync(form => form.Days = 1);
        var revoked = await CreateAsync(form => form.Name = "revoked");
        await Tokens.RevokeAsync(_shop.Owner, revoked.Id, CancellationToken.None);

        Assert.NotNull(await Tokens.ActorOfAsync(expiring.Text, CancellationToken.None));
        Assert.Null(await Tokens.ActorOfAsync(revoked.Text, CancellationToken.None));
        Assert.Null(await Tokens.ActorOfAsync(ApiTokens.Prefix + new string('A', 43), CancellationToken.None));
        Assert.Null(await Tokens.ActorOfAsync(expiring.Text[ApiTokens.Prefix.Length..], CancellationToken.None));
        _shop.Time.Advance(TimeSpan.FromDays(1));
        Assert.Null(await Tokens.ActorOfAsync(expiring.Text, CancellationToken.None));
    }

    [Fact]
    public async Task A_token_in_a_persons_name_can_do_no_more_than_the_person_and_ends_with_them()
    {
        var people = _shop.Get<People>();
        var form = new PersonForm { DisplayName = "Tech", UserName = "tech", Role = ShopRole.Technician };
        var personId = (await people.AddAsync(_shop.Owner, form, null, CancellationToken.None)).Value;
        var token = await CreateAsync(wanted =>
        {
            wanted.PersonId = personId;
            wanted.Scope = [Permission.WorkOnJobs, Permission.SeeCosts];
        });

        var actor = await Tokens.ActorOfAsync(token.Text, CancellationToken.None);

        Assert.Equal(personId, actor?.Id);
        Assert.Equal([Permission.SeeJobs, Permission.WorkOnJobs], Enum.GetValues<Permission>().Where(permission => actor?.May(permission) == true));

        var draft = await people.GetAsync(_shop.Owner, personId, CancellationToken.None);
        draft!.Form.IsActive = false; // added above
        await people.EditAsync(_shop.Owner, personId, draft.Version, draft.Form, CancellationToken.None);

        Assert.Null(await Tokens.ActorOfAsync(token.Text, CancellationToken.None));
    }

    [Theory]
    [InlineData(Permission.ManageShop)]
    [InlineData(Permission.SignOffFindings)]
    public async Task A_token_can_neither_run_the_shop_nor_sign_for_a_person(Permission permission)
    {
        var outcome = await Tokens.CreateAsync(_shop.Owner, new ApiTokenForm { Name = "x", Scope = [permission] }, CancellationToken.None);

        Assert.Equal(nameof(ApiTokenForm.Scope), Assert.Single(outcome.Problems).Field);
    }

    [Fact]
    public async Task Only_an_owner_makes_tokens()
    {
        await Assert.ThrowsAsync<NotAllowedException>(() => Tokens.CreateAsync(_shop.Desk, new ApiTokenForm { Name = "x" }, CancellationToken.None));
        await Assert.ThrowsAsync<NotAllowedException>(() => Tokens.ListAsync(_shop.Technician, CancellationToken.None));
    }

    private async Task<CreatedApiToken> CreateAsync(Action<ApiTokenForm> change)
    {
        var form = new ApiTokenForm { Name = "test" };
        change(form);
        var outcome = await Tokens.CreateAsync(_shop.Owner, form, CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
        return outcome.Value;
    }
}
