using System.Buffers.Binary;
using System.Text;

namespace ShopFloor.Engineering.Waves;

/// <summary>Writes sampled sound as RIFF WAVE, linear PCM (Multimedia Programming Interface 1.0, 1991).</summary>
public static class WaveFile
{
    private const int HeaderBytes = 44;

    /// <summary>The file as bytes. Samples beyond full scale are held at it; 16-bit samples are dithered by two uniform noises (TPDF), so that quiet tones stay clean.</summary>
    /// <param name="sound">The sound.</param>
    /// <param name="bits">Word length, 16 or 24.</param>
    /// <exception cref="ArgumentOutOfRangeException">The word length is another, or there is no channel.</exception>
    /// <exception cref="ArgumentException">The channels differ in length.</exception>
    public static byte[] Write(SampledSound sound, int bits = 24)
    {
        ArgumentNullException.ThrowIfNull(sound);
        if (bits is not (16 or 24))
            throw new ArgumentOutOfRangeException(nameof(bits), bits, "Accepted is 16 or 24.");
        ArgumentOutOfRangeException.ThrowIfZero(sound.Channels.Count);
        if (sound.Channels.Any(channel => channel.Length != sound.Length))
            throw new ArgumentException("All channels must have the same number of samples.", nameof(sound));

        var (channels, width) = (sound.Channels.Count, bits / 8);
        var data = checked(sound.Length * channels * width);
        var file = new byte[HeaderBytes + data + (data & 1)];
        Header(file, sound.SampleRateHertz, channels, width, data);
        var (at, full, dither) = (HeaderBytes, (1 << (bits - 1)) - 1, 0x2545F491u);
        for (var n = 0; n < sound.Length; n++)
        {
            foreach (var channel in sound.Channels)
            {
                // Silence stays silence: dither only where there is something to smooth.
                var noise = bits == 16 && channel[n] != 0 ? Uniform(ref dither) + Uniform(ref dither) - 1 : 0;
                var word = (int)Math.Clamp(Math.Round(channel[n] * full + noise), -full, full);
                for (var b = 0; b < width; b++)
                    file[at++] = (byte)(word >> (8 * b));
            }
        }

        return file;
    }

    private static void Header(Span<byte> file, int rate, int channels, int width, int data)
    {
        Encoding.ASCII.GetBytes("RIFF", file);
        BinaryPrimitives.WriteInt32LittleEndian(file[4..], file.Length - 8);
        Encoding.ASCII.GetBytes("WAVEfmt ", file[8..]);
        BinaryPrimitives.WriteInt32LittleEndian(file[16..], 16);
        BinaryPrimitives.WriteInt16LittleEndian(file[20..], 1); // linear PCM
        BinaryPrimitives.WriteInt16LittleEndian(file[22..], (short)channels);
        BinaryPrimitives.WriteInt32LittleEndian(file[24..], rate);
        BinaryPrimitives.WriteInt32LittleEndian(file[28..], rate * channels * width);
        BinaryPrimitives.WriteInt16LittleEndian(file[32..], (short)(channels * width));
        BinaryPrimitives.WriteInt16LittleEndian(file[34..], (short)(8 * width));
        Encoding.ASCII.GetBytes("data", file[36..]);
        BinaryPrimitives.WriteInt32LittleEndian(file[40..], data);
    }

    private static double Uniform(ref uint state)
    {
        state ^= state << 13;
        state ^= state >> 17;
        state ^= state << 5;
        return state / (double)uint.MaxValue;
    }
}
