using System.Reflection;
using CsCheck;
using ShopFloor.Shop.Staff.Secrets;

namespace ShopFloor.Shop.Tests.Staff.Secrets;

public class PinGuardTests
{
    private static readonly DateTimeOffset Start = new(2030, 3, 4, 7, 0, 0, TimeSpan.Zero);
    private static readonly PinGuard Guard = PinGuard.Standard;

    [Fact]
    public void Five_misses_are_free_and_then_each_doubles_the_wait()
    {
        var (person, now) = (PinCounter.Fresh, Start);
        var waits = new List<double>();
        for (var miss = 1; miss <= 9; miss++)
        {
            var decision = Guard.Ask(person, PinCounter.Fresh, now);
            Assert.True(decision.Allowed);
            person = decision.Person;
            var next = Guard.Ask(person, PinCounter.Fresh, now);
            waits.Add(next.Allowed ? 0 : (next.TryAgainAt!.Value - now).TotalMinutes);
            now = next.TryAgainAt ?? now;
        }

        // After miss 8 the allowance (8, one back every 30 minutes) is used up: 15 minutes passed since the first, 15 remain.
        // After miss 9 the next returns 30 minutes later still, which is longer than the doubled 16.
        Assert.Equal([0, 0, 0, 0, 1, 2, 4, 23, 30], waits);
    }

    [Fact]
    public void Tenth_miss_in_a_row_locks_until_an_owner_resets()
    {
        var (person, now) = (PinCounter.Fresh, Start);
        for (var miss = 1; miss <= 10; miss++)
        {
            var decision = Guard.Ask(person, PinCounter.Fresh, now);
            Assert.True(decision.Allowed, $"Try {miss}");
            person = decision.Person;
            now += TimeSpan.FromDays(1);
        }

        var locked = Guard.Ask(person, PinCounter.Fresh, now + TimeSpan.FromDays(3650));
        Assert.False(locked.Allowed);
        Assert.Null(locked.TryAgainAt);
        Assert.Contains("An owner can reset it", locked.Message, StringComparison.Ordinal);
        Assert.True(Guard.Ask(PinGuard.Reset(), PinCounter.Fresh, now).Allowed);
    }

    [Fact]
    public void Right_pin_on_the_tenth_try_opens_and_clears_the_row()
    {
        var (person, device, now) = (PinCounter.Fresh, PinCounter.Fresh, Start);
        for (var miss = 1; miss <= 10; miss++)
        {
            now += TimeSpan.FromDays(1);
            var decision = Guard.Ask(person, device, now);
            (person, device) = (decision.Person, decision.Device);
        }

        (person, device) = Guard.Succeed(person, device);

        Assert.False(person.Locked);
        Assert.Equal(0, person.Misses);
        Assert.Equal(0, device.Misses);
        Assert.Null(person.NotBefore);
        Assert.True(Guard.Ask(person, device, now).Allowed);
    }

    [Fact]
    public void Honest_sign_ins_are_never_slowed_however_many_there_are()
    {
        var (person, device) = (PinCounter.Fresh, PinCounter.Fresh);
        for (var i = 0; i < 1000; i++)
        {
            var decision = Guard.Ask(person, device, Start.AddSeconds(i));
            Assert.True(decision.Allowed);
            (person, device) = Guard.Succeed(decision.Person, decision.Device);
        }
    }

    [Fact]
    public void Try_that_never_reported_back_counts_as_a_miss()
    {
        var decision = Guard.Ask(PinCounter.Fresh, PinCounter.Fresh, Start);
        Assert.Equal(1, decision.Person.Misses);
        Assert.Equal(1, decision.Device.Misses);
    }

    [Fact]
    public void Refused_try_changes_no_counter_and_says_how_long_to_wait()
    {
        var (person, device) = (PinCounter.Fresh, PinCounter.Fresh);
        for (var i = 0; i < 5; i++)
        {
            var decision = Guard.Ask(person, device, Start);
            (person, device) = (decision.Person, decision.Device);
        }

        var refused = Guard.Ask(person, device, Start.AddSeconds(18));

        Assert.False(refused.Allowed);
        Assert.Equal((person, device), (refused.Person, refused.Device));
        Assert.Equal(Start.AddMinutes(1), refused.TryAgainAt);
        Assert.Equal("Too many wrong PINs. Try again in 42 seconds, or ask an owner.", refused.Message);
    }

    // The attacker tries a wrong PIN of one person every second from as many devices as he likes.
    [Fact]
    public void Brute_force_on_one_person_gets_9_guesses_in_the_first_hour_and_10_altogether()
    {
        var looked = new List<int>();
        var person = PinCounter.Fresh;
        for (var second = 0; second < 24 * 3600; second++)
        {
            var decision = Guard.Ask(person, PinCounter.Fresh, Start.AddSeconds(second));
            person = decision.Person;
            if (decision.Allowed)
            {
                looked.Add(second);
            }
        }

        Assert.Equal(9, looked.Count(second => second < 3600));
        Assert.Equal(10, looked.Count);
        Assert.True(person.Locked);
    }

    // The person himself signs in after every fourth guess, which ends the row of misses each time.
    [Fact]
    public void Guesses_between_honest_sign_ins_stay_at_10_in_any_hour_per_person()
    {
        var looked = new List<int>();
        var person = PinCounter.Fresh;
        for (var second = 0; second < 12 * 3600; second++)
        {
            var decision = Guard.Ask(person, PinCounter.Fresh, Start.AddSeconds(second));
            person = decision.Person;
            if (decision.Allowed && looked.Count % 5 == 4)
            {
                (person, _) = Guard.Succeed(decision.Person, decision.Device);
                looked.Add(-1);
            }
            else if (decision.Allowed)
            {
                looked.Add(second);
            }
        }

        var guesses = looked.Where(second => second >= 0).ToArray();
        Assert.Equal(10, MostInAnHour(guesses));
        Assert.False(person.Locked);
    }

    // The attacker works through the staff list on one tablet: a fresh person for every guess.
    [Fact]
    public void Brute_force_from_one_device_gets_11_guesses_in_the_first_hour_and_4_in_any_later_one()
    {
        var looked = new List<int>();
        var device = PinCounter.Fresh;
        for (var second = 0; second < 24 * 3600; second++)
        {
            var decision = Guard.Ask(PinCounter.Fresh, device, Start.AddSeconds(second));
            device = decision.Device;
            if (decision.Allowed)
            {
                looked.Add(second);
            }
        }

        Assert.Equal(11, looked.Count(second => second < 3600));
        Assert.Equal(4, MostInAnHour(looked.Where(second => second >= 3600).ToArray()));
        Assert.Equal(98, looked.Count); // 5 at once, 4 while the delay doubles, then one every 16 minutes for the rest of the day
        Assert.False(device.Locked);
    }

    // He also knows one PIN, his own, and signs in between guesses to end the row of misses on the device.
    [Fact]
    public void Guesses_between_own_sign_ins_stay_at_30_in_any_hour_per_device()
    {
        var guesses = new List<int>();
        var (device, sinceSuccess) = (PinCounter.Fresh, 0);
        for (var second = 0; second < 12 * 3600; second++)
        {
            var decision = Guard.Ask(PinCounter.Fresh, device, Start.AddSeconds(second));
            device = decision.Device;
            if (!decision.Allowed)
            {
                continue;
            }

            if (sinceSuccess++ == 4)
            {
                (_, device) = Guard.Succeed(decision.Person, decision.Device);
                sinceSuccess = 0;
            }
            else
            {
                guesses.Add(second);
            }
        }

        Assert.Equal(30, MostInAnHour(guesses));
    }

    [Fact]
    public void No_pattern_of_tries_and_successes_beats_the_hourly_limits()
    {
        var step = Gen.Select(Gen.Int[0, 900], Gen.Frequency((4, false), (1, true)));
        step.Array[1, 200].Sample(steps =>
        {
            var (person, device, second) = (PinCounter.Fresh, PinCounter.Fresh, 0);
            var guesses = new List<int>();
            foreach (var (wait, right) in steps)
            {
                second += wait;
                var decision = Guard.Ask(person, device, Start.AddSeconds(second));
                (person, device) = (decision.Person, decision.Device);
                if (decision.Allowed && right)
                {
                    (person, device) = Guard.Succeed(person, device);
                }
                else if (decision.Allowed)
                {
                    guesses.Add(second);
                }
            }

            return guesses.Count == 0 || MostInAnHour(guesses) <= 10;
        });
    }

    [Fact]
    public void Clock_that_was_years_ahead_does_not_shut_anybody_out_for_years()
    {
        var (person, device) = (PinCounter.Fresh, PinCounter.Fresh);
        for (var i = 0; i < 7; i++)
        {
            var decision = Guard.Ask(person, device, Start.AddYears(5).AddMinutes(10 * i));
            (person, device) = (decision.Person, decision.Device);
        }

        var refused = Guard.Ask(person, device, Start);
        var later = Guard.Ask(refused.Person, refused.Device, Start.AddMinutes(31));

        Assert.False(refused.Allowed);
        Assert.True(later.Allowed);
    }

    // Holds the door shut between PINs and passwords: nothing here can so much as name an account or a password.
    [Fact]
    public void Pin_guard_cannot_touch_a_password()
    {
        Type[] types = [typeof(PinGuard), typeof(PinCounter), typeof(PinPolicy), typeof(PinDecision)];
        var reachable = types
            .SelectMany(type => type.GetMembers(BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly))
            .SelectMany(member => member switch
            {
                MethodBase method => method.GetParameters().Select(parameter => parameter.ParameterType),
                FieldInfo field => [field.FieldType],
                _ => Array.Empty<Type>(),
            })
            .Distinct()
            .Where(type => !type.Namespace!.StartsWith("System", StringComparison.Ordinal))
            .Select(type => type.Namespace);

        Assert.Equal(["ShopFloor.Shop.Staff.Secrets"], reachable.Distinct());
    }

    /// <summary>Most events in any closed window of 3,600 seconds.</summary>
    private static int MostInAnHour(IReadOnlyCollection<int> seconds) =>
        seconds.Max(from => seconds.Count(second => second >= from && second <= from + 3600));
}
