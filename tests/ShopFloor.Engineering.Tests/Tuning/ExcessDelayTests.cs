using System.Numerics;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Analysis;

namespace ShopFloor.Engineering.Tests.Tuning;

/// <summary>Group delay beyond the minimum phase, of systems whose delay is known by formula.</summary>
public class ExcessDelayTests
{
    private static readonly double[] _hertz = [.. Enumerable.Range(0, 241).Select(n => 20 * Math.Pow(2, n / 24.0))];

    [Fact]
    public void A_pure_delay_is_told_at_every_frequency()
    {
        var delays = ExcessDelay.Of(Response(f => Complex.FromPolarCoordinates(1, -2 * Math.PI * f * 0.0003)));

        Assert.All(delays, seconds => Assert.Equal(0.0003, seconds, 1e-7));
    }

    /// <summary>All-pass of second order at 200 Hz with Q 0.7: τ = (2/(Qω0))·(1 + x²)/((1 − x²)² + (x/Q)²), x = f/f0 (derivative of its phase, −2·atan(x/(Q(1 − x²)))).</summary>
    [Fact]
    public void An_all_pass_shows_its_own_delay_but_for_what_the_width_takes_off_its_top()
    {
        const double Hertz = 200, Q = 0.7;
        var delays = ExcessDelay.Of(Response(f => AllPass(f, Hertz, Q)));

        for (var n = 12; n < _hertz.Length - 12; n++)
        {
            var x = _hertz[n] / Hertz;
            var truth = 2 / (Q * 2 * Math.PI * Hertz) * (1 + x * x) / (Math.Pow(1 - x * x, 2) + Math.Pow(x / Q, 2));
            Assert.True(Math.Abs(delays[n] - truth) < 0.03 * 2.3e-3, $"{_hertz[n]} Hz: {delays[n] * 1e3} ms, by formula {truth * 1e3} ms");
        }
    }

    /// <summary>2° of noise, as tables have: between neighbours a twenty-fourth of an octave apart at 20 Hz it makes some 10 ms.</summary>
    [Fact]
    public void Noise_of_the_phase_does_not_throw_the_low_end()
    {
        var random = new Random(3);
        var noisy = Response(f => Complex.FromPolarCoordinates(1, -2 * Math.PI * f * 0.0003 + Math.PI / 90 * (2 * random.NextDouble() - 1)));

        var (smooth, plain) = (ExcessDelay.Of(noisy), MinimumPhase.Excess(noisy).ExcessDelaySeconds);

        Assert.True(plain.Take(24).Max(seconds => Math.Abs(seconds - 0.0003)) > 4e-3);
        Assert.All(smooth.Skip(4), seconds => Assert.Equal(0.0003, seconds, 1.5e-3));
    }

    [Fact]
    public void Nothing_is_told_where_the_level_lies_20_dB_below_the_band()
    {
        // A fourth-order low-pass at 500 Hz falls 24 dB an octave: 20 dB below after some 0.85 octave.
        var delays = ExcessDelay.Of(Response(f => 1 / Complex.Pow(new Complex(1 - Math.Pow(f / 500, 2), f / 500 / 0.707), 2)));

        Assert.All(Enumerable.Range(0, _hertz.Length), n => Assert.True(_hertz[n] < 500 ? double.IsFinite(delays[n]) : _hertz[n] < 1_500 || double.IsNaN(delays[n]), $"{_hertz[n]} Hz: {delays[n]}"));
    }

    private static Complex AllPass(double hertz, double middle, double q)
    {
        Complex s = new(0, hertz / middle);
        return (s * s - s / q + 1) / (s * s + s / q + 1);
    }

    private static FrequencyResponse Response(Func<double, Complex> at)
    {
        Complex[] values = [.. _hertz.Select(at)];
        return new FrequencyResponse(_hertz, [.. values.Select(value => 20 * Math.Log10(value.Magnitude))], [.. values.Select(value => value.Phase)]);
    }
}
