namespace ShopFloor.Shop.Demo;

/// <summary>A clock that is set by hand, so the demo's past happens in its order.</summary>
internal sealed class DemoClock(DateTimeOffset start, DateTimeOffset told) : TimeProvider
{
    // The story ends an hour before it is told: also at night, when today's working hours are still to come.
    private readonly DateTimeOffset _end = told.AddHours(-1);
    private DateTimeOffset _now = start;

    public override DateTimeOffset GetUtcNow() => _now;

    public void Set(DateTimeOffset instant) => _now = instant < _end ? instant : _end;

    public void Pass(TimeSpan time) => _now += time;
}
