using ShopFloor.Shop.Staff.Secrets;

namespace ShopFloor.Shop.Tests.Staff.Secrets;

public class SecretTokenTests
{
    [Fact]
    public void Token_is_43_characters_of_base64url_and_reads_back()
    {
        var token = SecretToken.Create();
        var text = token.Reveal();

        Assert.Matches("^[A-Za-z0-9_-]{43}$", text);
        Assert.True(SecretToken.TryRead(text, out var read));
        Assert.Equal(token.Hash(), read.Hash());
        Assert.True(read.Matches(token.Hash()));
    }

    // 32 zero bytes; their SHA-256 is a value published in many test suites (from memory, and equal to coreutils' sha256sum).
    [Fact]
    public void Stored_hash_is_the_SHA_256_of_the_32_bytes()
    {
        Assert.True(SecretToken.TryRead(new string('A', 43), out var zeros));
        Assert.Equal("66687aadf862bd776c8fc18b8e9f8e20089714856ee233b3902a591d0d5f2925", Convert.ToHexStringLower(zeros.Hash()));
    }

    [Fact]
    public void Thousand_tokens_differ_and_each_byte_takes_many_values()
    {
        var texts = Enumerable.Range(0, 1000).Select(_ => SecretToken.Create().Reveal()).ToArray();

        Assert.Equal(1000, texts.Distinct().Count());
        Assert.All(Enumerable.Range(0, 42), place => Assert.True(texts.Select(text => text[place]).Distinct().Count() > 50));
    }

    [Fact]
    public void Another_token_a_cut_hash_and_no_hash_do_not_match()
    {
        var token = SecretToken.Create();
        Assert.False(token.Matches(SecretToken.Create().Hash()));
        Assert.False(token.Matches(token.Hash().AsSpan(0, 31)));
        Assert.False(token.Matches([]));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("AAAA")]
    [InlineData("AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAB")] // spare bits set: a second spelling of 32 zero bytes
    [InlineData("AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=")]
    [InlineData("AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA+")]
    [InlineData("AAAAAAAAAAAAAAAAAAAAA AAAAAAAAAAAAAAAAAAAAA")]
    [InlineData("AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")]
    [InlineData("ÄAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")]
    public void Other_spellings_are_not_tokens(string? text) => Assert.False(SecretToken.TryRead(text, out _));

    [Fact]
    public void Token_does_not_show_itself_in_a_log()
    {
        var token = SecretToken.Create();
        Assert.DoesNotContain(token.Reveal(), $"{token}", StringComparison.Ordinal);
        Assert.Equal("SecretToken (hidden)", token.ToString());
    }
}
