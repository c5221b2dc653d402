using System.Globalization;

namespace ShopFloor.Shop.Staff.Secrets;

/// <summary>
/// Slows down guessing of PINs, by person and by device. No clock and no storage: state in, decision out.
/// </summary>
/// <remarks>
/// Order of use, inside one transaction per person and device so that two tries at once cannot share a place:
/// <see cref="Ask"/>, store both counters (the try already counts as a miss, so a crash or a cut connection wins nothing), check the
/// PIN, and only if it was right <see cref="Succeed"/> and store again. Knows nothing of passwords: an owner signs in with his
/// password whatever happened to his PIN.
/// The allowance is a leaky bucket (the generic cell rate algorithm of ITU-T I.371): a success ends the row of misses but does not
/// refill it, so somebody who guesses between a colleague's honest sign-ins is held to the same number in an hour.
/// </remarks>
public sealed class PinGuard(PinPolicy personPolicy, PinPolicy devicePolicy)
{
    public static PinGuard Standard { get; } = new(PinPolicy.Person, PinPolicy.Device);

    /// <summary>Asks for one try at <paramref name="now"/>. Store both counters of the answer whether it was allowed or not.</summary>
    public PinDecision Ask(PinCounter person, PinCounter device, DateTimeOffset now)
    {
        person = WithinReach(person, personPolicy, now);
        device = WithinReach(device, devicePolicy, now);
        if (person.Locked)
        {
            return new PinDecision(false, person, device, null, "This PIN is locked after too many wrong tries. An owner can reset it.");
        }

        var personFrom = OpenFrom(person, personPolicy, now);
        var deviceFrom = OpenFrom(device, devicePolicy, now);
        var from = personFrom > deviceFrom ? personFrom : deviceFrom;
        return from > now
            ? new PinDecision(false, person, device, from, $"Too many wrong PINs. Try again in {Wait(from - now)}, or ask an owner.")
            : new PinDecision(true, Count(person, personPolicy, now), Count(device, devicePolicy, now), null, string.Empty);
    }

    /// <summary>The PIN was right: the row of misses ends and this try is taken off the allowance again.</summary>
    public (PinCounter Person, PinCounter Device) Succeed(PinCounter person, PinCounter device) =>
        (Clear(person, personPolicy), Clear(device, devicePolicy));

    /// <summary>An owner opens a person's PIN again.</summary>
    public static PinCounter Reset() => PinCounter.Fresh;

    // Cuts instants back to the latest this policy can have set: after a clock was put right, nobody waits longer than that.
    private static PinCounter WithinReach(PinCounter counter, PinPolicy policy, DateTimeOffset now) => counter with
    {
        NotBefore = Earlier(counter.NotBefore, now + policy.LongestDelay),
        AllowanceFullAt = Earlier(counter.AllowanceFullAt, now + (policy.Allowance * policy.AllowanceReturns)),
    };

    private static DateTimeOffset OpenFrom(PinCounter counter, PinPolicy policy, DateTimeOffset now)
    {
        var delayed = counter.NotBefore ?? now;
        var allowed = (counter.AllowanceFullAt ?? now) - ((policy.Allowance - 1) * policy.AllowanceReturns);
        return delayed > allowed ? delayed : allowed;
    }

    private static PinCounter Count(PinCounter counter, PinPolicy policy, DateTimeOffset now)
    {
        var misses = counter.Misses + 1;
        var doublings = misses - policy.FreeMisses;
        DateTimeOffset? notBefore = null;
        if (doublings >= 0)
        {
            // 2^20 minutes is two years: beyond any longest delay, and far from overflow.
            var delay = policy.FirstDelay * Math.Pow(2, Math.Min(doublings, 20));
            notBefore = now + (delay < policy.LongestDelay ? delay : policy.LongestDelay);
        }

        var full = counter.AllowanceFullAt is { } at && at > now ? at : now;
        return new PinCounter(misses, notBefore, full + policy.AllowanceReturns, policy.LockAfter is { } limit && misses >= limit);
    }

    private static PinCounter Clear(PinCounter counter, PinPolicy policy) =>
        PinCounter.Fresh with { AllowanceFullAt = counter.AllowanceFullAt - policy.AllowanceReturns };

    private static DateTimeOffset? Earlier(DateTimeOffset? one, DateTimeOffset other) => one > other ? other : one;

    private static string Wait(TimeSpan time)
    {
        var seconds = Math.Ceiling(time.TotalSeconds);
        return seconds <= 1 ? "a second"
            : seconds < 90 ? string.Create(CultureInfo.InvariantCulture, $"{seconds} seconds")
            : string.Create(CultureInfo.InvariantCulture, $"{Math.Ceiling(time.TotalMinutes)} minutes");
    }
}
