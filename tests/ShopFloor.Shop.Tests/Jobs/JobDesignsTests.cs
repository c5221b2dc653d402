using System.ComponentModel.DataAnnotations;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Jobs;

public sealed class JobDesignsTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    private JobDesigns Designs => _shop.Get<JobDesigns>();

    [Fact]
    public async Task A_design_is_kept_whole_and_listed_in_the_order_it_was_begun()
    {
        var jobId = await _shop.OpenJobAsync();
        await AddAsync(jobId, "Boot box", 24);
        // Ids are in order from one millisecond to the next.
        _shop.Time.Advance(TimeSpan.FromMilliseconds(1));
        await AddAsync(jobId, "Seat box", 12);

        var listed = await Designs.ListAsync<Box>(_shop.Technician, jobId, CancellationToken.None);

        Assert.Equal([("Boot box", 24.0), ("Seat box", 12.0)], listed.Select(design => (design.Name, design.Form.Litres)));
    }

    [Fact]
    public async Task A_form_that_is_refused_is_not_kept()
    {
        var jobId = await _shop.OpenJobAsync();

        var outcome = await Designs.AddAsync(_shop.Owner, jobId, " ", new Box { Litres = -1 }, CancellationToken.None);

        Assert.Equal(["Name", "Litres"], outcome.Problems.Select(problem => problem.Field));
        Assert.Empty(await Designs.ListAsync<Box>(_shop.Owner, jobId, CancellationToken.None));
    }

    [Fact]
    public async Task The_second_of_two_editors_is_shown_both_versions()
    {
        var jobId = await _shop.OpenJobAsync();
        var id = await AddAsync(jobId, "Boot box", 24);
        var seen = (await Designs.FindAsync<Box>(_shop.Owner, id, CancellationToken.None))!; // just added
        Assert.True((await Designs.EditAsync(_shop.Desk, id, seen.Version, "Boot box", new Box { Litres = 30 }, CancellationToken.None)).Succeeded);

        var late = await Designs.EditAsync(_shop.Owner, id, seen.Version, "Boot box", new Box { Litres = 20 }, CancellationToken.None);

        Assert.Equal(("20", "30"), late.Conflict!.Differences.Select(difference => (difference.Mine, difference.Theirs)).Single()); // a conflict, or the test fails here
        Assert.Equal(30, (await Designs.FindAsync<Box>(_shop.Owner, id, CancellationToken.None))!.Form.Litres);
    }

    [Fact]
    public async Task A_design_taken_away_can_be_brought_back()
    {
        var jobId = await _shop.OpenJobAsync();
        var id = await AddAsync(jobId, "Boot box", 24);

        Assert.True((await Designs.RemoveAsync<Box>(_shop.Owner, id, CancellationToken.None)).Succeeded);
        Assert.Empty(await Designs.ListAsync<Box>(_shop.Owner, jobId, CancellationToken.None));
        Assert.Equal("Boot box", Assert.Single(await Designs.RemovedAsync<Box>(_shop.Owner, jobId, CancellationToken.None)).Name);

        Assert.True((await Designs.BringBackAsync<Box>(_shop.Owner, id, CancellationToken.None)).Succeeded);
        Assert.Single(await Designs.ListAsync<Box>(_shop.Owner, jobId, CancellationToken.None));
    }

    [Fact]
    public async Task Whoever_may_not_design_is_refused()
    {
        var jobId = await _shop.OpenJobAsync();

        await Assert.ThrowsAsync<NotAllowedException>(() => Designs.AddAsync(_shop.Technician, jobId, "Boot box", new Box { Litres = 24 }, CancellationToken.None));
    }

    [Fact]
    public async Task The_record_tells_a_change_by_the_name_on_the_form()
    {
        var jobId = await _shop.OpenJobAsync();
        var id = await AddAsync(jobId, "Boot box", 24);
        var seen = (await Designs.FindAsync<Box>(_shop.Owner, id, CancellationToken.None))!; // just added
        await Designs.EditAsync(_shop.Owner, id, seen.Version, "Boot box", new Box { Litres = 30 }, CancellationToken.None);

        var record = await _shop.Get<JobRecord>().OfJobAsync(_shop.Owner, jobId, null, CancellationToken.None);

        Assert.Contains(record.Lines, line => line.Headline == "changed Enclosure 'Boot box'" && line.Changes.SequenceEqual(["Litres: 24 → 30"]));
    }

    private async Task<Guid> AddAsync(Guid jobId, string name, double litres) =>
        (await Designs.AddAsync(_shop.Owner, jobId, name, new Box { Litres = litres }, CancellationToken.None)).Value;

    private sealed record Box : IDesignForm
    {
        public static DesignKind Kind => DesignKind.Enclosure;

        public static Permission Needed => Permission.DesignJobs;

        [Display(Name = "Litres")]
        public double Litres { get; set; }

        public List<Problem> Problems() => new Check().Range(Litres, nameof(Litres), "The volume", 1, 500, "L").Problems;
    }
}
