namespace ShopFloor.Engineering.Waves;

/// <summary>Sound as samples, 1 being digital full scale.</summary>
/// <param name="SampleRateHertz">Samples per second, Hz.</param>
/// <param name="Channels">Samples of each channel, all of one length.</param>
public sealed record SampledSound(int SampleRateHertz, IReadOnlyList<double[]> Channels)
{
    /// <summary>Samples per channel.</summary>
    public int Length => Channels[0].Length;
}
