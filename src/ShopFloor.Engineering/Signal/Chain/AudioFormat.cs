namespace ShopFloor.Engineering.Signal.Chain;

/// <summary>Sampled sound as a source gives it.</summary>
/// <param name="SampleRateHertz">Samples per second and channel, Hz.</param>
/// <param name="Bits">Word length, bits; 1 for one-bit streams (DSD).</param>
public sealed record AudioFormat(double SampleRateHertz, int Bits)
{
    /// <summary>Whether it is a one-bit stream, which IEC 60958 does not carry as it is.</summary>
    public bool IsOneBit => Bits == 1;

    /// <summary>Bit rate of linear PCM, bit/s: bits · samples · channels.</summary>
    /// <param name="channels">Channels, 1 or more.</param>
    public double BitsPerSecond(int channels = 2) => Bits * SampleRateHertz * channels;
}
