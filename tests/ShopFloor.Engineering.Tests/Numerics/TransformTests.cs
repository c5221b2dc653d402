using System.Numerics;
using CsCheck;
using ShopFloor.Engineering.Numerics;

namespace ShopFloor.Engineering.Tests.Numerics;

/// <summary>Transform and Bessel function against SciPy and against their definitions.</summary>
public class TransformTests
{
    [Theory]
    [InlineData(2)]
    [InlineData(16)]
    [InlineData(1 << 15)]
    [InlineData(1 << 18)]
    public void A_spectrum_is_that_of_scipy(int length)
    {
        var random = new Random(length);
        double[] samples = [.. Enumerable.Range(0, length - length / 5).Select(_ => random.NextDouble() - 0.5)];

        var ours = Fft.OfReal(samples, length);
        var theirs = Scipy.Run($"s = scipy.fft.rfft(inputs[0], {length}); result = np.column_stack([s.real, s.imag])", samples);

        Assert.Equal(theirs.Length, 2 * ours.Length);
        Assert.All(Enumerable.Range(0, ours.Length), k =>
        {
            Assert.Equal(theirs[2 * k], ours[k].Real, 1e-12 * length);
            Assert.Equal(theirs[2 * k + 1], ours[k].Imaginary, 1e-12 * length);
        });
    }

    [Fact]
    public void Every_short_transform_is_the_sum_it_is_defined_by() =>
        Gen.Select(Gen.Int[0, 9], Gen.Int[1, int.MaxValue]).Sample(pair =>
        {
            var (exponent, seed) = pair;
            var random = new Random(seed);
            Complex[] data = [.. Enumerable.Range(0, 1 << exponent).Select(_ => new Complex(random.NextDouble() - 0.5, random.NextDouble() - 0.5))];
            Complex[] ours = [.. data];
            Fft.Forward(ours);
            for (var k = 0; k < data.Length; k++)
            {
                var sum = Complex.Zero;
                for (var n = 0; n < data.Length; n++)
                    sum += data[n] * Complex.FromPolarCoordinates(1, -2 * Math.PI * ((long)k * n % data.Length) / data.Length);
                Assert.True((sum - ours[k]).Magnitude < 1e-11);
            }
        }, iter: 40);

    [Fact]
    public void Real_samples_come_back_from_their_spectrum() =>
        Gen.Select(Gen.Int[1, 14], Gen.Int[1, int.MaxValue]).Sample(pair =>
        {
            var (exponent, seed) = pair;
            var random = new Random(seed);
            double[] samples = [.. Enumerable.Range(0, 1 << exponent).Select(_ => random.NextDouble() - 0.5)];
            var back = Fft.ToReal(Fft.OfReal(samples, samples.Length));
            Assert.All(Enumerable.Range(0, samples.Length), n => Assert.Equal(samples[n], back[n], 1e-13));
        }, iter: 30);

    [Fact]
    public void A_length_that_is_no_power_of_two_is_refused()
    {
        Assert.Throws<ArgumentException>(() => Fft.Forward(new Complex[12]));
        Assert.Throws<ArgumentException>(() => Fft.OfReal(new double[8], 4));
        Assert.Throws<ArgumentException>(() => Fft.ToReal(new Complex[8]));
        Assert.Throws<ArgumentOutOfRangeException>(() => Fft.LengthFor(0));
        Assert.Equal(1024, Fft.LengthFor(1000));
    }

    [Fact]
    public void J1_is_that_of_scipy_and_has_its_zero_where_the_tables_have_it()
    {
        double[] arguments = [0, 1e-6, 0.5, 1, 1.6163, 3.5, 10, 33.3, 250, -2.2];

        var theirs = Scipy.Run("result = scipy.special.j1(inputs[0])", arguments);

        Assert.All(arguments.Zip(theirs), pair => Assert.Equal(pair.Second, Bessel.J1(pair.First), 1e-13));
        // First zero j(1,1) = 3.83170 59702 (Abramowitz and Stegun, table 9.5).
        Assert.Equal(0, Bessel.J1(3.8317059702), 1e-10);
    }
}
