namespace ShopFloor.Shop.Storage.Photos;

/// <summary>
/// Lets a fixed number of decodes run at a time; the rest wait in line. Pictures are the only large memory the server takes on a
/// stranger's word, so the bound holds for the whole process and not for one request.
/// </summary>
public sealed class PhotoDecodeGate(int places) : IDisposable
{
    private readonly SemaphoreSlim _free = new(places, places);

    // Only the first in line collects places: two large decodes holding one place each would wait for each other for ever.
    private readonly SemaphoreSlim _turn = new(1, 1);
    private int _waiting;

    /// <summary>The one gate of this process: two places.</summary>
    public static PhotoDecodeGate Process { get; } = new(2);

    /// <summary>How many decodes stand in line now.</summary>
    public int Waiting => Volatile.Read(ref _waiting);

    /// <summary>Runs <paramref name="work"/> on a pool thread once a place is free, or every place for a large picture.</summary>
    /// <exception cref="OperationCanceledException">Cancelled while waiting.</exception>
    public async Task<T> RunAsync<T>(Func<T> work, bool alone, CancellationToken cancellationToken)
    {
        var held = 0;
        try
        {
            Interlocked.Increment(ref _waiting);
            try
            {
                await _turn.WaitAsync(cancellationToken);
                try
                {
                    for (; held < (alone ? places : 1); held++)
                    {
                        await _free.WaitAsync(cancellationToken);
                    }
                }
                finally
                {
                    _turn.Release();
                }
            }
            finally
            {
                Interlocked.Decrement(ref _waiting);
            }

            return await Task.Run(work, cancellationToken);
        }
        finally
        {
            if (held > 0)
            {
                _free.Release(held);
            }
        }
    }

    public void Dispose()
    {
        _free.Dispose();
        _turn.Dispose();
    }
}
