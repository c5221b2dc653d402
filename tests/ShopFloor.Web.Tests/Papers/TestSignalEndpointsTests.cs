using System.Buffers.Binary;
using System.Net;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Tests.Papers;

public sealed class TestSignalEndpointsTests : IAsyncLifetime
{
    private readonly ShopApplication _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => ((IAsyncLifetime)_shop).DisposeAsync();

    [Theory]
    [InlineData("tone.wav?hz=50&level=-5", 20)]
    [InlineData("sweep.wav", 20)]
    [InlineData("steps.wav", 75)] // 20 to 320 Hz are four octaves of six steps: 25 tones of 3 s
    [InlineData("pink-noise.wav", 20)]
    [InlineData("polarity.wav", 10)]
    public async Task A_test_signal_is_a_wave_file_of_its_length(string file, double seconds)
    {
        var technician = await _shop.SignInAsync(ShopRole.Technician);

        var answer = await technician.GetAsync($"/documents/test-signals/{file}");

        Assert.Equal("audio/wav", answer.Content.Headers.ContentType?.MediaType);
        var bytes = await answer.Content.ReadAsByteArrayAsync();
        // RIFF WAVE, two channels of 16 bits at 48 kHz behind a header of 44 bytes.
        Assert.Equal("RIFF"u8.ToArray(), bytes[..4]);
        Assert.Equal((2, 48_000, 16), (BinaryPrimitives.ReadInt16LittleEndian(bytes.AsSpan(22)), BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan(24)), BinaryPrimitives.ReadInt16LittleEndian(bytes.AsSpan(34))));
        Assert.Equal(44 + (seconds * 48_000 * 4), bytes.Length);
        Assert.Contains(bytes[44..], sample => sample != 0);
    }

    [Theory]
    [InlineData("tone.wav?hz=5", "hz is '5'; accepted is 10 to 20000 Hz")]
    [InlineData("tone.wav?hz=NaN", "hz is 'NaN'")]
    [InlineData("tone.wav?hz=1,5", "hz is '1,5'")]
    [InlineData("sweep.wav?level=3", "level is '3'; accepted is -60 to 0 dB full scale")]
    [InlineData("pink-noise.wav?level=-3", "accepted is -60 to -12 dB full scale")]
    public async Task What_cannot_be_made_is_refused_with_its_range(string file, string words)
    {
        var answer = await (await _shop.SignInAsync(ShopRole.Technician)).GetAsync($"/documents/test-signals/{file}");

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains(words, System.Text.RegularExpressions.Regex.Unescape(await answer.Content.ReadAsStringAsync()), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Another_name_is_not_found_and_strangers_get_nothing()
    {
        Assert.Equal(HttpStatusCode.NotFound, (await (await _shop.SignInAsync(ShopRole.Owner)).GetAsync("/documents/test-signals/scream.wav")).StatusCode);
        Assert.NotEqual("audio/wav", (await _shop.Anonymous().GetAsync("/documents/test-signals/sides.wav")).Content.Headers.ContentType?.MediaType);
    }
}
