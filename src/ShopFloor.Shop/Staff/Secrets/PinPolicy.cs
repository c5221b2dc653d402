namespace ShopFloor.Shop.Staff.Secrets;

/// <summary>How many tries are let through.</summary>
/// <param name="FreeMisses">Misses in a row that cost no delay.</param>
/// <param name="FirstDelay">Delay after the last free miss; each further miss doubles it.</param>
/// <param name="LongestDelay">Where doubling stops.</param>
/// <param name="LockAfter">Misses in a row that lock until an owner resets; null for never.</param>
/// <param name="Allowance">Misses that may come in one burst even with successes between them.</param>
/// <param name="AllowanceReturns">How long it takes for one of the allowance to come back.</param>
public sealed record PinPolicy(
    int FreeMisses,
    TimeSpan FirstDelay,
    TimeSpan LongestDelay,
    int? LockAfter,
    int Allowance,
    TimeSpan AllowanceReturns)
{
    /// <summary>At most 8 + 2 = 10 misses within any hour, 10 in a row altogether.</summary>
    public static PinPolicy Person { get; } = new(5, TimeSpan.FromMinutes(1), TimeSpan.FromMinutes(16), 10, 8, TimeSpan.FromMinutes(30));

    /// <summary>At most 24 + 6 = 30 misses within any hour. A shared tablet is never locked: that would stop the whole bay.</summary>
    public static PinPolicy Device { get; } = new(5, TimeSpan.FromMinutes(1), TimeSpan.FromMinutes(16), null, 24, TimeSpan.FromMinutes(10));
}
