using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Staff;

public sealed class PeopleTests : IAsyncLifetime
{
    private const string Password = "violet-gravel-lantern";

    private readonly TestShop _shop = new();

    private People People => _shop.Get<People>();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task The_last_owner_who_can_sign_in_can_be_neither_demoted_nor_switched_off()
    {
        var owner = await AddAsync("first", ShopRole.Owner, Password);
        await AddAsync("without-password", ShopRole.Owner, null);

        foreach (var change in new Action<PersonForm>[] { form => form.Role = ShopRole.FrontDesk, form => form.IsActive = false })
        {
            var outcome = await EditAsync(owner, change);

            Assert.False(outcome.Succeeded);
            Assert.Contains("last owner", outcome.Message, StringComparison.Ordinal);
        }

        await AddAsync("second", ShopRole.Owner, Password);

        Assert.True((await EditAsync(owner, form => form.Role = ShopRole.FrontDesk)).Succeeded);
    }

    [Fact]
    public async Task A_change_of_role_or_a_switch_off_renews_the_security_stamp_and_a_new_name_does_not()
    {
        var id = await AddAsync("tech", ShopRole.Technician, Password);
        var before = await MemberAsync(id);

        await EditAsync(id, form => form.DisplayName = "Another Name");
        var renamed = await MemberAsync(id);
        await EditAsync(id, form => form.Role = ShopRole.FrontDesk);
        var promoted = await MemberAsync(id);
        await EditAsync(id, form => form.IsActive = false);
        var off = await MemberAsync(id);

        Assert.Equal(before.SecurityStamp, renamed.SecurityStamp);
        Assert.NotEqual(renamed.SecurityStamp, promoted.SecurityStamp);
        Assert.NotEqual(promoted.SecurityStamp, off.SecurityStamp);
    }

    [Theory]
    [InlineData(ShopRole.Technician)]
    [InlineData(ShopRole.FrontDesk)]
    public async Task Nobody_but_an_owner_touches_other_people(ShopRole role)
    {
        var id = await AddAsync("owner", ShopRole.Owner, Password);
        var actor = new Actor(Guid.CreateVersion7(), "Somebody", role, ActorVia.Desk);
        var form = new PersonForm { DisplayName = "X", UserName = "x" };

        await Assert.ThrowsAsync<NotAllowedException>(() => People.ListAsync(actor, CancellationToken.None));
        await Assert.ThrowsAsync<NotAllowedException>(() => People.GetAsync(actor, id, CancellationToken.None));
        await Assert.ThrowsAsync<NotAllowedException>(() => People.AddAsync(actor, form, null, CancellationToken.None));
        await Assert.ThrowsAsync<NotAllowedException>(() => People.EditAsync(actor, id, Guid.Empty, form, CancellationToken.None));
        await Assert.ThrowsAsync<NotAllowedException>(() => People.SetPasswordAsync(actor, id, Password, CancellationToken.None));
        await Assert.ThrowsAsync<NotAllowedException>(() => People.SetPinAsync(actor, id, "704182", CancellationToken.None));
        await Assert.ThrowsAsync<NotAllowedException>(() => People.ResetPinLockAsync(actor, id, CancellationToken.None));
    }

    [Fact]
    public async Task A_person_sets_their_own_password_at_the_desk_but_not_from_a_shared_tablet()
    {
        var id = await AddAsync("tech", ShopRole.Technician, Password);
        var atDesk = new Actor(id, "Tech", ShopRole.Technician, ActorVia.Desk);

        var own = await People.SetPasswordAsync(atDesk, id, "another-long-password", CancellationToken.None);

        Assert.True(own.Succeeded, own.Message);
        await Assert.ThrowsAsync<NotAllowedException>(
            () => People.SetPasswordAsync(atDesk with { Via = ActorVia.Tablet }, id, "another-long-password", CancellationToken.None));
    }

    [Theory]
    [InlineData("short", "has 5 characters")]
    [InlineData("aaaaaaaaaaaaaa", "different characters")]
    [InlineData("tech-tech-tech", "sign-in name")]
    [InlineData("password1234", "first anybody would try")]
    public async Task A_guessable_password_is_refused_without_repeating_it(string password, string because)
    {
        var id = await AddAsync("tech", ShopRole.Technician, null);

        var outcome = await People.SetPasswordAsync(_shop.Owner, id, password, CancellationToken.None);

        Assert.False(outcome.Succeeded);
        Assert.Contains(because, outcome.Message, StringComparison.Ordinal);
        Assert.DoesNotContain(password, outcome.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Secrets_never_reach_the_audit_trail_and_the_acts_do()
    {
        var id = await AddAsync("tech", ShopRole.Technician, Password);
        await People.SetPasswordAsync(_shop.Owner, id, "another-long-password", CancellationToken.None);
        await People.SetPinAsync(_shop.Owner, id, "704182", CancellationToken.None);

        var member = await MemberAsync(id);
        var trail = await _shop.Store.ReadAsync(db => db.AuditEntries.Where(entry => entry.SubjectId == id).ToListAsync(), CancellationToken.None);
        var text = string.Join('\n', trail.Select(entry => $"{entry.Action} {entry.SubjectName} {entry.ChangesJson} {entry.Reason}"));

        Assert.Contains(trail, entry => entry.Action == "PasswordSet");
        Assert.Contains(trail, entry => entry.Action == "PinSet");
        foreach (var secret in new[] { Password, "another-long-password", "704182", member.PasswordHash, member.PinHash, member.SecurityStamp })
        {
            Assert.DoesNotContain(secret!, text, StringComparison.Ordinal); // all were set above
        }
    }

    [Fact]
    public async Task Two_people_cannot_share_a_sign_in_name_in_any_spelling()
    {
        await AddAsync("tech", ShopRole.Technician, null);

        var outcome = await People.AddAsync(_shop.Owner, new PersonForm { DisplayName = "Other", UserName = "TECH" }, null, CancellationToken.None);

        Assert.Equal(nameof(PersonForm.UserName), Assert.Single(outcome.Problems).Field);
    }

    [Fact]
    public async Task The_second_edit_of_the_same_person_is_told_of_the_first()
    {
        var id = await AddAsync("tech", ShopRole.Technician, null);
        var opened = await DraftAsync(id);
        await EditAsync(id, form => form.CostPerHour = 41);
        opened.Form.DisplayName = "Second Edit";

        var outcome = await People.EditAsync(_shop.Owner, id, opened.Version, opened.Form, CancellationToken.None);

        Assert.NotNull(outcome.Conflict);
        Assert.Contains(outcome.Conflict.Differences, difference => difference.Field == nameof(PersonForm.CostPerHour));
    }

    private async Task<Guid> AddAsync(string userName, ShopRole role, string? password)
    {
        var outcome = await People.AddAsync(
            _shop.Owner, new PersonForm { DisplayName = userName, UserName = userName, Role = role, CostPerHour = 30 }, password, CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
        return outcome.Value;
    }

    private async Task<Outcome<Guid>> EditAsync(Guid id, Action<PersonForm> change)
    {
        var draft = await DraftAsync(id);
        change(draft.Form);
        return await People.EditAsync(_shop.Owner, id, draft.Version, draft.Form, CancellationToken.None);
    }

    private async Task<PersonDraft> DraftAsync(Guid id) =>
        await People.GetAsync(_shop.Owner, id, CancellationToken.None) ?? throw new InvalidOperationException("The person was just added.");

    private Task<StaffMember> MemberAsync(Guid id) => _shop.Store.ReadAsync(db => db.Users.SingleAsync(member => member.Id == id), CancellationToken.None);
}
