namespace ShopFloor.Shop.Storage;

/// <summary>
/// Lets one writer in at a time, in order of arrival. SQLite has one writer anyway; waiting here is fair and short,
/// waiting there is by sleeping and retrying.
/// </summary>
public sealed class WriteGate : IDisposable
{
    private readonly SemaphoreSlim _gate = new(1, 1);

    public async Task<IDisposable> EnterAsync(CancellationToken cancellationToken)
    {
        await _gate.WaitAsync(cancellationToken);
        return new Lease(_gate);
    }

    public void Dispose() => _gate.Dispose();

    private sealed class Lease(SemaphoreSlim gate) : IDisposable
    {
        private SemaphoreSlim? _gate = gate;

        public void Dispose() => Interlocked.Exchange(ref _gate, null)?.Release();
    }
}
