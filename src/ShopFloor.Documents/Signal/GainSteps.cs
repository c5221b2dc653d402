using ShopFloor.Engineering.Units;

namespace ShopFloor.Documents.Signal;

/// <summary>How gains are set with a voltmeter, in order. Common practice, no source.</summary>
public static class GainSteps
{
    public static IReadOnlyList<string> All(UnitText text, double overlapDecibels)
    {
        ArgumentNullException.ThrowIfNull(text);
        return
        [
            "Take the loudspeakers off the amplifier, set every gain to its least and switch tone controls and boosts off.",
            $"Play the channel's tone ({text.Number(-overlapDecibels)} dB full scale) from the source the client uses, its volume where it is to be loudest without clipping.",
            "Turn the gain up until a true-rms voltmeter on the channel's terminals shows the volts of the sheet.",
            "Switch off, put the loudspeakers back, and listen quietly for hiss and sides before anything loud.",
        ];
    }
}
