namespace ShopFloor.Engineering.Signal.Chain;

/// <summary>What a connector carries.</summary>
public enum PortKind
{
    /// <summary>Amplifier output for a loudspeaker.</summary>
    SpeakerLevel,

    /// <summary>Line level over one conductor and a screen that is also the return.</summary>
    UnbalancedLine,

    /// <summary>Line level as the difference of two conductors.</summary>
    BalancedLine,

    /// <summary>IEC 60958 over optical fibre.</summary>
    Optical,

    /// <summary>IEC 60958 over coaxial cable.</summary>
    Coaxial,

    /// <summary>Audio over the universal serial bus.</summary>
    Usb,

    /// <summary>Short-range radio with a codec.</summary>
    Wireless,

    /// <summary>A digital audio bus of the vehicle.</summary>
    VehicleBus,
}

/// <summary>Properties of <see cref="PortKind"/>.</summary>
public static class PortKinds
{
    /// <summary>Whether it carries volts and not numbers.</summary>
    /// <param name="kind">What a connector carries.</param>
    public static bool IsAnalog(this PortKind kind) => kind is PortKind.SpeakerLevel or PortKind.UnbalancedLine or PortKind.BalancedLine;

    /// <summary>Whether an output of the one kind may be joined to an input of the other by cable alone.</summary>
    /// <remarks>
    /// A balanced output may feed an unbalanced input and the reverse, with the loss of what balancing gives (common practice, no source).
    /// A speaker-level output needs an input made for it.
    /// </remarks>
    /// <param name="output">Kind of the output.</param>
    /// <param name="input">Kind of the input.</param>
    public static bool Fits(PortKind output, PortKind input) =>
        output == input
        || (output is PortKind.UnbalancedLine or PortKind.BalancedLine && input is PortKind.UnbalancedLine or PortKind.BalancedLine);

    /// <summary>Plain words for texts.</summary>
    /// <param name="kind">What a connector carries.</param>
    public static string Words(this PortKind kind) => kind switch
    {
        PortKind.SpeakerLevel => "speaker level",
        PortKind.UnbalancedLine => "unbalanced line",
        PortKind.BalancedLine => "balanced line",
        PortKind.Optical => "optical (IEC 60958)",
        PortKind.Coaxial => "coaxial (IEC 60958)",
        PortKind.Usb => "USB audio",
        PortKind.Wireless => "wireless",
        PortKind.VehicleBus => "digital bus of the vehicle",
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };
}
