namespace ShopFloor.Shop.Demo;

/// <summary>A clock that is set by hand, so the demo's past happens in its order.</summary>
internal sealed class DemoClock(DateTimeOffset now) : TimeProvider
{
    private DateTimeOffset _now = now;

    public override DateTimeOffset GetUtcNow() => _now;

    public void Set(DateTimeOffset instant) => _now = instant;

    public void Pass(TimeSpan time) => _now += time;
}
