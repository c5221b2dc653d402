using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Staff;

public sealed class PinSignInTests : IAsyncLifetime
{
    private const string Pin = "704182";
    private const string WrongPin = "951268";

    private readonly TestShop _shop = new();
    private RegisteredTablet? _tablet;
    private Guid _person;

    private RegisteredTablet Tablet => _tablet ?? throw new InvalidOperationException("Registered before each test.");

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _tablet = (await _shop.Get<Tablets>().RegisterAsync(_shop.Owner, "Bay 1", CancellationToken.None)).Value;
        _person = await AddPersonAsync("tech");
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task The_right_PIN_on_a_registered_tablet_switches_the_person_in()
    {
        var outcome = await TryAsync(Pin);

        Assert.True(outcome.Succeeded, outcome.Message);
        Assert.Equal(_person, outcome.Value.PersonId);
        Assert.Equal("Bay 1", outcome.Value.TabletName);
    }

    [Fact]
    public async Task The_right_PIN_is_worth_nothing_without_a_registered_tablet()
    {
        foreach (var secret in new[] { null, "", "not a secret", Tablet.Secret[..^1] + (Tablet.Secret[^1] == 'A' ? 'B' : 'A') })
        {
            Assert.False((await TryAsync(Pin, secret)).Succeeded);
        }

        await _shop.Get<Tablets>().RevokeAsync(_shop.Owner, Tablet.Id, CancellationToken.None);

        Assert.Contains("not registered", (await TryAsync(Pin)).Message, StringComparison.Ordinal);
        Assert.Null(await _shop.Get<Tablets>().FindAsync(Tablet.Secret, CancellationToken.None));
    }

    [Fact]
    public async Task After_five_wrong_PINs_even_the_right_one_waits_and_the_message_says_how_long()
    {
        for (var miss = 0; miss < 5; miss++)
        {
            Assert.Equal("That was not the PIN.", (await TryAsync(WrongPin)).Message);
        }

        var early = await TryAsync(Pin);
        _shop.Time.Advance(TimeSpan.FromMinutes(1));
        var later = await TryAsync(Pin);

        Assert.Equal("Too many wrong PINs. Try again in 60 seconds, or ask an owner.", early.Message);
        Assert.True(later.Succeeded, later.Message);
    }

    [Fact]
    public async Task Ten_wrong_PINs_lock_until_an_owner_opens_it_and_the_lock_is_on_record()
    {
        var row = await MissUntilLockedAsync();

        Assert.True(row.PinLocked);
        _shop.Time.Advance(TimeSpan.FromDays(30));
        Assert.Contains("locked", (await TryAsync(Pin)).Message, StringComparison.Ordinal);

        await _shop.Get<People>().ResetPinLockAsync(_shop.Owner, _person, CancellationToken.None);

        Assert.True((await TryAsync(Pin)).Succeeded);
    }

    [Fact]
    public async Task One_persons_lock_leaves_their_colleague_free()
    {
        var colleague = await AddPersonAsync("colleague");
        await MissUntilLockedAsync();
        _shop.Time.Advance(TimeSpan.FromHours(1));

        var outcome = await _shop.Get<PinSignIn>().TryAsync(Tablet.Secret, colleague, Pin, CancellationToken.None);

        Assert.True(outcome.Succeeded, outcome.Message);
    }

    [Fact]
    public async Task Somebody_switched_off_or_unknown_gets_the_answer_of_a_wrong_PIN()
    {
        var people = _shop.Get<People>();
        var draft = await people.GetAsync(_shop.Owner, _person, CancellationToken.None);
        draft!.Form.IsActive = false; // added above
        await people.EditAsync(_shop.Owner, _person, draft.Version, draft.Form, CancellationToken.None);

        var off = await TryAsync(Pin);
        var unknown = await _shop.Get<PinSignIn>().TryAsync(Tablet.Secret, Guid.CreateVersion7(), Pin, CancellationToken.None);

        Assert.Equal("That was not the PIN.", off.Message);
        Assert.Equal("That was not the PIN.", unknown.Message);
    }

    private async Task<PersonRow> MissUntilLockedAsync()
    {
        for (var miss = 0; miss < 10; miss++)
        {
            await TryAsync(WrongPin);
            _shop.Time.Advance(TimeSpan.FromHours(1));
        }

        return (await _shop.Get<People>().ListAsync(_shop.Owner, CancellationToken.None)).Single(person => person.Id == _person);
    }

    private Task<Outcome<PinSession>> TryAsync(string pin) => TryAsync(pin, Tablet.Secret);

    private Task<Outcome<PinSession>> TryAsync(string pin, string? secret) => _shop.Get<PinSignIn>().TryAsync(secret, _person, pin, CancellationToken.None);

    private async Task<Guid> AddPersonAsync(string name)
    {
        var people = _shop.Get<People>();
        var added = await people.AddAsync(_shop.Owner, new PersonForm { DisplayName = name, UserName = name }, null, CancellationToken.None);
        Assert.True((await people.SetPinAsync(_shop.Owner, added.Value, Pin, CancellationToken.None)).Succeeded);
        return added.Value;
    }
}
