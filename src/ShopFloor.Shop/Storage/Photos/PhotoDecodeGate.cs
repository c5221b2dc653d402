namespace ShopFloor.Shop.Storage.Photos;

/// <summary>
/// Lets a fixed number of decodes run at a time; the rest wait in line. Pictures are the only large memory the server takes on a
/// stranger's word, so the bound holds for the whole process and not for one request.
/// </summary>
public sealed class PhotoDecodeGate(int places) : IDisposable
{
    private readonly SemaphoreSlim _free = new(places, places);
    private int _waiting;

    /// <summary>The one gate of this process: two at a time.</summary>
    public static PhotoDecodeGate Process { get; } = new(2);

    /// <summary>How many decodes stand in line now.</summary>
    public int Waiting => Volatile.Read(ref _waiting);

    /// <summary>Runs <paramref name="work"/> on a pool thread once a place is free.</summary>
    /// <exception cref="OperationCanceledException">Cancelled while waiting.</exception>
    public async Task<T> RunAsync<T>(Func<T> work, CancellationToken cancellationToken)
    {
        Interlocked.Increment(ref _waiting);
        try
        {
            await _free.WaitAsync(cancellationToken);
        }
        finally
        {
            Interlocked.Decrement(ref _waiting);
        }

        try
        {
            return await Task.Run(work, cancellationToken);
        }
        finally
        {
            _free.Release();
        }
    }

    public void Dispose() => _free.Dispose();
}
