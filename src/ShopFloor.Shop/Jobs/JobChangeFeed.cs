using System.Collections.Concurrent;

namespace ShopFloor.Shop.Jobs;

/// <summary>
/// Tells open screens that something was saved. Subscribers get it after the commit, on the saver's thread:
/// they only take note and read for themselves. In process; a shop with several servers would put a shared bus here.
/// </summary>
public sealed class JobChangeFeed
{
    private readonly ConcurrentDictionary<Guid, Action<JobsChanged>> _subscribers = new();

    public IDisposable Subscribe(Action<JobsChanged> onChange)
    {
        var key = Guid.CreateVersion7();
        _subscribers[key] = onChange;
        return new Subscription(() => _subscribers.TryRemove(key, out _));
    }

    public void Publish(JobsChanged change)
    {
        foreach (var subscriber in _subscribers.Values)
        {
            subscriber(change);
        }
    }

    private sealed class Subscription(Action end) : IDisposable
    {
        public void Dispose() => end();
    }
}

/// <param name="JobIds">The jobs that changed; empty when only things outside jobs did.</param>
/// <param name="By">Name of who did it.</param>
public sealed record JobsChanged(IReadOnlySet<Guid> JobIds, string By);
