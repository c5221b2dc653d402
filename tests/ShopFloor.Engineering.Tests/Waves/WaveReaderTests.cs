using System.Buffers.Binary;
using System.Diagnostics;
using CsCheck;
using ShopFloor.Engineering.Waves;

namespace ShopFloor.Engineering.Tests.Waves;

/// <summary>Sound files read, whoever wrote them: ours, those of sox and of SciPy (Debian's packages), and damaged ones.</summary>
public class WaveReaderTests
{
    private static readonly double[] _left = [0, 0.5, -0.5, 0.25, -1, 0.999];
    private static readonly double[] _right = [0.1, -0.2, 0.3, -0.4, 0.5, -0.6];

    [Theory]
    [InlineData(16, 1.0 / 16_384)]
    [InlineData(24, 1.0 / 4_194_304)]
    public void What_we_write_comes_back(int bits, double within)
    {
        var sound = WaveReader.Read(WaveFile.Write(new SampledSound(96_000, [_left, _right]), bits), out var format);

        Assert.Equal(new WaveFormat(96_000, 2, bits, false), format);
        Assert.All(_left.Zip(sound.Channels[0]), pair => Assert.Equal(pair.First, pair.Second, 2 * within));
        Assert.All(_right.Zip(sound.Channels[1]), pair => Assert.Equal(pair.First, pair.Second, 2 * within));
    }

    /// <summary>sox writes 24 and 32 bits and more than two channels with the extensible header.</summary>
    [Theory]
    [InlineData("signed-integer", 16, 44_100, 1)]
    [InlineData("signed-integer", 24, 48_000, 2)]
    [InlineData("signed-integer", 32, 96_000, 3)]
    [InlineData("floating-point", 32, 192_000, 2)]
    public void Every_kind_sox_writes_is_read(string encoding, int bits, int rate, int channels)
    {
        var file = Sox(rate, encoding, bits, channels);

        var sound = WaveReader.Read(file, out var format);

        Assert.Equal(new WaveFormat(rate, channels, bits, encoding == "floating-point"), format);
        Assert.Equal(rate / 10, sound.Length);
        // A sine of 1 kHz at half of full scale: its peak 0.5, its rms 0.35355, and 100 periods in 0.1 s.
        Assert.All(sound.Channels, channel =>
        {
            Assert.Equal(0.5, channel.Max(), 1e-3);
            Assert.Equal(0.5 / Math.Sqrt(2), Math.Sqrt(channel.Average(sample => sample * sample)), 1e-3);
            Assert.Equal(100, Enumerable.Range(1, channel.Length - 1).Count(n => channel[n - 1] < 0 && channel[n] >= 0), 1.0);
        });
    }

    [Fact]
    public void Rf64_with_its_64_bit_sizes_is_read()
    {
        var plain = WaveFile.Write(new SampledSound(48_000, [_left]), 24);
        byte[] sizes = [.. "ds64"u8, 28, 0, 0, 0, .. new byte[28]];
        BinaryPrimitives.WriteUInt64LittleEndian(sizes.AsSpan(16), (ulong)(_left.Length * 3));
        byte[] file = [.. "RF64"u8, 255, 255, 255, 255, .. "WAVE"u8, .. sizes, .. plain[12..]];
        var data = file.AsSpan().IndexOf("data"u8);
        BinaryPrimitives.WriteUInt32LittleEndian(file.AsSpan(data + 4), 0xFFFF_FFFF);

        Assert.Equal(WaveReader.Read(plain).Channels[0], WaveReader.Read(file).Channels[0]);
    }

    [Fact]
    public void A_chunk_between_is_passed_over_with_its_padding()
    {
        var plain = WaveFile.Write(new SampledSound(48_000, [_left]), 16);
        byte[] file = [.. plain[..36], .. "LIST"u8, 3, 0, 0, 0, 1, 2, 3, 0, .. plain[36..]];

        Assert.Equal(WaveReader.Read(plain).Channels[0], WaveReader.Read(file).Channels[0]);
    }

    [Fact]
    public void A_file_cut_off_says_at_which_byte()
    {
        var file = WaveFile.Write(new SampledSound(48_000, [_left]), 16);

        var refused = Assert.Throws<WaveFormatException>(() => WaveReader.Read(file.AsSpan(0, 50)));

        Assert.Equal(50, refused.ByteOffset);
        Assert.Contains("12 bytes; the file ends after 6. It is cut off. (byte 50)", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, 'X', "does not begin with RIFF")]
    [InlineData(8, 'X', "holds no WAVE")]
    [InlineData(20, 2, "format 2")]
    [InlineData(22, 0, "0 channels")]
    [InlineData(34, 8, "8 bits")]
    [InlineData(32, 3, "said to take 3 bytes")]
    public void What_is_wrong_in_the_header_is_said(int at, int value, string words)
    {
        var file = WaveFile.Write(new SampledSound(48_000, [_left]), 16);
        file[at] = (byte)value;

        Assert.Contains(words, Assert.Throws<WaveFormatException>(() => WaveReader.Read(file)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_value_that_is_no_number_is_named_with_its_byte()
    {
        var file = Sox(48_000, "floating-point", 32, 1);
        var data = file.AsSpan().IndexOf("data"u8) + 8;
        BinaryPrimitives.WriteSingleLittleEndian(file.AsSpan(data + 40), float.NaN);

        var refused = Assert.Throws<WaveFormatException>(() => WaveReader.Read(file));

        Assert.Equal(data + 40, refused.ByteOffset);
        Assert.Contains("Sample 11 of channel 1", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_beyond_the_limit_is_not_begun() =>
        Assert.Contains("at most 40", Assert.Throws<WaveFormatException>(() => WaveReader.Read(WaveFile.Write(new SampledSound(48_000, [_left])), 40)).Message, StringComparison.Ordinal);

    [Fact]
    public void Damaged_files_are_refused_and_never_crash()
    {
        byte[][] good = [WaveFile.Write(new SampledSound(48_000, [_left, _right]), 24), Sox(48_000, "floating-point", 32, 3)[..400], [.. "RF64"u8, .. WaveFile.Write(new SampledSound(48_000, [_left]))[4..]]];
        Gen.Select(Gen.Int[0, 2], Gen.Int[0, 400], Gen.Select(Gen.Int[0, 120], Gen.Byte).Array[0, 6]).Sample(one =>
        {
            var (which, length, changes) = one;
            byte[] file = good[which][..Math.Min(length, good[which].Length)];
            foreach (var (at, value) in changes.Where(change => change.Item1 < file.Length))
                file[at] = value;
            try
            {
                Assert.True(WaveReader.Read(file).Length > 0);
            }
            catch (WaveFormatException refused)
            {
                Assert.InRange(refused.ByteOffset, 0, file.Length);
            }
        }, iter: 20_000);
        Gen.Byte.Array[0, 200].Sample(file => Assert.Throws<WaveFormatException>(() => WaveReader.Read(file)), iter: 2_000);
    }

    private static byte[] Sox(int rate, string encoding, int bits, int channels)
    {
        var file = Path.GetTempFileName() + ".wav";
        try
        {
            string[] arguments = ["-D", "-n", "-r", $"{rate}", "-e", encoding, "-b", $"{bits}", "-c", $"{channels}", file, "synth", "0.1", "sine", "1000", "vol", "0.5"];
            using var process = Process.Start(new ProcessStartInfo("sox", arguments) { RedirectStandardError = true })!; // started or thrown
            var said = process.StandardError.ReadToEnd();
            process.WaitForExit();
            Assert.True(process.ExitCode == 0, said);
            return File.ReadAllBytes(file);
        }
        finally
        {
            File.Delete(file);
        }
    }
}
