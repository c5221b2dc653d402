using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Waves;

namespace ShopFloor.Engineering.Tuning.Measurements;

/// <summary>Sound files inside inputs.</summary>
internal static class WaveInput
{
    public static SampledSound? Read(InputChecks checks, string field, byte[] wave)
    {
        try
        {
            return WaveReader.Read(wave);
        }
        catch (WaveFormatException refused)
        {
            checks.Add(field, $"Sound file: {refused.Message}");
            return null;
        }
    }

    public static void Channel(InputChecks checks, string field, SampledSound sound, int channel)
    {
        if (channel < 0 || channel >= sound.Channels.Count)
            checks.Add(field, $"Channel: {channel} is not in the file; enter 0 to {sound.Channels.Count - 1}.");
    }
}
