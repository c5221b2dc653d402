using System.Security.Cryptography;
using ShopFloor.Shop.Staff.Secrets;

namespace ShopFloor.Shop.Tests.Staff.Secrets;

public class PinHasherTests
{
    private static readonly byte[] Pepper = [.. Enumerable.Range(1, 32).Select(n => (byte)n)];
    private static readonly PinHasher Hasher = new(Pepper);

    [Fact]
    public void Right_pin_is_right_and_a_wrong_one_wrong()
    {
        var stored = Hasher.Hash("482917");
        Assert.Equal(PinCheck.Right, Hasher.Verify("482917", stored));
        Assert.Equal(PinCheck.Wrong, Hasher.Verify("482918", stored));
        Assert.Equal(PinCheck.Wrong, Hasher.Verify("000000", stored));
        Assert.Equal(PinCheck.Wrong, Hasher.Verify("", stored));
        Assert.Equal(PinCheck.Wrong, Hasher.Verify(null, stored));
        Assert.Equal(PinCheck.Wrong, Hasher.Verify("4829170", stored));
    }

    // Malformed input is checked as 000000 to cost the same; it must not thereby open an account whose PIN is 000000.
    [Fact]
    public void Malformed_pin_never_opens_even_where_the_stand_in_would()
    {
        var stored = Hasher.Hash("000000");
        Assert.Equal(PinCheck.Right, Hasher.Verify("000000", stored));
        Assert.Equal(PinCheck.Wrong, Hasher.Verify("", stored));
        Assert.Equal(PinCheck.Wrong, Hasher.Verify("abc", stored));
    }

    // Computed with Python's hashlib.pbkdf2_hmac and hmac over the same pepper, salt and iterations.
    [Fact]
    public void Stored_text_agrees_with_an_independent_computation() =>
        Assert.Equal(
            PinCheck.Right,
            Hasher.Verify("482917", "pin1$pbkdf2-sha512$210000$ae216c2e$000102030405060708090a0b0c0d0e0f$69c7ca8c11f097598ddbed9084768f34991cbe85343d70961f307e5cfc5961a6"));

    [Fact]
    public void Stored_text_describes_itself_and_two_of_the_same_pin_differ()
    {
        var (one, other) = (Hasher.Hash("482917"), Hasher.Hash("482917"));
        Assert.Matches(@"^pin1\$pbkdf2-sha512\$210000\$[0-9a-f]{8}\$[0-9a-f]{32}\$[0-9a-f]{64}$", one);
        Assert.NotEqual(one, other);
        Assert.DoesNotContain("482917", one, StringComparison.Ordinal);
    }

    [Fact]
    public void Another_pepper_is_told_from_a_wrong_pin()
    {
        var stored = Hasher.Hash("482917");
        var other = new PinHasher(RandomNumberGenerator.GetBytes(32));
        Assert.Equal(PinCheck.OtherPepper, other.Verify("482917", stored));

        // And the pepper really enters the hash, not only its fingerprint.
        var forged = stored.Replace(stored.Split('$')[3], other.Decoy.Split('$')[3], StringComparison.Ordinal);
        Assert.Equal(PinCheck.Wrong, other.Verify("482917", forged));
    }

    [Fact]
    public void Hash_with_fewer_iterations_than_today_asks_to_be_renewed()
    {
        var stored = Hasher.Hash("482917");
        var stronger = new PinHasher(Pepper, 220_000);
        Assert.Equal(PinCheck.RightButOutdated, stronger.Verify("482917", stored));
        Assert.Equal(PinCheck.Wrong, stronger.Verify("482918", stored));
        Assert.Equal(PinCheck.Right, Hasher.Verify("482917", stronger.Hash("482917")));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("482917")]
    [InlineData("pin1$pbkdf2-sha512$1000$00000000$00000000000000000000000000000000$0000000000000000000000000000000000000000000000000000000000000000")]
    [InlineData("pin1$pbkdf2-sha512$2000000000$00000000$00000000000000000000000000000000$0000000000000000000000000000000000000000000000000000000000000000")]
    [InlineData("pin1$pbkdf2-sha512$210000$00000000$0000000000000000000000000000000g$0000000000000000000000000000000000000000000000000000000000000000")]
    [InlineData("pin2$pbkdf2-sha512$210000$00000000$00000000000000000000000000000000$0000000000000000000000000000000000000000000000000000000000000000")]
    public void Damaged_or_weakened_stored_text_opens_nothing(string? stored) =>
        Assert.Equal(PinCheck.Unreadable, Hasher.Verify("482917", stored));

    [Fact]
    public void Decoy_looks_like_a_stored_pin_and_matches_none_of_the_common_ones()
    {
        Assert.Matches(@"^pin1\$pbkdf2-sha512\$210000\$", Hasher.Decoy);
        Assert.All(["000000", "123456", "", null], pin => Assert.Equal(PinCheck.Wrong, Hasher.Verify(pin, Hasher.Decoy)));
    }

    [Fact]
    public void Weak_settings_are_refused()
    {
        Assert.Throws<ArgumentException>(() => new PinHasher(new byte[31]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PinHasher(Pepper, 209_999));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PinHasher(Pepper, 5_000_001));
        Assert.Throws<ArgumentException>(() => Hasher.Hash("12345"));
    }
}
