using System.Buffers.Binary;

namespace ShopFloor.Engineering.Waves;

/// <summary>How the samples of a sound file are kept.</summary>
/// <param name="SampleRateHertz">Samples per second, Hz.</param>
/// <param name="Channels">Channels.</param>
/// <param name="Bits">Bits of a sample as stored.</param>
/// <param name="IsFloat">Whether samples are floating point; else linear PCM.</param>
public sealed record WaveFormat(int SampleRateHertz, int Channels, int Bits, bool IsFloat);

/// <summary>A sound file that cannot be read, in words, with the place in the file.</summary>
/// <param name="message">What is wrong.</param>
/// <param name="byteOffset">Offset from the start of the file, bytes.</param>
public sealed class WaveFormatException(string message, long byteOffset) : FormatException($"{message} (byte {byteOffset})")
{
    /// <summary>Offset from the start of the file, bytes.</summary>
    public long ByteOffset { get; } = byteOffset;
}

/// <summary>
/// Reads RIFF WAVE and its 64-bit form RF64: linear PCM of 16, 24 and 32 bits and floating point of 32 bits, also by the extensible header
/// (Multimedia Programming Interface 1.0, 1991; WAVEFORMATEXTENSIBLE; EBU Tech 3306, RF64).
/// </summary>
/// <remarks>Full scale of PCM is 2^(bits − 1); chunks that are not needed are passed over. Nothing is read beyond the bytes given, and no more memory is taken than 8 bytes a sample.</remarks>
public static class WaveReader
{
    /// <summary>Largest file that is read, bytes.</summary>
    public const int MostBytes = 256 * 1024 * 1024;

    /// <summary>Most samples of all channels together.</summary>
    public const int MostSamples = 1 << 26;

    /// <summary>Most channels.</summary>
    public const int MostChannels = 64;

    private const ushort Pcm = 1;
    private const ushort Float = 3;
    private const ushort Extensible = 0xFFFE;
    private const uint In64 = 0xFFFF_FFFF;

    // The last 14 bytes of every sub-format GUID; the first two are the format.
    private static ReadOnlySpan<byte> SubFormatTail => [0x00, 0x00, 0x00, 0x00, 0x10, 0x00, 0x80, 0x00, 0x00, 0xAA, 0x00, 0x38, 0x9B, 0x71];

    /// <summary>Reads a file.</summary>
    /// <param name="file">Its bytes.</param>
    /// <param name="mostBytes">Largest file taken, bytes.</param>
    /// <exception cref="WaveFormatException">It is no such file, is cut off, too large, of a kind not read, or holds values that are no numbers; with the offset in bytes.</exception>
    public static SampledSound Read(ReadOnlySpan<byte> file, int mostBytes = MostBytes) => Read(file, out _, mostBytes);

    /// <summary>Reads a file and tells how its samples are kept.</summary>
    /// <param name="file">Its bytes.</param>
    /// <param name="format">How its samples are kept.</param>
    /// <param name="mostBytes">Largest file taken, bytes.</param>
    /// <exception cref="WaveFormatException">It is no such file, is cut off, too large, of a kind not read, or holds values that are no numbers; with the offset in bytes.</exception>
    public static SampledSound Read(ReadOnlySpan<byte> file, out WaveFormat format, int mostBytes = MostBytes)
    {
        if (file.Length > mostBytes)
            throw new WaveFormatException($"The file has {file.Length} bytes; at most {mostBytes} are taken.", mostBytes);
        if (file.Length < 12)
            throw new WaveFormatException($"The file has {file.Length} bytes; a WAVE file begins with 12.", file.Length);
        var is64 = file[..4].SequenceEqual("RF64"u8) || file[..4].SequenceEqual("BW64"u8);
        if (!is64 && !file[..4].SequenceEqual("RIFF"u8))
            throw new WaveFormatException("The file does not begin with RIFF or RF64; it is no WAVE file.", 0);
        if (!file[8..12].SequenceEqual("WAVE"u8))
            throw new WaveFormatException("The RIFF file holds no WAVE.", 8);

        WaveFormat? known = null;
        ulong? data64 = null;
        long at = 12;
        while (at + 8 <= file.Length)
        {
            var id = file.Slice((int)at, 4);
            var start = at + 8;
            ulong size = BinaryPrimitives.ReadUInt32LittleEndian(file[((int)at + 4)..]);
            if (id.SequenceEqual("data"u8))
            {
                if (known is null)
                    throw new WaveFormatException("The samples come before their format.", at);
                format = known;
                return Samples(file, start, is64 && size == In64 ? data64 ?? throw new WaveFormatException("The file says RF64 but holds no 64-bit sizes.", at) : size, known);
            }

            if (size > (ulong)(file.Length - start))
                throw new WaveFormatException($"The chunk “{Name(id)}” says {size} bytes; the file ends after {file.Length - start}. It is cut off.", file.Length);
            var body = file.Slice((int)start, (int)size);
            if (id.SequenceEqual("fmt "u8))
                known = Format(body, start);
            else if (id.SequenceEqual("ds64"u8) && is64)
                data64 = body.Length >= 16 ? BinaryPrimitives.ReadUInt64LittleEndian(body[8..]) : throw new WaveFormatException("The chunk of 64-bit sizes is too short.", start);
            at = start + (long)size + (long)(size & 1);
        }

        throw new WaveFormatException(known is null ? "The file ends before its format." : "The file ends before its samples.", file.Length);
    }

    private static string Name(ReadOnlySpan<byte> id)
    {
        Span<char> name = stackalloc char[4];
        for (var n = 0; n < 4; n++)
            name[n] = id[n] is >= 32 and < 127 ? (char)id[n] : '?';
        return new string(name).Trim();
    }

    private static WaveFormat Format(ReadOnlySpan<byte> body, long start)
    {
        if (body.Length < 16)
            throw new WaveFormatException($"The format takes {body.Length} bytes; at least 16 are needed.", start);
        var tag = BinaryPrimitives.ReadUInt16LittleEndian(body);
        var channels = BinaryPrimitives.ReadUInt16LittleEndian(body[2..]);
        var rate = BinaryPrimitives.ReadUInt32LittleEndian(body[4..]);
        var frame = BinaryPrimitives.ReadUInt16LittleEndian(body[12..]);
        var bits = BinaryPrimitives.ReadUInt16LittleEndian(body[14..]);
        if (tag == Extensible)
        {
            if (body.Length < 40)
                throw new WaveFormatException($"The extensible format takes {body.Length} bytes; 40 are needed.", start);
            if (!body[26..40].SequenceEqual(SubFormatTail))
                throw new WaveFormatException("The sub-format is not one of sound samples.", start + 24);
            tag = BinaryPrimitives.ReadUInt16LittleEndian(body[24..]);
        }

        if (tag is not (Pcm or Float))
            throw new WaveFormatException($"The samples are of format {tag}; linear PCM (1) and floating point (3) are read.", start);
        if (channels is < 1 or > MostChannels)
            throw new WaveFormatException($"The file says {channels} channels; 1 to {MostChannels} are read.", start + 2);
        if (rate is < 8_000 or > 384_000)
            throw new WaveFormatException($"The sample rate is {rate} Hz; 8000 to 384000 are read.", start + 4);
        if (tag == Pcm ? bits is not (16 or 24 or 32) : bits != 32)
            throw new WaveFormatException($"Samples have {bits} bits; 16, 24 and 32 are read, and 32 for floating point.", start + 14);
        if (frame != channels * bits / 8)
            throw new WaveFormatException($"A frame of {channels} × {bits} bits is said to take {frame} bytes.", start + 12);
        return new WaveFormat((int)rate, channels, bits, tag == Float);
    }

    private static SampledSound Samples(ReadOnlySpan<byte> file, long start, ulong size, WaveFormat format)
    {
        var width = format.Bits / 8;
        var frame = width * format.Channels;
        if (size > (ulong)(file.Length - start))
            throw new WaveFormatException($"The samples are said to take {size} bytes; the file ends after {file.Length - start}. It is cut off.", file.Length);
        if (size % (ulong)frame != 0)
            throw new WaveFormatException($"The samples take {size} bytes, which is no whole number of frames of {frame}.", start + (long)size);
        var length = (int)(size / (ulong)frame);
        if (length == 0)
            throw new WaveFormatException("The file holds no samples.", start);
        if ((long)length * format.Channels > MostSamples)
            throw new WaveFormatException($"The file holds {(long)length * format.Channels} samples; at most {MostSamples} are taken.", start);

        var channels = new double[format.Channels][];
        for (var channel = 0; channel < channels.Length; channel++)
        {
            var samples = channels[channel] = new double[length];
            for (var n = 0; n < length; n++)
            {
                var at = (int)start + n * frame + channel * width;
                samples[n] = Sample(file[at..], format);
                if (!double.IsFinite(samples[n]))
                    throw new WaveFormatException($"Sample {n + 1} of channel {channel + 1} is not a number.", at);
            }
        }

        return new SampledSound(format.SampleRateHertz, channels);
    }

    private static double Sample(ReadOnlySpan<byte> bytes, WaveFormat format) => (format.Bits, format.IsFloat) switch
    {
        (16, _) => BinaryPrimitives.ReadInt16LittleEndian(bytes) / 32_768.0,
        (24, _) => ((bytes[0] | bytes[1] << 8 | bytes[2] << 16) << 8 >> 8) / 8_388_608.0,
        (_, true) => BinaryPrimitives.ReadSingleLittleEndian(bytes),
        _ => BinaryPrimitives.ReadInt32LittleEndian(bytes) / 2_147_483_648.0,
    };
}
