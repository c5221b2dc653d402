using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;

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
    private volatile bool _cut;

    public LinkThatBreaks(Uri shop)
    {
        _shop = shop;
        _listener.Start();
        Address = new Uri($"http://127.0.0.1:{((IPEndPoint)_listener.LocalEndpoint).Port}");
        _accepting = AcceptAsync();
    }

    public Uri Address { get; }

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
            await Task.WhenAny(near.CopyToAsync(far, _ended.Token), far.CopyToAsync(near, _ended.Token));
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
