using ShopFloor.Shop.Common;
using ShopFloor.Web.Layout;

namespace ShopFloor.Web.Tests.Layout;

public sealed class FieldSaverTests
{
    private readonly List<TaskCompletionSource> _held = [];
    private readonly List<string> _asked = [];
    private (Guid Version, Card Stored) _record = (Guid.CreateVersion7(), new Card());
    private bool _hold;
    private bool _keepMine = true;

    [Fact]
    public async Task A_field_left_while_another_is_being_saved_goes_with_the_next_save_and_conflicts_with_nothing()
    {
        var saver = Saver();
        _hold = true;
        saver.Draft.Belongings = "Pram";
        var first = saver.TouchAsync();
        saver.Draft.Notes = "Smells of dog";
        var second = await saver.TouchAsync();
        _hold = false;
        _held[0].SetResult();

        Assert.Null(second);
        Assert.True((await first)!.Succeeded);
        Assert.Equal(("Pram", "Smells of dog"), (_record.Stored.Belongings, _record.Stored.Notes));
        Assert.Empty(_asked);
    }

    [Fact]
    public async Task What_is_read_during_a_save_does_not_wipe_what_is_typed()
    {
        var saver = Saver();
        _hold = true;
        saver.Draft.Belongings = "Pram";
        var first = saver.TouchAsync();
        saver.Show(Guid.CreateVersion7(), new Card());
        _hold = false;
        _held[0].SetResult();
        await first;

        Assert.Equal("Pram", saver.Draft.Belongings);
    }

    [Fact]
    public async Task Somebody_elses_edit_is_asked_about()
    {
        var saver = Saver();
        _record = (Guid.CreateVersion7(), new Card { Notes = "Theirs" });
        saver.Draft.Notes = "Mine";

        Assert.True((await saver.TouchAsync())!.Succeeded);

        Assert.Equal("Notes", Assert.Single(_asked));
        Assert.Equal("Mine", _record.Stored.Notes);
    }

    [Fact]
    public async Task A_person_who_does_not_choose_keeps_the_draft_and_overwrites_nothing()
    {
        var saver = Saver();
        _record = (Guid.CreateVersion7(), new Card { Notes = "Theirs" });
        _keepMine = false;
        saver.Draft.Notes = "Mine";

        Assert.NotNull((await saver.TouchAsync())!.Conflict);

        Assert.Equal(("Mine", "Theirs"), (saver.Draft.Notes, _record.Stored.Notes));
    }

    [Fact]
    public void What_is_read_again_replaces_the_draft_when_it_is_newer()
    {
        var saver = Saver();

        saver.Show(Guid.CreateVersion7(), new Card { Notes = "Newer" });

        Assert.Equal("Newer", saver.Draft.Notes);
    }

    private FieldSaver<Card> Saver()
    {
        var saver = new FieldSaver<Card>
        {
            Save = async (expected, card) =>
            {
                if (_hold)
                {
                    _held.Add(new TaskCompletionSource());
                    await _held[^1].Task;
                }

                if (expected != _record.Version)
                    return new EditConflict("Card", "Dana", default, _record.Version, EditConflict.Compare(card, _record.Stored));
                _record = (Guid.CreateVersion7(), card);
                return Guid.Empty;
            },
            Load = () => Task.FromResult((_record.Version, new Card { Belongings = _record.Stored.Belongings, Notes = _record.Stored.Notes })),
            Ask = (conflict, _, _) =>
            {
                _asked.AddRange(conflict.Differences.Select(difference => difference.Field));
                return Task.FromResult(_keepMine);
            },
        };
        saver.Show(_record.Version, new Card());
        return saver;
    }

    private sealed class Card
    {
        public string Belongings { get; set; } = "";

        public string Notes { get; set; } = "";
    }
}
