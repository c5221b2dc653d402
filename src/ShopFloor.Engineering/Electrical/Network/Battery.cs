using ShopFloor.Engineering.Electrical.Budget;

namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>A battery: a fixed voltage behind its internal resistance. A second battery is another of these.</summary>
public sealed record Battery : FeedElement
{
    /// <summary>Voltage without load, V (above 0, up to 1000).</summary>
    public required double OpenCircuitVolts { get; init; }

    /// <summary>Internal resistance, Ω (0 to 1000); 0 is an ideal source.</summary>
    public required double InternalOhms { get; init; }

    /// <summary>
    /// Resistance while it is being charged, Ω (above 0, up to 1000); null takes <see cref="InternalOhms"/>. A charged battery takes far less
    /// than its internal resistance alone would let in.
    /// </summary>
    public double? ChargingOhms { get; init; }

    /// <summary>Rated capacity, Ah (above 0, up to 100 000), at <see cref="RatedHours"/>; null when not known.</summary>
    public double? CapacityAmpereHours { get; init; }

    /// <summary>Hours of discharge the capacity is rated for (1 to 200). The 20-hour rate is the usual one for vehicle batteries (EN 50342-1).</summary>
    public double RatedHours { get; init; } = 20;

    /// <summary>Exponent of Peukert's law, 1 to 2.</summary>
    public double PeukertExponent { get; init; } = 1.2;

    /// <summary>
    /// Hours a full battery lasts at a steady current, by Peukert's law t = H·(C/(I·H))^k; null without capacity or current.
    /// Source: W. Peukert, Elektrotechnische Zeitschrift 18 (1897).
    /// </summary>
    /// <param name="amperes">Discharge current, A.</param>
    public double? HoursAt(double amperes) => CapacityAmpereHours is { } capacity && amperes > 1e-9
        ? Peukert.Hours(capacity, RatedHours, amperes, PeukertExponent)
        : null;
}
