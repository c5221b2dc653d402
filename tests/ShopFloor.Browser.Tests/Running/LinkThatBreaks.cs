using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using System.Threading.Channels;

namespace ShopFloor.Browser.Tests.Running;

/// <summary>
/// The Wi-Fi between a tablet and the shop: passes bytes on until it is cut, then drops what is open and lets nothing through.
/// </summary>
public sealed class LinkThatBreaks : IAsyncDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly ConcurrentDictionary<TcpClient, bool> _open = new();
    private readonly CancellationTokenSource _ended = new();
    private readonly Uri _shop;
    private readonly Task _accepting;
    private readonly Lock _turn = new();
    private volatile bool _cut;
    private TaskCompletionSource? _stalled;

    public LinkThatBreaks(Uri shop)
    {
        _shop = shop;
        _listener.Start();
        Address = new Uri($"http://127.0.0.1:{((IPEndPoint)_listener.LocalEndpoint).Port}");
        _accepting = AcceptAsync();
    }

    public Uri Address { get; }

    /// <summary>What each direction adds to every byte's way.</summary>
    public TimeSpan Latency { get; set; }

    /// <summary>Goes silent: connections stay open and new ones are taken, but nothing arrives any more.</summary>
    public void Stall()
    {
        lock (_turn)
            _stalled ??= new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
    }

    /// <summary>What was held back goes on, and all that follows.</summary>
    public void Flow()
    {
        lock (_turn)
        {
            _stalled?.SetResult();
            _stalled = null;
        }
    }

    public void Cut()
    {
        _cut = true;
        foreach (var client in _open.Keys)
            client.Dispose();
    }

    public void Mend() => _cut = false;

    public async ValueTask DisposeAsync()
    {
        await _ended.CancelAsync();
        Flow();
        Cut();
        _listener.Stop();
        await _accepting;
        _ended.Dispose();
    }

    private async Task AcceptAsync()
    {
        try
        {
            while (!_ended.IsCancellationRequested)
            {
                var tablet = await _listener.AcceptTcpClientAsync(_ended.Token);
                _ = PassAsync(tablet);
            }
        }
        catch (Exception over) when (over is OperationCanceledException or SocketException or ObjectDisposedException)
        {
            // The journey is over.
        }
    }

    // Bytes under way do not wait for those before them to arrive: a long way is not a narrow one.
    private async Task CarryAsync(Stream from, Stream to)
    {
        var underWay = Channel.CreateUnbounded<(byte[] Bytes, Task Arrival)>();
        var arriving = Task.Run(async () =>
        {
            await foreach (var (bytes, arrival) in underWay.Reader.ReadAllAsync(_ended.Token))
            {
                await arrival;
                Task held;
                lock (_turn)
                    held = _stalled?.Task ?? Task.CompletedTask;
                await held;
                await to.WriteAsync(bytes, _ended.Token);
            }
        });
        var chunk = new byte[65536];
        while (await from.ReadAsync(chunk, _ended.Token) is > 0 and var count)
            underWay.Writer.TryWrite((chunk[..count], Latency > TimeSpan.Zero ? Task.Delay(Latency, _ended.Token) : Task.CompletedTask));
        underWay.Writer.Complete();
        await arriving;
    }

    private async Task PassAsync(TcpClient tablet)
    {
        using var shop = new TcpClient();
        try
        {
            if (_cut)
                return;
            _open[tablet] = _open[shop] = true;
            await shop.ConnectAsync(_shop.Host, _shop.Port, _ended.Token);
            var (near, far) = (tablet.GetStream(), shop.GetStream());
            await Task.WhenAny(CarryAsync(near, far), CarryAsync(far, near));
        }
        catch (Exception dropped) when (dropped is IOException or SocketException or ObjectDisposedException or OperationCanceledException or InvalidOperationException)
        {
            // A cut link drops what it carried; both ends notice by themselves.
        }
        finally
        {
            _open.TryRemove(tablet, out _);
            _open.TryRemove(shop, out _);
            tablet.Dispose();
        }
    }
}
