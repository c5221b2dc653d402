using ShopFloor.Shop.Jobs;

namespace ShopFloor.Web.Live;

/// <summary>
/// Refreshes an open screen when something was saved: at most once in a while, never two at a time, and never on the saver's thread.
/// </summary>
public sealed class JobWatch : IDisposable
{
    private readonly Func<JobsChanged, TimeSpan?> _waitFor;
    private readonly Func<Task> _refresh;
    private readonly TimeProvider _time;
    private readonly IDisposable _subscription;
    private readonly ITimer _timer;
    private readonly Lock _gate = new();
    private DateTimeOffset? _due;
    private bool _refreshing;
    private bool _ended;

    /// <param name="feed">What was saved.</param>
    /// <param name="waitFor">How long a change may wait until it is shown; null when it does not concern this screen.</param>
    /// <param name="refresh">Reads and draws anew; the screen dispatches to its own thread.</param>
    /// <param name="time">The clock.</param>
    public JobWatch(JobChangeFeed feed, Func<JobsChanged, TimeSpan?> waitFor, Func<Task> refresh, TimeProvider time)
    {
        _waitFor = waitFor;
        _refresh = refresh;
        _time = time;
        _timer = time.CreateTimer(_ => _ = RunAsync(), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
        _subscription = feed.Subscribe(OnSaved);
    }

    /// <summary>The shortest time between two refreshes: five a second.</summary>
    public static readonly TimeSpan Soon = TimeSpan.FromMilliseconds(200);

    /// <summary>For what only changes counts: one refresh in two seconds.</summary>
    public static readonly TimeSpan Calm = TimeSpan.FromSeconds(2);

    public void Dispose()
    {
        _subscription.Dispose();
        lock (_gate)
        {
            _ended = true;
        }

        _timer.Dispose();
    }

    private void OnSaved(JobsChanged change)
    {
        if (_waitFor(change) is not { } wait)
        {
            return;
        }

        lock (_gate)
        {
            var due = _time.GetUtcNow() + wait;
            if (!_ended && (_due is null || due < _due))
            {
                _due = due;
                if (!_refreshing)
                {
                    _timer.Change(wait, Timeout.InfiniteTimeSpan);
                }
            }
        }
    }

    private async Task RunAsync()
    {
        lock (_gate)
        {
            if (_ended || _refreshing)
            {
                return;
            }

            _refreshing = true;
            _due = null;
        }

        try
        {
            await _refresh();
        }
        catch (Exception ended) when (ended is OperationCanceledException or ObjectDisposedException)
        {
            // The page was left meanwhile.
        }

        lock (_gate)
        {
            _refreshing = false;
            if (_due is { } due && !_ended)
            {
                // What came in while reading is shown next, not lost.
                var wait = due - _time.GetUtcNow();
                _timer.Change(wait < Soon ? Soon : wait, Timeout.InfiniteTimeSpan);
            }
        }
    }
}
