using Microsoft.Extensions.Time.Testing;
using ShopFloor.Shop.Jobs;
using ShopFloor.Web.Live;

namespace ShopFloor.Web.Tests.Live;

public sealed class JobWatchTests
{
    private static readonly Guid Mine = Guid.CreateVersion7();
    private readonly FakeTimeProvider _time = new();
    private readonly JobChangeFeed _feed = new();
    private int _refreshes;

    [Fact]
    public void Many_saves_in_a_row_are_shown_at_most_five_times_a_second()
    {
        using var watch = Watch(() => Task.CompletedTask);

        for (var save = 0; save < 100; save++)
        {
            _feed.Publish(Changed(Mine));
            _time.Advance(TimeSpan.FromMilliseconds(10));
        }

        Assert.InRange(_refreshes, 1, 5);
    }

    [Fact]
    public void The_last_save_is_always_shown()
    {
        using var watch = Watch(() => Task.CompletedTask);
        _feed.Publish(Changed(Mine));
        _time.Advance(JobWatch.Soon);
        var before = _refreshes;

        _feed.Publish(Changed(Mine));
        _time.Advance(JobWatch.Soon);

        Assert.Equal(before + 1, _refreshes);
    }

    [Fact]
    public void A_save_while_reading_leads_to_another_reading_and_never_to_two_at_once()
    {
        var reading = new TaskCompletionSource();
        using var watch = Watch(() => reading.Task);
        _feed.Publish(Changed(Mine));
        _time.Advance(JobWatch.Soon);

        _feed.Publish(Changed(Mine));
        _time.Advance(JobWatch.Soon * 5);
        Assert.Equal(1, _refreshes);
        reading.SetResult();
        _time.Advance(JobWatch.Soon * 2);

        Assert.Equal(2, _refreshes);
    }

    [Fact]
    public void Saves_of_other_jobs_and_after_leaving_are_not_shown()
    {
        var watch = Watch(() => Task.CompletedTask);
        _feed.Publish(Changed(Guid.CreateVersion7()));
        _time.Advance(JobWatch.Soon);
        watch.Dispose();
        _feed.Publish(Changed(Mine));
        _time.Advance(JobWatch.Soon);

        Assert.Equal(0, _refreshes);
    }

    private JobWatch Watch(Func<Task> read) => new(
        _feed,
        change => change.JobIds.Contains(Mine) ? JobWatch.Soon : null,
        () =>
        {
            _refreshes++;
            return read();
        },
        _time);

    private static JobsChanged Changed(Guid jobId) => new(new HashSet<Guid> { jobId }, "Tom Tech");
}
