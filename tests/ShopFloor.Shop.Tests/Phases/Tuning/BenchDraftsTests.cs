using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Shop.Phases.Tuning.Presets;

namespace ShopFloor.Shop.Tests.Phases.Tuning;

public sealed class BenchDraftsTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    private BenchDrafts Drafts => _shop.Get<BenchDrafts>();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public void Unsaved_changes_wait_for_their_own_person_on_their_own_job()
    {
        var job = Guid.CreateVersion7();

        Drafts.Set(_shop.Technician, job, Draft("first"));
        Drafts.Set(_shop.Technician, job, Draft("second"));

        var left = Drafts.Find(_shop.Technician, job);
        Assert.Equal("second", left?.Draft.Note);
        Assert.Equal(_shop.Time.GetUtcNow(), left?.At);
        Assert.Null(Drafts.Find(_shop.Owner, job));
        Assert.Null(Drafts.Find(_shop.Technician, Guid.CreateVersion7()));
    }

    [Fact]
    public void What_was_kept_or_thrown_away_does_not_come_back()
    {
        var job = Guid.CreateVersion7();
        Drafts.Set(_shop.Technician, job, Draft("mine"));

        Drafts.Set(_shop.Technician, job, null);

        Assert.Null(Drafts.Find(_shop.Technician, job));
    }

    [Fact]
    public void Of_very_many_the_oldest_goes_first()
    {
        var jobs = Enumerable.Range(0, 201).Select(_ => Guid.CreateVersion7()).ToList();
        foreach (var job in jobs)
        {
            Drafts.Set(_shop.Technician, job, Draft("x"));
            _shop.Time.Advance(TimeSpan.FromSeconds(1));
        }

        Assert.Null(Drafts.Find(_shop.Technician, jobs[0]));
        Assert.NotNull(Drafts.Find(_shop.Technician, jobs[1]));
        Assert.NotNull(Drafts.Find(_shop.Technician, jobs[^1]));
    }

    private static PresetDraft Draft(string note) => new() { Name = "Driver's seat", Note = note, Profile = ProcessorProfiles.Generic, Target = TargetCurve.BuiltIn[0], Channels = [] };
}
