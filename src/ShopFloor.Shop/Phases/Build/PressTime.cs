namespace ShopFloor.Shop.Phases.Build;

/// <summary>When a button was pressed. A tablet without Wi-Fi sends its presses later and says when they were made.</summary>
/// <param name="At">The instant to keep.</param>
/// <param name="SentLater">Whether it came in noticeably after it was pressed.</param>
public readonly record struct PressTime(DateTimeOffset At, bool SentLater)
{
    /// <summary>Longest a press may have waited for its own time to be believed: a working day.</summary>
    public static readonly TimeSpan LongestWait = TimeSpan.FromHours(12);

    private static readonly TimeSpan NoticedAfter = TimeSpan.FromMinutes(1);

    /// <summary>Believes the tablet's time when it lies within the last 12 hours; otherwise the server's own counts.</summary>
    public static PressTime Of(DateTimeOffset? madeAt, DateTimeOffset now) =>
        madeAt is { } made && made <= now && now - made <= LongestWait
            ? now - made > NoticedAfter ? new PressTime(made.ToUniversalTime(), true) : new PressTime(now, false)
            : new PressTime(now, false);
}
