namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>A resistance at one place: fuse holder, connector, termination, or the chassis as a return.</summary>
public sealed record LumpedResistance : FeedElement
{
    /// <summary>Resistance, Ω (0 to 1 000 000).</summary>
    public required double Ohms { get; init; }
}

/// <summary>A fuse. Its rating is <see cref="FeedElement.RatedAmperes"/>, which it must have.</summary>
public sealed record FuseElement : FeedElement
{
    /// <summary>Resistance of the element, Ω (0 to 1000).</summary>
    public required double Ohms { get; init; }

    /// <summary>Largest current it can interrupt, A, or null when not known.</summary>
    public double? InterruptAmperes { get; init; }

    /// <summary>Whether that figure is only remembered. The fuse is then taken to open above it too, and warned of.</summary>
    public bool InterruptIsFromMemory { get; init; }

    /// <summary>Whether it has opened.</summary>
    public bool IsBlown { get; init; }
}

/// <summary>A switch or the contact of a relay.</summary>
public sealed record FeedSwitch : FeedElement
{
    /// <summary>Contact resistance when closed, Ω (0 to 1000).</summary>
    public double ClosedOhms { get; init; }

    /// <summary>Whether current can flow.</summary>
    public required bool IsClosed { get; init; }
}

/// <summary>A capacitor. It carries no steady current and is there so that the network is whole.</summary>
public sealed record FeedCapacitor : FeedElement
{
    /// <summary>Capacitance, F (above 0, up to 100 000).</summary>
    public required double Farads { get; init; }
}
