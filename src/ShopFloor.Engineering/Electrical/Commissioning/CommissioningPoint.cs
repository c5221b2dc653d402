using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Commissioning;

/// <summary>What is measured before a new supply is given free.</summary>
public enum CommissioningKind
{
    /// <summary>Voltage of a rested battery, V.</summary>
    RestVoltage,

    /// <summary>Voltage at the battery's posts, charging, with music, V.</summary>
    ChargingVoltage,

    /// <summary>Voltage at a load under load, charging, with music, V.</summary>
    LoadVoltage,

    /// <summary>Current with the key off and the car asleep, mA.</summary>
    KeyOffDrain,

    /// <summary>AC voltage of a test tone at an amplifier's output, V rms.</summary>
    ChannelLevel,
}

/// <summary>One value to measure, with what is expected and accepted.</summary>
/// <param name="Id">Stable identifier: <c>load:</c>, <c>rest:</c> and the part, <c>gain:</c> and the channel, or the kind.</param>
/// <param name="Kind">What is measured.</param>
/// <param name="Name">Name shown to people.</param>
/// <param name="Unit">Unit of every number here: V or mA.</param>
/// <param name="How">State of the car and where the meter goes.</param>
/// <param name="Predicted">What the network solution or the part data say, in <paramref name="Unit"/>; null when not known.</param>
/// <param name="PredictedIsPart">Whether something unknown comes on top of the predicted value.</param>
/// <param name="Lowest">Lowest accepted value, to a tenth; null for none.</param>
/// <param name="Highest">Highest accepted value, to a tenth; null for none.</param>
/// <param name="Explanation">How prediction and limits were reached.</param>
public sealed record CommissioningPoint(
    string Id, CommissioningKind Kind, string Name, string Unit, string How, double? Predicted, bool PredictedIsPart, double? Lowest, double? Highest, Explanation Explanation)
{
    /// <summary>How a measured value stands: 0 within the limits, negative by how much below the lowest, positive by how much above the highest; in <see cref="Unit"/>.</summary>
    /// <param name="value">Measured value, in <see cref="Unit"/>.</param>
    public double Outside(double value) =>
        Lowest is { } low && value < low ? value - low : Highest is { } high && value > high ? value - high : 0;

    /// <summary>Largest value that can have been read from a meter here, in <see cref="Unit"/>; anything above is a slip of the finger.</summary>
    /// <remarks>200 V at a loudspeaker output are 10 kW into 4 Ω.</remarks>
    public double LargestReadable => Kind == CommissioningKind.ChannelLevel ? 200 : Unit == "V" ? 60 : 20_000;
}
